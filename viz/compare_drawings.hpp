#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/compare_result.hpp"
#include "sim/result.hpp"
#include "viz/drawings.hpp"

/// Pictures of several results on one scale.
namespace drumlin::viz {

/// Name of a section and an edge in it that all results have in the same words.
struct SharedEdge {
  std::string section;
  std::string edge;
};

/// The shared edge that carries the highest pressure in any of the results: the one that the
/// moments of highest edge pressure show. None where the results share none, or have no sections.
[[nodiscard]] std::optional<SharedEdge> shared_edge(const std::vector<sim::Result>& results);

/// The contact of each case at its moment of highest edge pressure: one drawing per case, all with
/// the same lengths, heights and pressures; empty where a case has no sections.
[[nodiscard]] std::vector<Drawing> contact_drawings(const std::vector<sim::Result>& results,
                                                    const sim::Comparison& comparison,
                                                    const SharedEdge& edge);

/// The same moments close to the edge.
[[nodiscard]] std::vector<Drawing> close_drawings(const std::vector<sim::Result>& results,
                                                  const sim::Comparison& comparison,
                                                  const SharedEdge& edge);

/// What is left of the edge of each case, before and after, on one scale.
[[nodiscard]] std::vector<Drawing> edge_drawings(const std::vector<sim::Result>& results,
                                                 const sim::Comparison& comparison,
                                                 const SharedEdge& edge);

/// Coating left over the distance from the edge, all cases in one plot.
[[nodiscard]] std::vector<Drawing> coating_drawings(const std::vector<sim::Result>& results,
                                                    const sim::Comparison& comparison,
                                                    const SharedEdge& edge);

/// Loss of the face over how much thicker the part is than nominal, all cases in one plot.
[[nodiscard]] std::vector<Drawing> thickness_drawings(const std::vector<sim::Result>& results,
                                                      const sim::Comparison& comparison);

}  // namespace drumlin::viz
