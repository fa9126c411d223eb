#pragma once

#include <functional>
#include <string>
#include <vector>

#include "cases/case.hpp"
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

/// These numbers and the power that follows; what follows from the set-up is left to `state_drum`.
[[nodiscard]] StationResult state_station(const BeltSetup& station, const NipNumbers& nip);

/// The plain face, from the depth it lost and the coating it has left [mm].
[[nodiscard]] FaceResult state_face(const cases::Part& part, double removed, double coating);

/// An edge by name and kind, its values still to come.
[[nodiscard]] FeatureResult state_edge(const cases::Feature& feature, cases::Side side);

/// The part: its plain face, and every edge that results are due for as `edge` states it.
[[nodiscard]] PartState state_part(
    const cases::Part& part, FaceResult face,
    const std::function<FeatureResult(const cases::Feature&, cases::Side)>& edge);

/// Every distance to an edge from which on a limit asks for coating [mm].
[[nodiscard]] std::vector<double> coating_distances(const cases::Accept& accept);

}  // namespace drumlin::sim
