#pragma once

#include <functional>
#include <optional>
#include <span>

#include "cases/window_study.hpp"
#include "sim/window/point_judge.hpp"

namespace drumlin::sim {

/// Probabilities at which contours are drawn.
inline constexpr std::array probability_levels{0.5, 0.9, 0.95, 0.99};
inline constexpr double probability_confidence = 0.95;  ///< of the intervals [-]

/// Values of what scatters, draw by draw [inner unit]: points of Sobol's sequence, shifted by the
/// seed, through each key's quantile function.
[[nodiscard]] std::vector<std::vector<double>> draws_of(const cases::WindowStudy& study);

/// What the draws come to at points of a map, with margins for `probability_levels`.
using ScatterAt = std::function<std::vector<PointJudge::Scattered>(std::span<const MapPoint>)>;

/// Share of the draws that keep all limits over the map: the first grid of the map, then finer
/// where a contour runs.
///
/// A share goes in steps of 1/draws; its contours do not: the contour of a level is where the
/// margin that so many draws reach is zero, which goes smoothly from node to node, the draws being
/// the same at all of them.
///
/// @param plan  of its own nodes, not of single evaluations.
[[nodiscard]] WindowProbability probability_map(const MapPlan& plan, std::size_t draws,
                                                const ScatterAt& scatter);

/// The plan that a study's settings make of it.
[[nodiscard]] MapPlan probability_plan(const cases::WindowSettings& settings);

}  // namespace drumlin::sim
