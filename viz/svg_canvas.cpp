#include "viz/svg_canvas.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace drumlin::viz {
namespace {

/// Widths of the letters from space to tilde [1/1000 of the size]. Source: Adobe font metrics of
/// Helvetica, from memory; tests/unit/svg_canvas_test.cpp compares with a font of the same widths.
constexpr std::array<int, 95> letter_widths{
    278,  278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,  //
    556,  556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,  //
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,  //
    667,  778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,  //
    333,  556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,  //
    556,  556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584};

std::string number(double value) {
  std::string text = fmt::format("{:.1f}", value);
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  if (text == "-0") text = "0";
  return text;
}

std::string paint(const char* what, Colour colour) {
  std::string text =
      fmt::format(" {}=\"#{:02x}{:02x}{:02x}\"", what, colour.red, colour.green, colour.blue);
  if (colour.alpha != 255)
    text += fmt::format(" {}-opacity=\"{:.2f}\"", what, colour.alpha / 255.0);
  return text;
}

double distance_to_chord(Point p, Point a, Point b) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  if (length < 1e-9) return std::hypot(p.x - a.x, p.y - a.y);
  return std::abs((b.x - a.x) * (a.y - p.y) - (a.x - p.x) * (b.y - a.y)) / length;
}

/// Leaves out the points that a line can do without: none of them lies farther than the slack from
/// the line that is left. Source: Douglas and Peucker (1973).
std::vector<Point> thinned(std::span<const Point> points) {
  constexpr double slack = 0.12;  // [pixel]: nobody sees it, and files are a fifth of the size
  if (points.size() < 3) return {points.begin(), points.end()};
  std::vector<bool> keep(points.size(), false);
  keep.front() = keep.back() = true;
  std::vector<std::pair<std::size_t, std::size_t>> open{{0, points.size() - 1}};
  while (!open.empty()) {
    const auto [first, last] = open.back();
    open.pop_back();
    double farthest = slack;
    std::size_t at = first;
    for (std::size_t i = first + 1; i < last; ++i) {
      const double d = distance_to_chord(points[i], points[first], points[last]);
      if (d > farthest) {
        farthest = d;
        at = i;
      }
    }
    if (at == first) continue;
    keep[at] = true;
    open.emplace_back(first, at);
    open.emplace_back(at, last);
  }
  std::vector<Point> out;
  for (std::size_t i = 0; i < points.size(); ++i)
    if (keep[i]) out.push_back(points[i]);
  return out;
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        if (static_cast<unsigned char>(c) >= 0x20 || c == '\n' || c == '\t') out += c;
    }
  }
  return out;
}

SvgCanvas::SvgCanvas(double width, double height, std::string id)
    : Canvas(width, height), id_(std::move(id)) {}

void SvgCanvas::fill_between(std::span<const Point> lower, std::span<const Point> upper,
                             Colour colour) {
  const std::size_t n = std::min(lower.size(), upper.size());
  if (n < 2 || colour.alpha == 0) return;
  const double top = sheet().top;
  std::string path;
  const auto go = [&](const Point& p) {
    fmt::format_to(std::back_inserter(path), "{}{} {}", path.empty() ? "M" : "L", number(p.x),
                   number(top - p.y));
  };
  for (const Point& p : thinned(lower.first(n)))
    go(p);
  std::vector<Point> back = thinned(upper.first(n));
  std::for_each(back.rbegin(), back.rend(), go);
  fmt::format_to(std::back_inserter(shapes_), "<path d=\"{}Z\"{}/>\n", path, paint("fill", colour));
}

void SvgCanvas::triangle(Point a, Point b, Point c, Colour colour) {
  const std::array lower{a, b};
  const std::array upper{a, c};
  fill_between(lower, upper, colour);
}

void SvgCanvas::line(std::span<const Point> points, const Stroke& stroke) {
  if (points.size() < 2) return;
  const double top = sheet().top;
  std::string path;
  for (const Point& p : thinned(points))
    fmt::format_to(std::back_inserter(path), "{}{} {}", path.empty() ? "M" : "L", number(p.x),
                   number(top - p.y));
  const std::string dash = stroke.dash > 0
                               ? fmt::format(" stroke-dasharray=\"{} {}\"", number(stroke.dash),
                                             number(0.7 * stroke.dash))
                               : std::string();
  fmt::format_to(std::back_inserter(shapes_),
                 "<path d=\"{}\" fill=\"none\"{} stroke-width=\"{}\"{}/>\n", path,
                 paint("stroke", stroke.colour), number(stroke.width), dash);
}

void SvgCanvas::text(Point at, std::string_view text, const TextStyle& style) {
  if (text.empty()) return;
  constexpr std::array anchors{"start", "middle", "end"};
  // The line of writing lies this far above or below the point [of the size].
  constexpr std::array shifts{-0.21, 0.35, 0.76};
  const double shift = shifts.at(static_cast<std::size_t>(style.along)) * style.size;
  const double x = at.x;
  const double y = sheet().top - at.y;
  std::string more = paint("fill", style.colour);
  if (style.across != Across::left)
    more += fmt::format(" text-anchor=\"{}\"", anchors.at(static_cast<std::size_t>(style.across)));
  if (style.bold) more += " font-weight=\"bold\"";
  if (style.halo)
    more += fmt::format(" stroke=\"#fff\" stroke-width=\"{}\" paint-order=\"stroke\"",
                        number(0.3 * style.size));
  if (style.angle != 0)
    more +=
        fmt::format(" transform=\"rotate({} {} {})\"", number(-style.angle), number(x), number(y));
  fmt::format_to(std::back_inserter(shapes_),
                 "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}>{}</text>\n", number(x),
                 number(y + shift), number(style.size), more, escaped(text));
}

double SvgCanvas::text_width(std::string_view text, const TextStyle& style) {
  constexpr int other_letter = 600;    // such as the micro sign and the arrows
  constexpr double reserve = 1.05;     // other fonts
  constexpr double bold_wider = 1.07;  // Helvetica bold, on the average
  double width = 0;
  for (const char c : text) {
    if (!starts_character(c)) continue;
    const int at = static_cast<unsigned char>(c) - ' ';
    width += at >= 0 && at < static_cast<int>(letter_widths.size())
                 ? letter_widths[static_cast<std::size_t>(at)]
                 : other_letter;
  }
  return reserve * (style.bold ? bold_wider : 1.0) * width * style.size / 1000;
}

void SvgCanvas::clip(std::optional<Box> box) {
  if (clipped_) shapes_ += "</g>\n";
  clipped_ = box.has_value();
  if (!box) return;
  const std::string name = fmt::format("{}-clip{}", id_, clips_++);
  fmt::format_to(std::back_inserter(shapes_),
                 "<clipPath id=\"{0}\"><rect x=\"{1}\" y=\"{2}\" width=\"{3}\" "
                 "height=\"{4}\"/></clipPath><g clip-path=\"url(#{0})\">\n",
                 name, number(box->left), number(sheet().top - box->top), number(box->width()),
                 number(box->height()));
}

std::string SvgCanvas::shapes() const {
  return shapes_ + (clipped_ ? "</g>\n" : "");
}

std::string SvgCanvas::element(std::string_view title, std::string_view desc,
                               bool standalone) const {
  const std::string head = standalone ? "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" : "";
  return head + svg_element({.id = id_,
                             .width = sheet().right,
                             .height = sheet().top,
                             .title = title,
                             .desc = desc},
                            shapes());
}

std::string svg_element(const SvgFrame& frame, std::string_view shapes) {
  const std::string desc = frame.desc.empty() ? ""
                                              : fmt::format("<desc id=\"{}-desc\">{}</desc>\n",
                                                            frame.id, escaped(frame.desc));
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" role=\"img\" "
      "xml:space=\"preserve\" aria-labelledby=\"{2}-title{3}\" font-family=\"Arial, Helvetica, "
      "'Liberation Sans', sans-serif\" stroke-linejoin=\"round\">\n<title "
      "id=\"{2}-title\">{4}</title>\n{5}{6}</svg>\n",
      number(frame.width), number(frame.height), frame.id,
      desc.empty() ? "" : fmt::format(" {}-desc", frame.id), escaped(frame.title), desc, shapes);
}

}  // namespace drumlin::viz
