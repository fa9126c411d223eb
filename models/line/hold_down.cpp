#include "models/line/hold_down.hpp"

#include <algorithm>
#include <cmath>

namespace drumlin::models {

double bed_pressure(double density, double thickness, double suction) noexcept {
  return density * gravity * thickness + suction;
}

std::optional<double> grip_margin(const ToolOnPart& tool, const Bed& bed, double length) noexcept {
  const double push = std::abs(tool.drag);
  if (push <= 0.0) return std::nullopt;
  return bed.friction * (tool.line_load + bed.pressure * length) / push;
}

std::optional<double> smallest_length(const ToolOnPart& tool, const Bed& bed) noexcept {
  const double push = std::abs(tool.drag);
  if (bed.friction * tool.line_load >= push) return 0.0;
  if (bed.friction <= 0.0 || bed.pressure <= 0.0) return std::nullopt;
  return (push / bed.friction - tool.line_load) / bed.pressure;
}

std::optional<double> holding_pressure(const ToolOnPart& tool, double friction,
                                       double length) noexcept {
  if (friction <= 0.0 || length <= 0.0) return std::nullopt;
  return std::max(std::abs(tool.drag) / friction - tool.line_load, 0.0) / length;
}

double turning_arm(double a, double b) noexcept {
  const double p = 0.5 * a;
  const double h = 0.5 * b;
  return 4.0 * (p * h * std::hypot(p, h) / 3.0 + p * p * p * std::asinh(h / p) / 6.0 +
                h * h * h * std::asinh(p / h) / 6.0);
}

double turning_moment(const ToolOnPart& tool, double width, double covered) noexcept {
  return std::abs(tool.drag) * covered * 0.5 * (width - covered);
}

std::optional<double> turning_margin(const ToolOnPart& tool, const Bed& bed, double width,
                                     double length) noexcept {
  const double turning = turning_moment(tool, width, 0.5 * width);
  if (turning <= 0.0) return std::nullopt;
  // Under the tool friction acts on the same arm as the drag.
  return bed.friction * tool.line_load / std::abs(tool.drag) +
         bed.friction * bed.pressure * turning_arm(width, length) / turning;
}

}  // namespace drumlin::models
