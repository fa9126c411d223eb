#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "sim/statistics/sobol_indices.hpp"

namespace drumlin::sim {

/// First-order share of one factor in the variance of an output, from rows of any design whose
/// factors are independent: rows are laid into classes of the factor, and the share is the variance
/// of the classes' means over that of all,
///
///     S = (SSB - (m - 1) MSW) / SST,
///
/// with SSB between classes, MSW the mean square within them and m classes, which takes off what
/// the means scatter by chance (Kelley 1935). A factor of few values makes a class of each; else
/// there are n^(1/3) equally filled classes, 4 to 40. What varies inside a class is missing: the
/// share is a little low.
///
/// Source: Plischke, Borgonovo and Smith (2013), Eur. J. Oper. Res. 226, 536, and Strong and Oakley
/// (2013), SIAM/ASA J. Uncertain. Quantif. 1, 352, for shares from given rows (from memory). The
/// error is the spread over bootstrap samples of the rows (Efron 1979).
///
/// @return none for fewer than 40 rows, or where either does not vary.
[[nodiscard]] std::optional<Estimate> given_data_share(std::span<const double> factor,
                                                       std::span<const double> output,
                                                       std::uint64_t seed, int bootstraps = 100);

}  // namespace drumlin::sim
