#pragma once

#include <cstddef>
#include <vector>

#include "sim/numerics/line_response.hpp"

namespace drumlin::sim {

/// The long-wave share of a response, told once for rows of any spacing.
///
/// A response is smooth but for its first few tenths of a millimetre. So C(q) is split by
///
///     F(q) = e^-s (1 + s + ... + s^7 / 7!),   s = (q sigma)^2 / 2,
///
/// into C F, which needs no fine spacing, and C (1 - F), which has died away within some ten sigma
/// (1 - F falls with q^16 towards long waves, so that none is left in it). A row then computes its
/// own share on a window of a few millimetres in place of the whole period.
class LongWaves {
 public:
  /// sigma [mm].
  static constexpr double split = 0.2;
  /// Period that holds all of the short-wave share [mm].
  static constexpr double short_window = 24.0 * split;

  /// @param window  period of the response [mm].
  LongWaves(const Symbol& symbol, double window);

  /// F(q): share of a component that belongs here [-].
  [[nodiscard]] static double share(double q) noexcept;
  /// Displacement [mm/MPa] per loaded length [mm] at a distance in +x from the load, within half
  /// the period; interpolated, 1e-6 of the largest off at most.
  [[nodiscard]] double operator()(double distance) const noexcept;
  [[nodiscard]] double window() const noexcept { return window_; }
  /// Whether C was real.
  [[nodiscard]] bool symmetric() const noexcept { return symmetric_; }

 private:
  double window_;
  double spacing_ = 0;
  bool symmetric_ = true;
  std::vector<double> samples_;  // over one period, with a margin of points at either end
};

}  // namespace drumlin::sim
