#include "sim/numerics/mesh_compliance.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

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
                               double reach, double window, double bending)
    : local_(local),
      matrix_(Matrix::Zero(static_cast<Eigen::Index>(cells.size()),
                           static_cast<Eigen::Index>(cells.size()))),
      weights_(cells.size()),
      floor_(cells.size()),
      inverse_(stand_in(symbol, bending, cells, reach), middles(cells), widths(cells)) {
  const auto lags = static_cast<std::size_t>(reach / cells.unit) +
                    static_cast<std::size_t>(cells.bounds[1] - cells.bounds[0]) + 2;
  const auto most = static_cast<std::size_t>(cells.bounds.back() - cells.bounds.front());
  const LineResponse response(symbol, cells.unit, std::min(lags, most) + 1, window);
  symmetric_ = response.symmetric();
  if (!symmetric_) skewness_ = skewness_of(symbol, cells.unit, reach);
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
  for (std::size_t i = 0; i < cells.size(); ++i) {
    weights_[i] = cells.bounds[i + 1] - cells.bounds[i];
    floor_[i] = 0.3 * symbol(std::numbers::pi / (cells.unit * weights_[i])).real();
    for (std::size_t j = 0; j < cells.size(); ++j) {
      const int farthest =
          std::max(cells.bounds[i + 1] - cells.bounds[j], cells.bounds[j + 1] - cells.bounds[i]);
      if (farthest > r) continue;
      const int a0 = cells.bounds[i];
      const int a1 = cells.bounds[i + 1];
      const int b0 = cells.bounds[j];
      const int b1 = cells.bounds[j + 1];
      const double sum = second(a1 - b0) - second(a0 - b0) - second(a1 - b1) + second(a0 - b1);
      matrix_(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = sum / weights_[i];
    }
    matrix_(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(i)) += local_;
  }
  use(0, cells.size());
}

void MeshCompliance::use(std::size_t first, std::size_t count) {
  first_ = first;
  count_ = count;
  give_.resize(count);
}

void MeshCompliance::apply(std::span<const double> pressure, std::span<double> displacement) {
  std::size_t from = 0;
  while (from < count_ && pressure[from] == 0.0)
    ++from;
  std::size_t to = count_;
  while (to > from && pressure[to - 1] == 0.0)
    --to;
  using Eigen::Index;
  const Eigen::Map<const Eigen::VectorXd> p(pressure.data() + from, static_cast<Index>(to - from));
  Eigen::Map<Eigen::VectorXd> u(displacement.data(), static_cast<Index>(count_));
  u.noalias() = matrix_.block(static_cast<Index>(first_), static_cast<Index>(first_ + from),
                              static_cast<Index>(count_), static_cast<Index>(to - from)) *
                p;
}

void MeshCompliance::apply_free(std::span<const double> pressure, std::span<double> displacement) {
  using Eigen::Index;
  const auto count = static_cast<Index>(free_to_ - free_from_);
  const auto at = static_cast<Index>(first_ + free_from_);
  const Eigen::Map<const Eigen::VectorXd> p(pressure.data() + free_from_, count);
  Eigen::Map<Eigen::VectorXd> u(displacement.data() + free_from_, count);
  u.noalias() = matrix_.block(at, at, count, count) * p;
}

void MeshCompliance::apply_symmetric(std::span<const double> pressure,
                                     std::span<double> displacement) {
  using Eigen::Index;
  if (even_matrix_.size() == 0) {
    const Eigen::Map<const Eigen::VectorXd> w(weights_.data(), static_cast<Index>(weights_.size()));
    even_matrix_ =
        0.5 * (matrix_ + w.cwiseInverse().asDiagonal() * matrix_.transpose() * w.asDiagonal());
  }
  const auto at = static_cast<Index>(first_);
  const auto count = static_cast<Index>(count_);
  const Eigen::Map<const Eigen::VectorXd> p(pressure.data(), count);
  Eigen::Map<Eigen::VectorXd> u(displacement.data(), count);
  u.noalias() = even_matrix_.block(at, at, count, count) * p;
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
