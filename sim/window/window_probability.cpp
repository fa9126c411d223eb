#include "sim/window/window_probability.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "models/distribution/distributions.hpp"
#include "sim/design/sobol.hpp"
#include "sim/window/map_lines.hpp"

namespace drumlin::sim {
namespace {

/// Nodes cost `draws` evaluations each, and shares go in steps of 1/draws: once finer than the
/// first grid is fine enough.
constexpr std::size_t most_levels = 1;
/// Nodes at most, for each one of the first grid.
constexpr std::size_t most_nodes_per_first = 4;

/// Margin that a level's share of the draws reaches, by node.
using LevelMargins = std::map<MapPoint, std::vector<double>>;

/// What a share of the draws keeps: inside where the margin that it reaches is not below zero.
class ProbabilityField final : public MapField {
 public:
  ProbabilityField(const LevelMargins& margins, std::size_t level)
      : margins_(margins), level_(level) {}

  [[nodiscard]] bool inside(const MapPoint& point) const override {
    return margins_.at(point)[level_] >= 0;
  }
  [[nodiscard]] Turn turn(const MapPoint& inner, const MapPoint& outer) const override {
    const double high = margins_.at(inner)[level_];
    const double low = margins_.at(outer)[level_];
    return {std::isfinite(low) ? high / (high - low) : 0.5, 0};
  }
  [[nodiscard]] bool middle_inside(const std::array<MapPoint, 4>& corners) const override {
    double sum = 0;
    for (const MapPoint& corner : corners)
      sum += margins_.at(corner)[level_];
    return sum >= 0;
  }

 private:
  const LevelMargins& margins_;
  std::size_t level_;
};

/// How many of the levels are reached.
int class_of(const std::vector<double>& margins) {
  return static_cast<int>(
      std::count_if(margins.begin(), margins.end(), [](double margin) { return margin >= 0; }));
}

/// The node with the highest share; of several the one farthest from any lower one.
const WindowNode& best_of(const std::vector<WindowNode>& nodes) {
  const double highest =
      std::max_element(nodes.begin(), nodes.end(), [](const WindowNode& a, const WindowNode& b) {
        return a.met.value < b.met.value;
      })->met.value;
  const WindowNode* best = nullptr;
  double deepest = -1;
  for (const WindowNode& node : nodes) {
    if (node.met.value < highest) continue;
    double nearest = 1e9;
    for (const WindowNode& other : nodes) {
      if (other.met.value >= highest) continue;
      const auto apart = [](std::size_t a, std::size_t b) {
        return static_cast<double>(a > b ? a - b : b - a);
      };
      nearest =
          std::min(nearest, std::max(apart(node.at.i, other.at.i), apart(node.at.j, other.at.j)));
    }
    if (nearest > deepest) {
      deepest = nearest;
      best = &node;
    }
  }
  return *best;
}

}  // namespace

std::vector<std::vector<double>> draws_of(const cases::WindowStudy& study) {
  const auto count = static_cast<std::uint64_t>(study.settings.draws);
  const Sobol sobol(study.scatter.size(), static_cast<std::uint64_t>(study.settings.seed));
  std::vector<std::vector<double>> draws(count);
  for (std::uint64_t d = 0; d < count; ++d)
    for (std::size_t k = 0; k < study.scatter.size(); ++k)
      draws[d].push_back(models::quantile(*study.scatter[k].distribution, sobol.at(d, k)));
  return draws;
}

MapPlan probability_plan(const cases::WindowSettings& settings) {
  const auto cells = static_cast<std::size_t>(settings.cells);
  const std::size_t first = (cells + 1) * (cells + 1);
  return {.coarse = cells,
          .levels = std::min(static_cast<std::size_t>(settings.levels), most_levels),
          .most_evaluations = most_nodes_per_first * first};
}

WindowProbability probability_map(const MapPlan& plan, std::size_t draws,
                                  const ScatterAt& scatter) {
  std::map<MapPoint, WindowNode> nodes;
  LevelMargins margins;
  const AdaptiveMap map = adaptive_map(plan, [&](std::span<const MapPoint> points) {
    std::vector<PointJudge::Scattered> all = scatter(points);
    std::vector<int> classes;
    for (std::size_t k = 0; k < points.size(); ++k) {
      nodes[points[k]] = {points[k], proportion(all[k].met, draws, probability_confidence),
                          all[k].unknown};
      classes.push_back(class_of(all[k].margins));
      margins[points[k]] = std::move(all[k].margins);
    }
    return classes;
  });
  WindowProbability probability;
  probability.draws = draws;
  probability.cells = map.cells;
  probability.stopped_early = map.stopped_early;
  for (const auto& [point, node] : nodes)
    probability.nodes.push_back(node);
  for (std::size_t k = 0; k < probability_levels.size(); ++k)
    probability.contours.push_back(
        {probability_levels.at(k), lines_of(map, ProbabilityField(margins, k))});
  probability.leaves = map.leaves;
  probability.best = best_of(probability.nodes);
  const auto n = static_cast<double>(map.cells);
  probability.best_place = {static_cast<double>(probability.best.at.i) / n,
                            static_cast<double>(probability.best.at.j) / n};
  return probability;
}

}  // namespace drumlin::sim
