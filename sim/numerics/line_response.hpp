#pragma once

#include <complex>
#include <cstddef>
#include <functional>
#include <vector>

namespace drumlin::sim {

class LongWaves;

/// Compliance C(q) [mm/MPa] to a component exp(i q x) of pressure, for q >= 0 [rad/mm]; C(-q) is
/// its conjugate. Re C > 0.
using Symbol = std::function<std::complex<double>(double)>;

/// Displacement of a row of even cells under unit pressure on one of them: the inverse transform of
/// C on a periodic window, so wide that the images do not speak.
class LineResponse {
 public:
  /// @param spacing  cell width [mm].
  /// @param reach    lags kept: -(reach - 1) .. reach - 1.
  /// @param window   period [mm]; moved to the nearest good transform length, within a thousandth
  /// or
  ///                 so, and raised to at least twice the reach.
  LineResponse(const Symbol& symbol, double spacing, std::size_t reach, double window);
  /// The same from the long-wave share that rows of other spacings have in common; agrees with the
  /// above within 1e-6 of the largest lag.
  ///
  /// @param reach  at most half the long waves' window.
  LineResponse(const Symbol& symbol, double spacing, std::size_t reach,
               const LongWaves& long_waves);

  /// Displacement [mm/MPa] at a cell `lag` cells in +x from the pressed one.
  [[nodiscard]] double operator[](std::ptrdiff_t lag) const noexcept {
    return lags_[static_cast<std::size_t>(lag + static_cast<std::ptrdiff_t>(reach_) - 1)];
  }
  [[nodiscard]] std::size_t reach() const noexcept { return reach_; }
  [[nodiscard]] double window() const noexcept { return window_; }
  /// Whether both directions give alike: C was real.
  [[nodiscard]] bool symmetric() const noexcept { return symmetric_; }

 private:
  std::size_t reach_;
  double window_ = 0;
  bool symmetric_ = true;
  std::vector<double> lags_;
};

}  // namespace drumlin::sim
