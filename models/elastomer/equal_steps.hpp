#pragma once

#include <cstddef>
#include <vector>

#include <boost/math/interpolators/cardinal_cubic_b_spline.hpp>

namespace drumlin::models {

using EqualStepSpline = boost::math::interpolators::cardinal_cubic_b_spline<double>;

/// Cubic spline over equal steps whose slopes at the ends are five-point differences: of the order
/// of the spline itself, which the library's own estimate is not.
///
/// @param values      at least five.
/// @param even_start  the function is even about its first point.
[[nodiscard]] inline EqualStepSpline equal_step_spline(const std::vector<double>& values,
                                                       double first, double step,
                                                       bool even_start = false) {
  const std::size_t last = values.size() - 1;
  const auto slope = [&](bool left) {
    const auto at = [&](std::size_t k) { return values[left ? k : last - k]; };
    const double rise = -25.0 * at(0) + 48.0 * at(1) - 36.0 * at(2) + 16.0 * at(3) - 3.0 * at(4);
    return (left ? rise : -rise) / (12.0 * step);
  };
  const double at_first = even_start ? 0.0 : slope(true);
  return {values.data(), values.size(), first, step, at_first, slope(false)};
}

}  // namespace drumlin::models
