#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace drumlin::sim {

/// An estimate with its own error.
struct Estimate {
  double value = 0;
  double error = 0;  ///< standard deviation of the estimate
};

/// How the variance of an output is shared out among its inputs.
struct SobolIndices {
  std::vector<Estimate> first;  ///< share that an input explains alone [-]
  std::vector<Estimate> total;  ///< share in which an input has a part, alone or with others [-]
  double mean = 0;
  double variance = 0;
  std::size_t points = 0;  ///< that they are made from
};

/// Values of one output at the points of a pick-freeze design (Sobol 1993): two independent sets of
/// points A and B, and for each input i the set AB_i, which is A with that input's column from B.
struct PickFreeze {
  std::vector<double> a;
  std::vector<double> b;
  std::vector<std::vector<double>> ab;  ///< one list per input
};

/// First-order indices after Saltelli et al. (2010), Comput. Phys. Commun. 181, table 2 (b):
///
///     S_i = mean(f_B (f_ABi - f_A)) / V,
///
/// total ones after Jansen (1999), same table (f):
///
///     T_i = mean((f_A - f_ABi)^2) / (2 V),
///
/// V being the variance of f over A and B together and f counted from its mean. Points at which any
/// of the values is NaN (the model gave none) are left out. The error is the spread over bootstrap
/// samples of the points (Efron 1979); for points of a low-discrepancy sequence it is on the wide
/// side. Deterministic for a seed.
///
/// @return empty lists where fewer than two points are left, zeros where the output does not vary.
[[nodiscard]] SobolIndices sobol_indices(const PickFreeze& values, std::uint64_t seed,
                                         int bootstraps = 200);

}  // namespace drumlin::sim
