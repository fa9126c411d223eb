#include "sim/statistics/given_data.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "sim/statistics/percentile.hpp"
#include "sim/statistics/rank_correlation.hpp"

namespace drumlin::sim {
namespace {

constexpr std::size_t least_rows = 40;
constexpr std::size_t few_values = 12;

/// Class of each row.
std::vector<std::size_t> classes_of(std::span<const double> factor) {
  std::vector<double> values(factor.begin(), factor.end());
  std::sort(values.begin(), values.end());
  values.erase(std::unique(values.begin(), values.end()), values.end());
  std::vector<std::size_t> classes(factor.size());
  if (values.size() <= few_values) {
    for (std::size_t i = 0; i < factor.size(); ++i)
      classes[i] = static_cast<std::size_t>(
          std::lower_bound(values.begin(), values.end(), factor[i]) - values.begin());
    return classes;
  }
  const auto n = static_cast<double>(factor.size());
  const double wanted = std::clamp(std::cbrt(n), 4.0, 40.0);
  const std::vector<double> rank = ranks(factor);
  for (std::size_t i = 0; i < factor.size(); ++i)
    classes[i] = static_cast<std::size_t>((rank[i] - 0.5) / n * std::floor(wanted));
  return classes;
}

struct Sum {
  double count = 0;
  double sum = 0;
};

/// The share over some of the rows.
double share(std::span<const std::size_t> classes, std::span<const double> output,
             std::span<const std::size_t> rows, std::vector<Sum>& sums) {
  std::fill(sums.begin(), sums.end(), Sum{});
  const auto n = static_cast<double>(rows.size());
  double mean = 0;
  for (const std::size_t i : rows)
    mean += output[i] / n;
  double all = 0;
  for (const std::size_t i : rows) {
    const double y = output[i] - mean;
    all += y * y;
    sums[classes[i]].count += 1;
    sums[classes[i]].sum += y;
  }
  double between = 0;
  double filled = 0;
  for (const Sum& one : sums) {
    if (one.count == 0) continue;
    between += one.sum * one.sum / one.count;
    filled += 1;
  }
  if (!(all > 0) || n <= filled) return 0;
  const double within = (all - between) / (n - filled);
  return (between - (filled - 1) * within) / all;
}

}  // namespace

std::optional<Estimate> given_data_share(std::span<const double> factor,
                                         std::span<const double> output, std::uint64_t seed,
                                         int bootstraps) {
  if (factor.size() < least_rows) return std::nullopt;
  const auto varies = [](std::span<const double> values) {
    const auto [low, high] = std::minmax_element(values.begin(), values.end());
    return *low < *high;
  };
  if (!varies(factor) || !varies(output)) return std::nullopt;
  const std::vector<std::size_t> classes = classes_of(factor);
  std::vector<Sum> sums(*std::max_element(classes.begin(), classes.end()) + 1);
  std::vector<std::size_t> rows(factor.size());
  for (std::size_t i = 0; i < rows.size(); ++i)
    rows[i] = i;
  Estimate result{share(classes, output, rows, sums), 0};
  std::mt19937_64 random(seed);
  std::vector<double> again;
  for (int sample = 0; sample < bootstraps; ++sample) {
    for (std::size_t& i : rows)
      i = random() % factor.size();
    again.push_back(share(classes, output, rows, sums));
  }
  // Rows drawn twice make classes look tighter: the samples' mean is higher than the share, their
  // spread is what is wanted.
  result.error = moments(again).deviation;
  return result;
}

}  // namespace drumlin::sim
