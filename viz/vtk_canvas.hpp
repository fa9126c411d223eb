#pragma once

#include "viz/canvas.hpp"

class vtkContext2D;

namespace drumlin::viz {

/// A sheet of pixels, drawn by VTK's painter.
class VtkCanvas final : public Canvas {
 public:
  VtkCanvas(vtkContext2D& painter, int width, int height);

  using Canvas::line;
  using Canvas::text;
  void fill_between(std::span<const Point> lower, std::span<const Point> upper,
                    Colour colour) override;
  void triangle(Point a, Point b, Point c, Colour colour) override;
  void line(std::span<const Point> points, const Stroke& stroke) override;
  void text(Point at, std::string_view text, const TextStyle& style) override;
  [[nodiscard]] double text_width(std::string_view text, const TextStyle& style) override;
  void clip(std::optional<Box> box) override;

 private:
  void set_style(const TextStyle& style);
  void stroke_piece(std::span<const Point> points, const Stroke& stroke);

  vtkContext2D& painter_;
};

}  // namespace drumlin::viz
