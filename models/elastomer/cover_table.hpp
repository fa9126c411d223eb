#pragma once

#include <complex>
#include <memory>

#include "models/elastomer/cover.hpp"
#include "models/elastomer/half_space.hpp"

namespace drumlin::models {

/// Surface compliance of a cover for many wave numbers: integrated at a few, splined between.
///
/// What is splined is what remains once the half-space in motion is taken out, over asinh(q t /
/// 0.4) while the hub is felt, and over log q where only the curvature is left. Nodes are doubled
/// until the new ones confirm the old; a cover that will not be splined (faster than its own waves,
/// with little loss) is integrated at every call instead.
class CoverTable {
 public:
  /// @param accuracy  error against the direct evaluation, relative to the largest compliance of
  ///                  the same wave length or, below one thickness, of the thickness.
  CoverTable(const Cover& cover, double accuracy);

  /// nn, nt / i and tt [mm/MPa] for q > 0.
  [[nodiscard]] SymmetricCompliance<std::complex<double>> operator()(double q) const;

 private:
  struct Splines;
  std::shared_ptr<const Splines> splines_;
};

}  // namespace drumlin::models
