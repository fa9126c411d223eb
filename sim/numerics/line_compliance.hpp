#pragma once

#include <complex>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "sim/numerics/fft.hpp"
#include "sim/numerics/line_response.hpp"
#include "sim/numerics/long_waves.hpp"

namespace drumlin::sim {

/// Displacement under pressure on a row of even cells.
///
/// The response of a wide periodic window is applied exactly on the row, by embedding its Toeplitz
/// matrix in a circulant of twice the length. The row is thus free to be just as long as the
/// contact can get.
///
///     u_i = sum_j g_(i-j) p_j
///
/// The matrix is positive definite, since Re C > 0, and symmetric if C is real.
class LineCompliance {
 public:
  /// @param symbol   C.
  /// @param spacing  cell width [mm].
  /// @param cells    length of the row.
  /// @param window   period [mm].
  LineCompliance(const Symbol& symbol, double spacing, std::size_t cells, double window);
  /// The same from a long-wave share told already.
  ///
  /// @param smooth  C without the local give, of which `long_waves` is.
  /// @param local   give of each point under its own pressure [mm/MPa], >= 0.
  /// @param cells   no longer than half the long waves' window.
  LineCompliance(const Symbol& smooth, double local, double spacing, std::size_t cells,
                 const LongWaves& long_waves);

  [[nodiscard]] std::size_t size() const noexcept { return cells_; }
  [[nodiscard]] double spacing() const noexcept { return spacing_; }
  [[nodiscard]] double window() const noexcept { return window_; }
  [[nodiscard]] bool symmetric() const noexcept { return symmetric_; }
  /// Largest |Im C| / Re C: bounds the skew part of the matrix by its symmetric one.
  [[nodiscard]] double skewness() const noexcept { return skewness_; }
  /// Width of each cell over the mean width [-].
  [[nodiscard]] std::span<const double> weights() const noexcept { return weights_; }

  /// u = C p, p [MPa], u [mm]; both of length size(). One transform pair.
  void apply(std::span<const double> pressure, std::span<double> displacement);
  /// The same where only free cells are read.
  void apply_free(std::span<const double> pressure, std::span<double> displacement) {
    apply(pressure, displacement);
  }
  /// Its symmetric part.
  void apply_symmetric(std::span<const double> pressure, std::span<double> displacement);

  /// Makes ready a stand-in for the inverse of C + diag(slope) on the free cells.
  void prepare(std::span<const std::uint8_t> free, std::span<const double> slope);
  /// z = (Re C + mean slope)^-1 r on the embedding circulant: symmetric, positive definite. One
  /// transform pair.
  void precondition(std::span<const double> residual, std::span<double> result);

 private:
  LineCompliance(const Symbol& symbol, double local, double spacing, const LineResponse& response);
  void filter(std::span<const double> in, std::span<const std::complex<double>> factors,
              std::span<double> out);

  std::size_t cells_;
  double spacing_;
  double window_ = 0;
  bool symmetric_ = true;
  double skewness_ = 0;
  RealFft fft_;
  std::vector<double> weights_;
  std::vector<std::complex<double>> response_;       // transform of g over the transform's length
  std::vector<std::complex<double>> even_response_;  // real part of it
  std::vector<double> symbol_;                       // Re C at the circulant's own wave numbers
  std::vector<std::complex<double>> inverse_;        // 1 / (Re C + local) over the length
  double inverse_local_ = -1;
};

}  // namespace drumlin::sim
