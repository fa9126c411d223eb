#include "sim/numerics/mesh_compliance.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim/numerics/columns.hpp"

namespace drumlin::sim {
namespace {

std::vector<double> middles(const CellRow& cells) {
  std::vector<double> at(cells.size());
  for (std::size_t i = 0; i < at.size(); ++i)
    at[i] = cells.middle(i);
  return at;
}

std::vector<double> widths(const CellRow& cells) {
  std::vector<double> wide(cells.size());
  for (std::size_t i = 0; i < wide.size(); ++i)
    wide[i] = cells.width(i);
  return wide;
}

/// Beam that stands for the compliance where the mesh can tell: from the wave that sinks deepest
/// (longer ones, which the cover's base or a gripping belt holds, are few in a patch) to waves of
/// two units.
Beam stand_in(const Symbol& symbol, double bending, const CellRow& cells, double reach) {
  double lowest = std::numbers::pi / reach;
  for (double q = lowest; q < 30.0 * std::numbers::pi / reach; q *= 1.2) {
    if (symbol(q).real() > symbol(lowest).real()) lowest = q;
  }
  double highest = std::numbers::pi / cells.unit;
  // Beyond where the belt's bending alone carries, the beam is right anyway.
  if (bending > 0.0) {
    const double alone = std::cbrt(10.0 / (bending * lowest * symbol(lowest).real()));
    highest = std::min(highest, std::max(alone, 4.0 * lowest));
  }
  return closest_beam(symbol, bending, lowest, highest);
}

/// Lags that cells of a patch can be apart, one more for rounding.
std::size_t lags_in_use(const CellRow& cells, double reach) {
  const auto lags = static_cast<std::size_t>(reach / cells.unit) +
                    static_cast<std::size_t>(cells.bounds[1] - cells.bounds[0]) + 2;
  const auto most = static_cast<std::size_t>(cells.bounds.back() - cells.bounds.front());
  return std::min(lags, most) + 1;
}

/// Largest |Im C| / Re C over the waves that a patch can hold.
double skewness_of(const Symbol& symbol, double unit, double reach) {
  double most = 0.0;
  const double lowest = std::numbers::pi / reach;
  for (double q = lowest; q < std::numbers::pi / unit; q *= 1.1) {
    const std::complex<double> c = symbol(q);
    most = std::max(most, std::abs(c.imag()) / c.real());
  }
  return most;
}

}  // namespace

MeshCompliance::MeshCompliance(const Symbol& symbol, double local, const CellRow& cells,
                               double reach, double bending)
    : local_(local),
      matrix_(Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(cells.size()),
                                    static_cast<Eigen::Index>(cells.size()))),
      weights_(cells.size()),
      floor_(cells.size()),
      inverse_(stand_in(symbol, bending, cells, reach), middles(cells), widths(cells)) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    weights_[i] = cells.bounds[i + 1] - cells.bounds[i];
    floor_[i] = 0.3 * symbol(std::numbers::pi / (cells.unit * weights_[i])).real();
  }
  skewness_ = skewness_of(symbol, cells.unit, reach);
  symmetric_ = skewness_ == 0.0;
  use(0, cells.size());
}

MeshCompliance::MeshCompliance(const Symbol& symbol, double local, const CellRow& cells,
                               double reach, double window, double bending)
    : MeshCompliance(symbol, local, cells, reach, bending) {
  fill(cells, LineResponse(symbol, cells.unit, lags_in_use(cells, reach), window));
}

MeshCompliance::MeshCompliance(const Symbol& symbol, double local, const CellRow& cells,
                               double reach, const LongWaves& long_waves, double bending)
    : MeshCompliance(symbol, local, cells, reach, bending) {
  fill(cells, LineResponse(symbol, cells.unit, lags_in_use(cells, reach), long_waves));
}

void MeshCompliance::fill(const CellRow& cells, const LineResponse& response) {
  // Second sum of g over lags: between any two cells, four values of it give the double sum.
  const auto r = static_cast<std::ptrdiff_t>(response.reach()) - 1;
  std::vector<double> twice(static_cast<std::size_t>(2 * r + 2), 0.0);
  double once = 0.0;
  for (std::ptrdiff_t lag = -r; lag <= r; ++lag) {
    const auto k = static_cast<std::size_t>(lag + r);
    once += response[lag];
    twice[k + 1] = twice[k] + once;
  }
  // twice[k] = sum over lags below k - r of (k - r - lag) g: second antidifference.
  const auto second = [&](int lag) { return twice[static_cast<std::size_t>(lag + r)]; };
  std::vector<double> inverse_width(cells.size());
  for (std::size_t i = 0; i < cells.size(); ++i)
    inverse_width[i] = 1.0 / weights_[i];
  std::size_t first = 0;  // cell that still reaches cell j from the left
  for (std::size_t j = 0; j < cells.size(); ++j) {
    const int b0 = cells.bounds[j];
    const int b1 = cells.bounds[j + 1];
    while (b1 - cells.bounds[first] > r)
      ++first;
    // Neighbours share a bound, so each is looked up once.
    const auto up_to = [&](std::size_t i) {
      return second(cells.bounds[i] - b0) - second(cells.bounds[i] - b1);
    };
    double* column = matrix_.col(static_cast<Eigen::Index>(j)).data();
    double before = up_to(first);
    for (std::size_t i = first; i < cells.size() && cells.bounds[i + 1] - b0 <= r; ++i) {
      const double after = up_to(i + 1);
      column[i] = (after - before) * inverse_width[i];
      before = after;
    }
    column[j] += local_;
  }
}

void MeshCompliance::use(std::size_t first, std::size_t count) {
  first_ = first;
  count_ = count;
  give_.resize(count);
}

void MeshCompliance::multiply(const Eigen::MatrixXd& matrix, std::size_t from, std::size_t to,
                              std::size_t from_column, std::size_t to_column,
                              std::span<const double> pressure,
                              std::span<double> displacement) const {
  const auto stride = static_cast<std::ptrdiff_t>(matrix.rows());
  const double* first = matrix.data() + static_cast<std::ptrdiff_t>(first_ + from_column) * stride +
                        static_cast<std::ptrdiff_t>(first_ + from);
  add_up_columns(first, stride, to - from, to_column - from_column, pressure.data() + from_column,
                 displacement.data() + from);
}

void MeshCompliance::apply(std::span<const double> pressure, std::span<double> displacement) {
  std::size_t from = 0;
  while (from < count_ && pressure[from] == 0.0)
    ++from;
  std::size_t to = count_;
  while (to > from && pressure[to - 1] == 0.0)
    --to;
  multiply(matrix_, 0, count_, from, to, pressure, displacement);
}

void MeshCompliance::apply_free(std::span<const double> pressure, std::span<double> displacement) {
  multiply(matrix_, free_from_, free_to_, free_from_, free_to_, pressure, displacement);
}

void MeshCompliance::apply_symmetric(std::span<const double> pressure,
                                     std::span<double> displacement) {
  if (even_matrix_.size() == 0) {
    const Eigen::Map<const Eigen::VectorXd> w(weights_.data(),
                                              static_cast<Eigen::Index>(weights_.size()));
    even_matrix_ =
        0.5 * (matrix_ + w.cwiseInverse().asDiagonal() * matrix_.transpose() * w.asDiagonal());
  }
  multiply(even_matrix_, 0, count_, 0, count_, pressure, displacement);
}

void MeshCompliance::prepare(std::span<const std::uint8_t> free, std::span<const double> slope) {
  free_from_ = count_;
  free_to_ = 0;
  for (std::size_t i = 0; i < count_; ++i) {
    if (free[i] == 0) continue;
    free_from_ = std::min(free_from_, i);
    free_to_ = i + 1;
    give_[i] = local_ + floor_[first_ + i] + slope[i];
  }
  free_from_ = std::min(free_from_, free_to_);
  inverse_.prepare(first_, free, give_);
}

void MeshCompliance::precondition(std::span<const double> residual, std::span<double> result) {
  inverse_.solve(residual, result);
}

}  // namespace drumlin::sim
