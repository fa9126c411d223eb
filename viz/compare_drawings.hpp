#pragma once

#include <string>
#include <vector>

#include "sim/compare_result.hpp"
#include "sim/result.hpp"
#include "viz/drawings.hpp"

/// Pictures of several results on one scale.
namespace drumlin::viz {

/// Name of a feature's section and edge that all results have in the same words; the one with the
/// highest burr first. Empty where they share none.
struct SharedEdge {
  std::string section;
  std::string edge;
};
[[nodiscard]] std::vector<SharedEdge> shared_edges(const std::vector<sim::Result>& results);

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
