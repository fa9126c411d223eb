#include "sim/statistics/percentile.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace drumlin::sim {

std::vector<double> percentiles(std::span<const double> values, std::span<const double> percents) {
  std::vector<double> sorted;
  for (const double value : values)
    if (!std::isnan(value)) sorted.push_back(value);
  std::sort(sorted.begin(), sorted.end());
  std::vector<double> out;
  for (const double percent : percents) {
    if (sorted.empty()) {
      out.push_back(std::numeric_limits<double>::quiet_NaN());
      continue;
    }
    const double place = static_cast<double>(sorted.size() - 1) * percent / 100;
    const auto below = std::min(static_cast<std::size_t>(place), sorted.size() - 1);
    const std::size_t above = std::min(below + 1, sorted.size() - 1);
    out.push_back(sorted[below] +
                  (place - static_cast<double>(below)) * (sorted[above] - sorted[below]));
  }
  return out;
}

Moments moments(std::span<const double> values) {
  Moments result;
  double squares = 0;
  for (const double value : values) {
    if (std::isnan(value)) continue;
    ++result.count;
    const double step = value - result.mean;
    result.mean += step / static_cast<double>(result.count);
    squares += step * (value - result.mean);
  }
  if (result.count > 1)
    result.deviation = std::sqrt(squares / static_cast<double>(result.count - 1));
  return result;
}

}  // namespace drumlin::sim
