#pragma once

#include <span>
#include <vector>

namespace drumlin::sim {

/// Percentiles of a sample, interpolated between neighbours: the p-th lies at position
/// (n - 1) p / 100 of the sorted sample. Source: Hyndman and Fan (1996), definition 7.
///
/// @param values   at least one; NaN among them are left out.
/// @param percents [%] each between 0 and 100.
/// @return one value per percent, NaN where no value is left.
[[nodiscard]] std::vector<double> percentiles(std::span<const double> values,
                                              std::span<const double> percents);

/// Mean and standard deviation (n - 1 in the divisor) by Welford's recurrence (1962), which keeps
/// its digits where the spread is small beside the mean.
struct Moments {
  std::size_t count = 0;
  double mean = 0;
  double deviation = 0;  ///< 0 for fewer than two values
};

/// NaN are left out.
[[nodiscard]] Moments moments(std::span<const double> values);

}  // namespace drumlin::sim
