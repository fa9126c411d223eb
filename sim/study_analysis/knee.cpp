#include "sim/study_analysis/knee.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include <Eigen/Dense>

namespace drumlin::sim {
namespace {

/// A front that leaves its plane by less than this share of its range is straight: a thousandth is
/// below what rows of a study tell apart.
constexpr double straight = 1e-3;

/// Aims with 0 best and 1 worst; empty where an aim does not vary.
std::vector<Eigen::VectorXd> normalised(const std::vector<FrontPoint>& front,
                                        const std::vector<bool>& up) {
  const auto aims = static_cast<Eigen::Index>(up.size());
  Eigen::VectorXd best = Eigen::VectorXd::Constant(aims, std::numeric_limits<double>::infinity());
  Eigen::VectorXd worst = -best;
  std::vector<Eigen::VectorXd> points;
  points.reserve(front.size());
  for (const FrontPoint& point : front) {
    Eigen::VectorXd p(aims);
    for (Eigen::Index k = 0; k < aims; ++k) {
      const auto at = static_cast<std::size_t>(k);
      p[k] = up[at] ? -point.aims[at] : point.aims[at];
    }
    best = best.cwiseMin(p);
    worst = worst.cwiseMax(p);
    points.push_back(std::move(p));
  }
  if (((worst - best).array() <= 0.0).any()) return {};
  for (Eigen::VectorXd& p : points)
    p = (p - best).cwiseQuotient(worst - best);
  return points;
}

std::vector<std::size_t> ends_of(const std::vector<Eigen::VectorXd>& points) {
  std::vector<std::size_t> ends;
  for (Eigen::Index k = 0; k < points.front().size(); ++k) {
    std::size_t end = 0;
    for (std::size_t i = 1; i < points.size(); ++i) {
      const bool better = points[i][k] < points[end][k];
      const bool level = points[i][k] == points[end][k];
      if (better || (level && points[i].sum() < points[end].sum())) end = i;
    }
    ends.push_back(end);
  }
  return ends;
}

/// Plane n . p = d with |n| = 1, n pointing to worse values.
struct Plane {
  Eigen::VectorXd normal;
  double offset = 0;
};

Plane plane_through(const std::vector<Eigen::VectorXd>& points,
                    const std::vector<std::size_t>& ends) {
  const auto aims = points.front().size();
  Eigen::MatrixXd rows(aims, aims);
  for (Eigen::Index k = 0; k < aims; ++k)
    rows.row(k) = points[ends[static_cast<std::size_t>(k)]];
  const Eigen::FullPivLU<Eigen::MatrixXd> solver(rows);
  if (solver.isInvertible()) {
    const Eigen::VectorXd n = solver.solve(Eigen::VectorXd::Ones(aims));
    if ((n.array() > 0.0).all()) return {n.normalized(), 1.0 / n.norm()};
  }
  const Eigen::VectorXd even = Eigen::VectorXd::Ones(aims).normalized();
  return {even, (rows * even).mean()};
}

}  // namespace

KneeOrReason knee_of(const std::vector<FrontPoint>& front, const std::vector<bool>& up) {
  if (front.size() < 3) return {{}, "the front has fewer than three points"};
  const std::vector<Eigen::VectorXd> points = normalised(front, up);
  if (points.empty()) return {{}, "an aim is the same all along the front"};
  const std::vector<std::size_t> ends = ends_of(points);
  if (std::all_of(ends.begin(), ends.end(), [&](std::size_t end) { return end == ends.front(); }))
    return {{}, "one row is best in every aim: there is nothing to trade"};
  const Plane plane = plane_through(points, ends);
  Knee knee{.point = 0, .distance = -std::numeric_limits<double>::infinity(), .sides = {}};
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double distance = plane.offset - plane.normal.dot(points[i]);
    if (distance > knee.distance) knee = {i, distance, {}};
  }
  if (knee.distance < straight)
    return {{}, "the front is straight or bulges away from the better values"};
  for (std::size_t k = 0; k < ends.size(); ++k) {
    FrontSide side{.aim = k, .end = ends[k], .change = {}};
    for (std::size_t m = 0; m < ends.size(); ++m)
      side.change.push_back(front[ends[k]].aims[m] - front[knee.point].aims[m]);
    knee.sides.push_back(std::move(side));
  }
  return {std::move(knee), ""};
}

}  // namespace drumlin::sim
