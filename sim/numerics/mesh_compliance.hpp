#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "sim/numerics/beam_inverse.hpp"
#include "sim/numerics/cell_row.hpp"
#include "sim/numerics/line_response.hpp"
#include "sim/numerics/long_waves.hpp"

namespace drumlin::sim {

/// Displacement under pressure on a row of uneven cells: the even row's matrix between units,
/// restricted to pressures that are constant, and to displacements averaged, over each cell:
///
///     u_i = (1 / n_i) sum_j p_j sum_(a in i) sum_(b in j) g_(a-b).
///
/// So fine cells where a feature is and wide ones elsewhere give the even row's answer as closely
/// as the pressure can be told by the cells. Cells stay with the part; the stretch in use rides
/// with the drum.
class MeshCompliance {
 public:
  /// @param symbol   C without local give.
  /// @param local    give of each point under its own pressure, the grains' [mm/MPa], >= 0.
  /// @param reach    cells farther apart than this are never in use together [mm].
  /// @param bending  the belt's [N mm], for the stand-in inverse.
  MeshCompliance(const Symbol& symbol, double local, const CellRow& cells, double reach,
                 double window, double bending);
  /// The same with the long-wave share of `symbol` told already.
  MeshCompliance(const Symbol& symbol, double local, const CellRow& cells, double reach,
                 const LongWaves& long_waves, double bending);

  /// Takes a stretch of the row into use.
  void use(std::size_t first, std::size_t count);
  [[nodiscard]] std::size_t size() const noexcept { return count_; }
  [[nodiscard]] bool symmetric() const noexcept { return symmetric_; }
  /// Largest |Im C| / Re C: bounds the skew part of the matrix by its symmetric one.
  [[nodiscard]] double skewness() const noexcept { return skewness_; }
  [[nodiscard]] std::span<const double> weights() const noexcept {
    return {weights_.data() + first_, count_};
  }

  void apply(std::span<const double> pressure, std::span<double> displacement);
  void apply_free(std::span<const double> pressure, std::span<double> displacement);
  void apply_symmetric(std::span<const double> pressure, std::span<double> displacement);
  void prepare(std::span<const std::uint8_t> free, std::span<const double> slope);
  void precondition(std::span<const double> residual, std::span<double> result);

 private:
  MeshCompliance(const Symbol& symbol, double local, const CellRow& cells, double reach,
                 double bending);
  void fill(const CellRow& cells, const LineResponse& response);
  /// Product of a stretch of a matrix, both ends counted from the part in use.
  void multiply(const Eigen::MatrixXd& matrix, std::size_t from, std::size_t to,
                std::size_t from_column, std::size_t to_column, std::span<const double> pressure,
                std::span<double> displacement) const;

  double local_;
  bool symmetric_ = true;
  double skewness_ = 0;
  Eigen::MatrixXd matrix_;
  Eigen::MatrixXd even_matrix_;  // its symmetric part, once asked for
  std::vector<double> weights_;  // width of each cell in units
  std::vector<double> floor_;    // give below which a cell's own stiffness hides it [mm/MPa]
  std::vector<double> give_;
  BeamInverse inverse_;
  std::size_t first_ = 0;
  std::size_t count_ = 0;
  std::size_t free_from_ = 0;  // stretch that holds every free cell, within the part in use
  std::size_t free_to_ = 0;
};

}  // namespace drumlin::sim
