#pragma once

#include <cstdint>

namespace drumlin::sim {

/// A share with the interval in which the true one is expected.
struct Proportion {
  double value = 0;  ///< [-]
  double low = 0;    ///< [-]
  double high = 1;   ///< [-]
};

/// Share of trials that succeeded, with the exact interval of Clopper and Pearson (1934): it holds
/// the true share with at least the stated confidence, whatever that share is. For points of a
/// low-discrepancy sequence it is on the wide side, since these scatter less than independent ones.
///
/// @param successes  0 to trials.
/// @param trials     > 0.
/// @param confidence [-] such as 0.95, between 0 and 1.
[[nodiscard]] Proportion proportion(std::uint64_t successes, std::uint64_t trials,
                                    double confidence = 0.95);

}  // namespace drumlin::sim
