#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cases/case.hpp"
#include "sim/brush/brush_marks.hpp"
#include "sim/brush/brush_tool.hpp"
#include "sim/part_faces.hpp"
#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// What a model found, in the result's terms: stations and part. Values only; bands, verdict and
/// advice come from elsewhere.
struct StatedAnswer {
  std::vector<StationResult> stations;
  PartState part;
};

/// A value without a band yet.
[[nodiscard]] Quantity known(double value);

/// Name of the result that an edge of a feature feeds: the feature's own name where the case says
/// which side carries the burr, else "name:side".
[[nodiscard]] std::string edge_name(const cases::Feature& feature, cases::Side side);

/// The sides of a feature that results are due for.
[[nodiscard]] std::vector<cases::Side> sides_of(const cases::Feature& feature);

/// What every model knows of a station's nip.
struct NipNumbers {
  double line_load = 0;               ///< P' [N/mm] on the plain, unworn face
  double half_width = 0;              ///< a [mm] there
  double peak_pressure = 0;           ///< p0 [MPa] there
  double line_load_slope = 0;         ///< dP'/d(delta) [N/mm^2] there
  double interference = 0;            ///< that the drum is set to [mm]
  double effective_interference = 0;  ///< what the nip has of it [mm]
  double working_line_load = 0;       ///< [N/mm] of the steady wearing pass
};

/// The numbers of a model's static nip and of its first pass over the plain face.
template <class Nip, class Pass>
[[nodiscard]] NipNumbers nip_numbers(const Nip& nip, const Pass& first) {
  return {.line_load = nip.line_load,
          .half_width = nip.half_width,
          .peak_pressure = nip.peak_pressure,
          .line_load_slope = nip.line_load_slope,
          .interference = first.interference,
          .effective_interference = first.effective_interference,
          .working_line_load = first.plain.working_line_load};
}

/// These numbers and the power that follows; what follows from the set-up is left to `state_drum`.
[[nodiscard]] StationResult state_station(const BeltSetup& station, const NipNumbers& nip);

/// A brush over the plain face.
struct BrushPass {
  double penetration = 0;  ///< [mm]
  double tip_reach = 0;    ///< [mm] below the face, on flanks that tips run onto
  models::BrushContact face;
  models::BrushContact whole;      ///< that wears it: of discs, the whole row's
  std::optional<DiscResult> disc;  ///< where it touches
};
[[nodiscard]] BrushPass brush_pass(BrushTool& tool);
[[nodiscard]] StationResult state_brush(const BrushSetup& station, const BrushPass& pass);

/// What brushes have done to an edge that its profile does not show.
void state_marks(const BrushMarks& marks, FeatureResult& result);

/// Station that is neither belt nor brush: what it is, and nothing that it would take a nip to
/// know.
[[nodiscard]] StationResult state_tool(const KnockOffSetup& station);
[[nodiscard]] StationResult state_tool(const FlipSetup& station);

/// The plain face of either side, from what it lost and has left.
[[nodiscard]] FaceResult state_face(const cases::Part& part, FaceSide side, const PlainFace& face);

/// An edge by name and kind, its values still to come. How it is fed is added by `state_edges`,
/// which knows how the part lies.
[[nodiscard]] FeatureResult state_edge(const cases::Feature& feature, cases::Side side);

/// What an edge is as the part is fed: "leading", "trailing", "side", or "leading and trailing" for
/// a side of the part that turns into both ends.
[[nodiscard]] std::string fed_as(const cases::Part& part, cases::Side drawn);

/// The worse of two edges that share a name, since a side of the part that is fed as two ends
/// counts by its worse one: value by value the higher burr, lip, pressure, temperature and drop,
/// the larger extent, bare length and oxide, the smaller radius, depth reached and coating. A
/// radius, an extent or a bare length that one of them does not have is not there: a burr stands on
/// that one, or nothing but bare metal is left.
[[nodiscard]] FeatureResult worse_of(const FeatureResult& one, const FeatureResult& other);

/// One face with every edge that results are due for as `edge` states it.
using EdgeStatement = std::function<FeatureResult(const cases::Feature&, cases::Side)>;
[[nodiscard]] FaceState state_edges(const cases::Part& part, const FaceResult& face,
                                    const EdgeStatement& edge);

/// Every distance to an edge from which on a limit asks for coating [mm].
[[nodiscard]] std::vector<double> coating_distances(const cases::Accept& accept);

}  // namespace drumlin::sim
