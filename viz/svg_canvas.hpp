#pragma once

#include <string>

#include "viz/canvas.hpp"

namespace drumlin::viz {

/// A sheet of vector graphics (SVG 1.1, W3C 2011): needs no graphics library, prints sharp at any
/// size, and its text can be read out and searched.
class SvgCanvas final : public Canvas {
 public:
  /// @param id  begins the name of everything in the drawing that has to be unique in a page.
  SvgCanvas(double width, double height, std::string id);

  using Canvas::line;
  using Canvas::text;
  void fill_between(std::span<const Point> lower, std::span<const Point> upper,
                    Colour colour) override;
  void triangle(Point a, Point b, Point c, Colour colour) override;
  void line(std::span<const Point> points, const Stroke& stroke) override;
  void text(Point at, std::string_view text, const TextStyle& style) override;
  /// Width in Helvetica, with some reserve since the reader's font may run wider.
  [[nodiscard]] double text_width(std::string_view text, const TextStyle& style) override;
  void clip(std::optional<Box> box) override;

  /// The drawn shapes without an <svg> around them.
  [[nodiscard]] std::string shapes() const;
  /// The whole drawing as an element for a page or, with `standalone`, as a file of its own.
  /// @param title  what is seen, in words: read out by a screen reader.
  /// @param desc   what it shows, in a sentence or two.
  [[nodiscard]] std::string element(std::string_view title, std::string_view desc,
                                    bool standalone = false) const;

 private:
  std::string id_;
  std::string shapes_;
  int clips_ = 0;
  bool clipped_ = false;
};

/// What an <svg> element says about itself.
struct SvgFrame {
  std::string_view id;       ///< begins the names of its title and description
  double width = 0;          ///< [pixel]
  double height = 0;         ///< [pixel]
  std::string_view title{};  ///< read out by a screen reader
  std::string_view desc{};   ///< what it shows; empty: the title says it
};

/// Shapes as an element that looks and reads like every other drawing.
[[nodiscard]] std::string svg_element(const SvgFrame& frame, std::string_view shapes);

/// Text with the characters that HTML and SVG take for themselves (&, <, >, quotes) replaced, and
/// those that no XML file may hold left out.
[[nodiscard]] std::string escaped(std::string_view text);

}  // namespace drumlin::viz
