#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace drumlin::viz {

struct Colour {
  unsigned char red = 0, green = 0, blue = 0, alpha = 255;

  [[nodiscard]] constexpr Colour faded(unsigned char to) const { return {red, green, blue, to}; }
};

/// Colours of all pictures. Hues are those of Okabe and Ito (2008), which stay apart for the common
/// kinds of colour blindness; lightness is set so that they stay apart in a grey print too, and
/// burr and face are dark enough for letters on paper. tests/unit/palette_test.cpp holds them to
/// that.
namespace palette {
inline constexpr Colour paper{255, 255, 255};
inline constexpr Colour ink{25, 28, 33};
inline constexpr Colour quiet{92, 99, 108};
inline constexpr Colour grid{219, 223, 228};
inline constexpr Colour metal{171, 178, 186};
inline constexpr Colour worn{241, 232, 208};
inline constexpr Colour coating{0, 163, 118};
inline constexpr Colour burr{200, 80, 0};
inline constexpr Colour face{0, 96, 158};
inline constexpr Colour belt{74, 36, 8};
inline constexpr Colour cover{240, 197, 122};
}  // namespace palette

/// A place on the sheet [pixel], from the lower left corner.
struct Point {
  double x = 0;
  double y = 0;
};

struct Box {
  double left = 0, bottom = 0, right = 0, top = 0;

  [[nodiscard]] constexpr double width() const { return right - left; }
  [[nodiscard]] constexpr double height() const { return top - bottom; }
};

enum class Across { left, middle, right };
enum class Along { bottom, middle, top };

struct TextStyle {
  double size = 24;  ///< [pixel]
  Colour colour = palette::ink;
  bool bold = false;
  Across across = Across::left;  ///< which part of the text stands at the point
  Along along = Along::bottom;
  double angle = 0;   ///< [degree], anticlockwise
  bool halo = false;  ///< paper behind the letters, where they cross lines
};

struct Stroke {
  Colour colour = palette::ink;
  double width = 3;  ///< [pixel]
  double dash = 0;   ///< [pixel] length of dash and of half the gap; 0: drawn through
};

/// A sheet to draw on: filled shapes, lines and text in pixels. What draws knows no more than this,
/// so that one drawing becomes a PNG picture (`VtkCanvas`) and a vector one (`SvgCanvas`).
class Canvas {
 public:
  Canvas(double width, double height) : width_(width), height_(height) {}
  virtual ~Canvas() = default;
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;
  Canvas(Canvas&&) = delete;
  Canvas& operator=(Canvas&&) = delete;

  [[nodiscard]] Box sheet() const { return {0, 0, width_, height_}; }

  /// Fills between two lines with the same number of points.
  virtual void fill_between(std::span<const Point> lower, std::span<const Point> upper,
                            Colour colour) = 0;
  virtual void triangle(Point a, Point b, Point c, Colour colour) = 0;
  virtual void line(std::span<const Point> points, const Stroke& stroke) = 0;
  virtual void text(Point at, std::string_view text, const TextStyle& style) = 0;
  void text(Point at, std::string_view words) { text(at, words, {}); }
  [[nodiscard]] virtual double text_width(std::string_view text, const TextStyle& style) = 0;
  /// What is drawn from now on shows inside the box only; no value: everywhere.
  virtual void clip(std::optional<Box> box) = 0;

  void fill(const Box& box, Colour colour);
  void line(Point from, Point to, const Stroke& stroke);
  void frame(const Box& box, const Stroke& stroke);
  /// Line with a head at its end.
  void arrow(Point from, Point to, const Stroke& stroke);
  /// Text broken between words into lines of at most `width`, downwards from `at`;
  /// @return height used [pixel].
  double paragraph(Point at, double width, std::string_view text, const TextStyle& style = {});

 private:
  double width_;
  double height_;
};

/// From one place towards another, of length 1; (1, 0) where both are the same.
[[nodiscard]] Point direction(Point from, Point to);

/// Cuts a text between words so that no line is longer than `width`.
[[nodiscard]] std::vector<std::string> broken_into_lines(Canvas& canvas, std::string_view text,
                                                         double width, const TextStyle& style);

/// Whether a byte of UTF-8 begins a character.
[[nodiscard]] constexpr bool starts_character(char c) {
  constexpr unsigned following = 0x80;  // bytes of a character after its first are 10xxxxxx
  return (static_cast<unsigned char>(c) & 0xC0U) != following;
}

/// The text, or as many of its first characters as `width` has room for, and dots.
[[nodiscard]] std::string shortened(Canvas& canvas, std::string text, double width,
                                    const TextStyle& style);

}  // namespace drumlin::viz
