#pragma once

#include <optional>
#include <span>
#include <vector>

namespace drumlin::sim {

/// Ranks from 1; equal values share the mean of theirs.
[[nodiscard]] std::vector<double> ranks(std::span<const double> values);

struct RankCorrelation {
  double value = 0;  ///< [-] -1 to 1
  double low = -1;   ///< 95 % interval
  double high = 1;
};

/// How far two quantities rise together, whatever the shape (Spearman 1904): the correlation of
/// their ranks. The interval is Fisher's z with the variance (1 + r^2/2)/(n - 3) of Bonett and
/// Wright (2000), Psychometrika 65, 23 (from memory); it takes the rows as independent.
///
/// @return none for fewer than four rows, or where either does not vary.
[[nodiscard]] std::optional<RankCorrelation> rank_correlation(std::span<const double> a,
                                                              std::span<const double> b);

}  // namespace drumlin::sim
