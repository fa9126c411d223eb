#include "viz/vtk_canvas.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <vtkBrush.h>
#include <vtkContext2D.h>
#include <vtkContextDevice2D.h>
#include <vtkPen.h>
#include <vtkTextProperty.h>

namespace drumlin::viz {
namespace {

void push(std::vector<float>& out, Point p) {
  out.push_back(static_cast<float>(p.x));
  out.push_back(static_cast<float>(p.y));
}

/// Points that lie closer than a fraction of a pixel give no direction; they are left out.
std::vector<Point> without_repeats(std::span<const Point> points) {
  constexpr double least = 0.3;
  std::vector<Point> out;
  for (const Point& p : points)
    if (out.empty() || std::hypot(p.x - out.back().x, p.y - out.back().y) > least) out.push_back(p);
  return out;
}

int set_colour(vtkBrush& brush, Colour c) {
  brush.SetColor(c.red, c.green, c.blue, c.alpha);
  return c.alpha;
}

}  // namespace

VtkCanvas::VtkCanvas(vtkContext2D& painter, int width, int height)
    : Canvas(width, height), painter_(painter) {
  painter_.GetPen()->SetLineType(vtkPen::NO_PEN);
}

void VtkCanvas::fill_between(std::span<const Point> lower, std::span<const Point> upper,
                             Colour colour) {
  const std::size_t n = std::min(lower.size(), upper.size());
  if (n < 2 || set_colour(*painter_.GetBrush(), colour) == 0) return;
  std::vector<float> strip;
  strip.reserve(4 * n);
  for (std::size_t i = 0; i < n; ++i) {
    push(strip, lower[i]);
    push(strip, upper[i]);
  }
  painter_.DrawQuadStrip(strip.data(), static_cast<int>(2 * n));
}

void VtkCanvas::triangle(Point a, Point b, Point c, Colour colour) {
  set_colour(*painter_.GetBrush(), colour);
  std::vector<float> corners;
  for (const Point& p : {a, b, c})
    push(corners, p);
  painter_.DrawPolygon(corners.data(), 3);
}

/// Draws a thick line as one strip of quads with mitred corners: lines of the graphics library
/// are one pixel wide on some machines.
void VtkCanvas::stroke_piece(std::span<const Point> points, const Stroke& stroke) {
  constexpr double sharpest = 0.35;  // cosine of half the turn: keeps the spike of a mitre short
  const std::vector<Point> kept = without_repeats(points);
  if (kept.size() < 2) return;
  std::vector<Point> left;
  std::vector<Point> right;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    const Point in = direction(kept[i == 0 ? 0 : i - 1], kept[i == 0 ? 1 : i]);
    const Point out = i + 1 < kept.size() ? direction(kept[i], kept[i + 1]) : in;
    const Point sum{in.x + out.x, in.y + out.y};
    const double half = std::hypot(sum.x, sum.y) / 2;
    const Point middle = half > 1e-6 ? Point{sum.x / 2 / half, sum.y / 2 / half} : in;
    const double reach = stroke.width / 2 / std::max(half, sharpest);
    left.push_back({kept[i].x - middle.y * reach, kept[i].y + middle.x * reach});
    right.push_back({kept[i].x + middle.y * reach, kept[i].y - middle.x * reach});
  }
  fill_between(left, right, stroke.colour);
}

void VtkCanvas::line(std::span<const Point> points, const Stroke& stroke) {
  if (stroke.dash <= 0) {
    stroke_piece(points, stroke);
    return;
  }
  std::vector<Point> piece;
  double left = stroke.dash;  // of the present dash or gap
  bool drawing = true;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    Point at = points[i];
    const Point end = points[i + 1];
    if (drawing && piece.empty()) piece.push_back(at);
    double rest = std::hypot(end.x - at.x, end.y - at.y);
    while (rest > left) {
      const Point d = direction(at, end);
      at = {at.x + d.x * left, at.y + d.y * left};
      rest -= left;
      if (drawing) {
        piece.push_back(at);
        stroke_piece(piece, stroke);
        piece.clear();
      } else {
        piece.assign(1, at);
      }
      drawing = !drawing;
      left = drawing ? stroke.dash : stroke.dash * 0.7;
    }
    left -= rest;
    if (drawing) piece.push_back(end);
  }
  stroke_piece(piece, stroke);
}

void VtkCanvas::set_style(const TextStyle& style) {
  vtkTextProperty& property = *painter_.GetTextProp();
  property.SetFontFamilyToArial();
  property.SetFontSize(static_cast<int>(std::lround(style.size)));
  property.SetBold(style.bold ? 1 : 0);
  property.SetColor(style.colour.red / 255.0, style.colour.green / 255.0,
                    style.colour.blue / 255.0);
  property.SetOpacity(1.0);
  property.SetOrientation(style.angle);
  const std::array across{VTK_TEXT_LEFT, VTK_TEXT_CENTERED, VTK_TEXT_RIGHT};
  property.SetJustification(across.at(static_cast<std::size_t>(style.across)));
  const std::array along{VTK_TEXT_BOTTOM, VTK_TEXT_CENTERED, VTK_TEXT_TOP};
  property.SetVerticalJustification(along.at(static_cast<std::size_t>(style.along)));
}

void VtkCanvas::text(Point at, std::string_view text, const TextStyle& style) {
  if (text.empty()) return;
  if (style.halo) {
    const double width = text_width(text, style);
    const double shift = style.across == Across::left     ? 0.0
                         : style.across == Across::middle ? width / 2
                                                          : width;
    const double drop = style.along == Along::bottom   ? 0.0
                        : style.along == Along::middle ? style.size / 2
                                                       : style.size;
    fill(
        {at.x - shift - 5, at.y - drop - 5, at.x - shift + width + 5, at.y - drop + style.size + 5},
        palette::paper.faded(225));
  }
  set_style(style);
  painter_.DrawString(static_cast<float>(at.x), static_cast<float>(at.y),
                      std::string(text).c_str());
}

double VtkCanvas::text_width(std::string_view text, const TextStyle& style) {
  TextStyle level = style;
  level.angle = 0;
  set_style(level);
  std::array<float, 4> bounds{};
  painter_.ComputeStringBounds(std::string(text).c_str(), bounds.data());
  return static_cast<double>(bounds[2]);
}

void VtkCanvas::clip(std::optional<Box> box) {
  vtkContextDevice2D& device = *painter_.GetDevice();
  if (!box) {
    device.EnableClipping(false);
    return;
  }
  std::array area{
      static_cast<int>(std::lround(box->left)), static_cast<int>(std::lround(box->bottom)),
      static_cast<int>(std::lround(box->width())), static_cast<int>(std::lround(box->height()))};
  device.EnableClipping(true);
  device.SetClipping(area.data());
}

}  // namespace drumlin::viz
