#include "sim/numerics/tilt.hpp"

namespace drumlin::sim {
namespace {

/// Nodes over a cover's thickness. K2 varies over a third of it and read by straight lines is
/// then off by half a per cent of what is itself a few per cent of the whole.
constexpr double nodes_per_thickness = 16.0;
/// A cover of 2 mm under a patch of 25 mm still has five nodes to its thickness.
constexpr double most_nodes = 65.0;
constexpr double fewest_nodes = 9.0;

std::size_t nodes_for(double half_span, double thickness) {
  const double wanted = 2.0 * half_span / thickness * nodes_per_thickness + 1.0;
  return static_cast<std::size_t>(std::clamp(std::ceil(wanted), fewest_nodes, most_nodes));
}

}  // namespace

Tilt::Tilt(const Symbol& symbol, double radius, double half_span, double window, double thickness)
    : nodes_(nodes_for(half_span, thickness)),
      half_span_(half_span),
      distance_(2.0 * half_span / static_cast<double>(nodes_ - 1)) {
  const LineResponse response(symbol, distance_, nodes_, window);
  const auto n = static_cast<Eigen::Index>(nodes_);
  matrix_.resize(n, n);
  const auto sine = [&](Eigen::Index i) {
    return std::sin((static_cast<double>(i) * distance_ - half_span_) / radius);
  };
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < n; ++j)
      matrix_(i, j) = sine(i) * response[i - j] * sine(j);
  }
  pressure_.resize(n);
  displacement_.resize(n);
}

void Tilt::add(const Eigen::MatrixXd& matrix, std::span<const double> pressure,
               std::span<double> displacement) {
  pressure_.setZero();
  for (std::size_t i = 0; i < places_.size(); ++i) {
    if (pressure[i] == 0.0) continue;
    const Place& place = places_[i];
    const auto node = static_cast<Eigen::Index>(place.node);
    pressure_(node) += (1.0 - place.share) * place.load * pressure[i];
    pressure_(node + 1) += place.share * place.load * pressure[i];
  }
  displacement_.noalias() = matrix * pressure_;
  for (std::size_t i = 0; i < places_.size(); ++i) {
    const Place& place = places_[i];
    const auto node = static_cast<Eigen::Index>(place.node);
    displacement[i] +=
        (1.0 - place.share) * displacement_(node) + place.share * displacement_(node + 1);
  }
}

}  // namespace drumlin::sim
