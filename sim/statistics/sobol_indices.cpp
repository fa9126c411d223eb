#include "sim/statistics/sobol_indices.hpp"

#include <cmath>
#include <numeric>
#include <random>

#include "sim/statistics/percentile.hpp"

namespace drumlin::sim {
namespace {

/// Indices of the points at which every value is there.
std::vector<std::size_t> whole_points(const PickFreeze& values) {
  std::vector<std::size_t> points;
  for (std::size_t k = 0; k < values.a.size(); ++k) {
    bool whole = !std::isnan(values.a[k]) && !std::isnan(values.b[k]);
    for (const std::vector<double>& list : values.ab)
      whole = whole && !std::isnan(list[k]);
    if (whole) points.push_back(k);
  }
  return points;
}

struct Shares {
  std::vector<double> first;
  std::vector<double> total;
  double mean = 0;
  double variance = 0;
};

Shares shares(const PickFreeze& values, std::span<const std::size_t> points) {
  Shares result;
  const auto n = static_cast<double>(points.size());
  for (const std::size_t k : points)
    result.mean += (values.a[k] + values.b[k]) / (2 * n);
  for (const std::size_t k : points) {
    const double a = values.a[k] - result.mean;
    const double b = values.b[k] - result.mean;
    result.variance += (a * a + b * b) / (2 * n);
  }
  for (const std::vector<double>& ab : values.ab) {
    double first = 0;
    double total = 0;
    for (const std::size_t k : points) {
      const double change = ab[k] - values.a[k];
      first += (values.b[k] - result.mean) * change / n;
      total += change * change / (2 * n);
    }
    const bool varies = result.variance > 0;
    result.first.push_back(varies ? first / result.variance : 0.0);
    result.total.push_back(varies ? total / result.variance : 0.0);
  }
  return result;
}

double spread(const std::vector<double>& values) {
  return moments(values).deviation;
}

}  // namespace

SobolIndices sobol_indices(const PickFreeze& values, std::uint64_t seed, int bootstraps) {
  const std::vector<std::size_t> points = whole_points(values);
  SobolIndices result;
  result.points = points.size();
  if (points.size() < 2) return result;
  const Shares whole = shares(values, points);
  result.mean = whole.mean;
  result.variance = whole.variance;

  const std::size_t inputs = values.ab.size();
  std::vector<std::vector<double>> first(inputs);
  std::vector<std::vector<double>> total(inputs);
  std::mt19937_64 random(seed);
  std::vector<std::size_t> drawn(points.size());
  for (int sample = 0; sample < bootstraps; ++sample) {
    // The remainder favours small numbers by less than n / 2^64: nothing beside the error itself,
    // and the same on every machine, unlike the library's distributions.
    for (std::size_t& k : drawn)
      k = points[random() % points.size()];
    const Shares some = shares(values, drawn);
    for (std::size_t i = 0; i < inputs; ++i) {
      first[i].push_back(some.first[i]);
      total[i].push_back(some.total[i]);
    }
  }
  for (std::size_t i = 0; i < inputs; ++i) {
    result.first.push_back({whole.first[i], spread(first[i])});
    result.total.push_back({whole.total[i], spread(total[i])});
  }
  return result;
}

}  // namespace drumlin::sim
