#include "sim/turned.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drumlin::sim {
namespace {

/// An edge whose outward normal points along (x, y); x is the feed.
FedEdge fed(double x, double y) {
  // Turned by an even 45 degrees an edge still counts as an end, whatever rounding does.
  const bool end = std::abs(x) >= std::abs(y) - 1e-12;
  const double skew =
      std::atan2(std::min(std::abs(x), std::abs(y)), std::max(std::abs(x), std::abs(y)));
  if (!end) return {cases::Side::side, skew};
  return {x > 0.0 ? cases::Side::leading : cases::Side::trailing, skew};
}

}  // namespace

std::vector<FedEdge> fed_edges(double angle, cases::Side drawn) {
  // Exact at the quarter turns, where most parts lie.
  const double quarters = angle / (0.5 * std::numbers::pi);
  const bool square = std::abs(quarters - std::round(quarters)) < 1e-9;
  const double c = square ? std::round(std::cos(angle)) : std::cos(angle);
  const double s = square ? std::round(std::sin(angle)) : std::sin(angle);
  if (drawn == cases::Side::leading) return {fed(c, s)};
  if (drawn == cases::Side::trailing) return {fed(-c, -s)};
  const FedEdge left = fed(-s, c);
  const FedEdge right = fed(s, -c);
  if (left.side == right.side) return {left};
  return {left, right};
}

}  // namespace drumlin::sim
