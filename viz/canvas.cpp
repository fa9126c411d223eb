#include "viz/canvas.hpp"

#include <array>
#include <cmath>

namespace drumlin::viz {

Point direction(Point from, Point to) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  return length > 0 ? Point{(to.x - from.x) / length, (to.y - from.y) / length} : Point{1, 0};
}

void Canvas::fill(const Box& box, Colour colour) {
  const std::array lower{Point{box.left, box.bottom}, Point{box.right, box.bottom}};
  const std::array upper{Point{box.left, box.top}, Point{box.right, box.top}};
  fill_between(lower, upper, colour);
}

void Canvas::line(Point from, Point to, const Stroke& stroke) {
  const std::array points{from, to};
  line(points, stroke);
}

void Canvas::frame(const Box& box, const Stroke& stroke) {
  const double h = stroke.width / 2;
  line({box.left - h, box.bottom}, {box.right + h, box.bottom}, stroke);
  line({box.left - h, box.top}, {box.right + h, box.top}, stroke);
  line({box.left, box.bottom}, {box.left, box.top}, stroke);
  line({box.right, box.bottom}, {box.right, box.top}, stroke);
}

void Canvas::arrow(Point from, Point to, const Stroke& stroke) {
  const double size = 4 + 3 * stroke.width;
  const Point d = direction(from, to);
  const Point neck{to.x - d.x * size, to.y - d.y * size};
  line(from, neck, stroke);
  triangle(to, {neck.x - d.y * size * 0.42, neck.y + d.x * size * 0.42},
           {neck.x + d.y * size * 0.42, neck.y - d.x * size * 0.42}, stroke.colour);
}

double Canvas::paragraph(Point at, double width, std::string_view text, const TextStyle& style) {
  constexpr double leading = 1.32;
  TextStyle top = style;
  top.along = Along::top;
  double used = 0;
  for (const std::string& row : broken_into_lines(*this, text, width, style)) {
    this->text({at.x, at.y - used}, row, top);
    used += leading * style.size;
  }
  return used;
}

std::vector<std::string> broken_into_lines(Canvas& canvas, std::string_view text, double width,
                                           const TextStyle& style) {
  std::vector<std::string> rows;
  std::string row;
  while (!text.empty()) {
    const std::size_t space = text.find(' ');
    const std::string word(text.substr(0, space));
    text.remove_prefix(space == std::string_view::npos ? text.size() : space + 1);
    std::string longer = row;
    if (!row.empty()) longer += ' ';
    longer += word;
    if (!row.empty() && canvas.text_width(longer, style) > width) {
      rows.push_back(row);
      row = word;
    } else {
      row = longer;
    }
  }
  if (!row.empty()) rows.push_back(row);
  return rows;
}

std::string shortened(Canvas& canvas, std::string text, double width, const TextStyle& style) {
  std::string dots;
  while (!text.empty() && canvas.text_width(text + dots, style) > width) {
    while (text.size() > 1 && !starts_character(text.back()))
      text.pop_back();
    text.pop_back();
    dots = "...";
  }
  return text + dots;
}

}  // namespace drumlin::viz
