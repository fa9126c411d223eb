#include "sim/numerics/tilt.hpp"

namespace drumlin::sim {
namespace {

/// Nodes over the patch: a cover of 2 mm under a patch of 25 mm still has five to its thickness.
constexpr std::size_t usual_nodes = 65;

}  // namespace

Tilt::Tilt(const Symbol& symbol, double radius, double half_span, double window)
    : nodes_(usual_nodes),
      half_span_(half_span),
      distance_(2.0 * half_span / static_cast<double>(usual_nodes - 1)) {
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
