#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "sim/numerics/fft.hpp"

namespace drumlin::sim {

/// Displacement under pressure on a row of equal cells, from a compliance given per wave number.
///
/// The compliance C(q) is turned once into its response to a loaded cell on a wide periodic window
/// (so wide that the images do not speak); on the row itself the response is applied exactly, by
/// embedding the Toeplitz matrix in a circulant of twice the length. The row is thus free to be
/// just as long as the contact can get.
///
///     u_i = sum_j g_(i-j) p_j,   g = inverse DFT of C on the window.
///
/// The matrix is symmetric and positive definite, since C > 0.
class LineCompliance {
 public:
  /// @param symbol   C(q) [mm/MPa] for q >= 0 [rad/mm], > 0.
  /// @param spacing  cell width [mm].
  /// @param cells    length of the row.
  /// @param window   period [mm]; raised to a good transform length, at least twice the row.
  LineCompliance(const std::function<double(double)>& symbol, double spacing, std::size_t cells,
                 double window);

  [[nodiscard]] std::size_t size() const noexcept { return cells_; }
  [[nodiscard]] double spacing() const noexcept { return spacing_; }
  [[nodiscard]] double window() const noexcept { return window_; }

  /// u = C p, p [MPa], u [mm]; both of length size(). One transform pair.
  void apply(std::span<const double> pressure, std::span<double> displacement);

  /// z = (C + local)^-1 r on the embedding circulant: a cheap, symmetric, positive definite
  /// stand-in for the inverse on any subset of cells. One transform pair.
  ///
  /// @param local  mean local give [mm/MPa] added to C, >= 0.
  void precondition(std::span<const double> residual, double local, std::span<double> result);

  /// Transform pairs spent since construction.
  [[nodiscard]] long transform_pairs() const noexcept { return transform_pairs_; }

 private:
  void filter(std::span<const double> in, std::span<const double> factors, std::span<double> out);

  std::size_t cells_;
  double spacing_;
  double window_ = 0;
  RealFft fft_;
  std::vector<double> response_;  // transform of g, divided by the transform's length
  std::vector<double> symbol_;    // C at the circulant's own wave numbers
  std::vector<double> inverse_;   // 1 / (C + local), divided by the transform's length
  double inverse_local_ = -1;
  long transform_pairs_ = 0;
};

}  // namespace drumlin::sim
