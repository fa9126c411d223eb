#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

namespace drumlin::sim {

/// Compliance of an even row whose columns wear as they pass through it in +x: where a column has
/// come to cell i it has lost
///
///     z_i = sum_(j < i) s_j p_j + s_i p_i / 2
///
/// and the surface gives by that much more. Positive definite: the added matrix has the positive
/// semidefinite symmetric part s 1 1^T / 2 for even slopes.
template <class Cover>
class WearingCompliance {
 public:
  /// @param slope  s [mm/MPa]: what a column loses in a cell, per pressure there.
  WearingCompliance(Cover& cover, std::span<const double> slope)
      : cover_(cover), slope_(slope.begin(), slope.end()) {}

  [[nodiscard]] std::size_t size() const noexcept { return cover_.size(); }
  [[nodiscard]] bool symmetric() const noexcept { return false; }
  /// Not bounded usefully: a column's wear has nearly no symmetric part to short waves.
  [[nodiscard]] double skewness() const noexcept { return std::numeric_limits<double>::infinity(); }
  [[nodiscard]] std::span<const double> weights() const noexcept { return cover_.weights(); }

  /// z.
  void removed(std::span<const double> pressure, std::span<double> depth) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < slope_.size(); ++i) {
      const double half = 0.5 * slope_[i] * pressure[i];
      depth[i] = sum + half;
      sum += 2.0 * half;
    }
  }
  void apply(std::span<const double> pressure, std::span<double> displacement) {
    cover_.apply(pressure, displacement);
    double sum = 0.0;
    for (std::size_t i = 0; i < slope_.size(); ++i) {
      const double half = 0.5 * slope_[i] * pressure[i];
      displacement[i] += sum + half;
      sum += 2.0 * half;
    }
  }
  void apply_free(std::span<const double> pressure, std::span<double> displacement) {
    apply(pressure, displacement);
  }
  void apply_symmetric(std::span<const double> pressure, std::span<double> displacement) {
    cover_.apply_symmetric(pressure, displacement);
    double before = 0.0;
    double behind = 0.0;
    for (std::size_t i = 0; i < slope_.size(); ++i) {
      displacement[i] += 0.5 * (before + 0.5 * slope_[i] * pressure[i]);
      before += slope_[i] * pressure[i];
    }
    for (std::size_t i = slope_.size(); i-- > 0;) {
      displacement[i] += 0.5 * slope_[i] * (behind + 0.5 * pressure[i]);
      behind += pressure[i];
    }
  }
  void prepare(std::span<const std::uint8_t> free, std::span<const double> slope) {
    cover_.prepare(free, slope);
  }
  void precondition(std::span<const double> residual, std::span<double> result) {
    cover_.precondition(residual, result);
  }

 private:
  Cover& cover_;
  std::vector<double> slope_;
};

}  // namespace drumlin::sim
