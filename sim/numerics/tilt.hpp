#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "sim/numerics/line_response.hpp"

namespace drumlin::sim {

/// What the tilt of a round surface adds to a convolution,
///
///     u(a) = sin a (K2 * (p sin b))(a),   a, b angles from the lowest line,
///
/// K2 being smooth on the scale of the cover's thickness: told on a few dozen even nodes that ride
/// with the drum, pressure spread on them and displacement read between them by straight lines.
class Tilt {
 public:
  /// Nothing to add: a flat surface.
  Tilt() = default;

  /// @param symbol     of K2 [mm/MPa].
  /// @param radius     of the surface [mm].
  /// @param half_span  nodes reach this far to either side [mm].
  /// @param thickness  of the cover [mm]: sixteen nodes on it, or as many as the patch takes.
  Tilt(const Symbol& symbol, double radius, double half_span, double window, double thickness);

  [[nodiscard]] bool empty() const noexcept { return nodes_ == 0; }
  /// Tells where the cells lie.
  ///
  /// @param offset  of a cell's middle from the lowest line [mm].
  template <class Offset, class Width>
  void place(std::size_t cells, const Offset& offset, const Width& width);

  /// Adds to the displacement.
  void add(std::span<const double> pressure, std::span<double> displacement) {
    if (!empty()) add(matrix_, pressure, displacement);
  }
  void add_symmetric(std::span<const double> pressure, std::span<double> displacement) {
    if (!empty()) add(0.5 * (matrix_ + matrix_.transpose()), pressure, displacement);
  }

 private:
  void add(const Eigen::MatrixXd& matrix, std::span<const double> pressure,
           std::span<double> displacement);

  struct Place {
    std::size_t node;  ///< the one before
    double share;      ///< of the next
    double load;       ///< width over the nodes' distance
  };
  std::size_t nodes_ = 0;
  double half_span_ = 0;
  double distance_ = 0;  // between nodes [mm]
  Eigen::MatrixXd matrix_;
  Eigen::VectorXd pressure_, displacement_;
  std::vector<Place> places_;
};

template <class Offset, class Width>
void Tilt::place(std::size_t cells, const Offset& offset, const Width& width) {
  if (empty()) return;
  places_.resize(cells);
  for (std::size_t i = 0; i < cells; ++i) {
    const double at = std::clamp((offset(i) + half_span_) / distance_, 0.0,
                                 static_cast<double>(nodes_ - 1) - 1e-9);
    const auto node = static_cast<std::size_t>(at);
    places_[i] = {node, at - static_cast<double>(node), width(i) / distance_};
  }
}

/// A compliance with the tilt of a round surface added.
template <class Base>
class Tilted : public Base {
 public:
  Tilted(Base base, Tilt tilt) : Base(std::move(base)), tilt_(std::move(tilt)) {}

  [[nodiscard]] Tilt& tilt() noexcept { return tilt_; }
  void apply(std::span<const double> pressure, std::span<double> displacement) {
    Base::apply(pressure, displacement);
    tilt_.add(pressure, displacement);
  }
  void apply_free(std::span<const double> pressure, std::span<double> displacement) {
    Base::apply_free(pressure, displacement);
    tilt_.add(pressure, displacement);
  }
  void apply_symmetric(std::span<const double> pressure, std::span<double> displacement) {
    Base::apply_symmetric(pressure, displacement);
    tilt_.add_symmetric(pressure, displacement);
  }

 private:
  Tilt tilt_;
};

}  // namespace drumlin::sim
