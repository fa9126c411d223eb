#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "viz/canvas.hpp"

namespace drumlin::viz {

struct Range {
  double low = 0;
  double high = 1;

  [[nodiscard]] constexpr double width() const { return high - low; }
  [[nodiscard]] constexpr bool holds(double value) const { return value >= low && value <= high; }
};

/// Round numbers inside a range, about `wanted` of them.
[[nodiscard]] std::vector<double> round_ticks(const Range& range, int wanted);

/// The largest of 1, 2, 5, 10, 20, ... (and 0.5, 0.2, ...) that does not exceed `most`, > 0.
[[nodiscard]] double round_below(double most);

/// A number with as many decimals as a step of that size needs.
[[nodiscard]] std::string tick_text(double value, double step);

/// An area of the sheet with a scale in x and one in y.
class Plot {
 public:
  Plot(const Box& area, const Range& x, const Range& y) : area_(area), x_(x), y_(y) {}

  [[nodiscard]] const Box& area() const { return area_; }
  [[nodiscard]] const Range& x() const { return x_; }
  [[nodiscard]] const Range& y() const { return y_; }
  [[nodiscard]] double pixels_per_x() const { return area_.width() / x_.width(); }
  [[nodiscard]] double pixels_per_y() const { return area_.height() / y_.width(); }
  [[nodiscard]] Point at(double x, double y) const {
    return {area_.left + (x - x_.low) * pixels_per_x(),
            area_.bottom + (y - y_.low) * pixels_per_y()};
  }

  /// Numbers and title below; grid lines through the area.
  void axis_below(Canvas& canvas, std::string_view title, int ticks = 6) const;
  /// Numbers and title to the left; grid lines through the area.
  void axis_left(Canvas& canvas, std::string_view title, int ticks = 5) const;

 private:
  Box area_;
  Range x_;
  Range y_;
};

}  // namespace drumlin::viz
