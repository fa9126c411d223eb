#include "sim/statistics/rank_correlation.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace drumlin::sim {

std::vector<double> ranks(std::span<const double> values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return values[a] != values[b] ? values[a] < values[b] : a < b;
  });
  std::vector<double> result(values.size());
  for (std::size_t first = 0; first < order.size();) {
    std::size_t end = first + 1;
    while (end < order.size() && values[order[end]] == values[order[first]])
      ++end;
    const double rank = (static_cast<double>(first + 1) + static_cast<double>(end)) / 2;
    for (std::size_t i = first; i < end; ++i)
      result[order[i]] = rank;
    first = end;
  }
  return result;
}

std::optional<RankCorrelation> rank_correlation(std::span<const double> a,
                                                std::span<const double> b) {
  constexpr std::size_t least = 4;
  if (a.size() != b.size() || a.size() < least) return std::nullopt;
  const std::vector<double> x = ranks(a);
  const std::vector<double> y = ranks(b);
  const auto n = static_cast<double>(a.size());
  const double mean = (n + 1) / 2;
  double xx = 0;
  double yy = 0;
  double xy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xx += (x[i] - mean) * (x[i] - mean);
    yy += (y[i] - mean) * (y[i] - mean);
    xy += (x[i] - mean) * (y[i] - mean);
  }
  if (!(xx > 0) || !(yy > 0)) return std::nullopt;
  const double r = std::clamp(xy / std::sqrt(xx * yy), -1.0, 1.0);
  constexpr double two_sided_95 = 1.959963984540054;
  const double half = two_sided_95 * std::sqrt((1 + r * r / 2) / (n - 3));
  const double z = std::atanh(r);  // infinite at -1 and 1, where the interval is the value
  return RankCorrelation{r, std::tanh(z - half), std::tanh(z + half)};
}

}  // namespace drumlin::sim
