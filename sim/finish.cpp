#include "sim/finish.hpp"

#include <algorithm>
#include <string>
#include <variant>

#include "models/finish/roughness.hpp"
#include "sim/contact_length.hpp"

namespace drumlin::sim {
namespace {

/// Mean pressure in a contact [MPa] from its force per width and its length along the feed.
double mean_pressure(const StationSetup& station, const StationResult& result) {
  const double length = 2.0 * half_length_of(station, result);
  const double force = result.working_line_load ? result.working_line_load->value : 0.0;
  return length > 0.0 ? force / length : 0.0;
}

/// What a face of the part looks like, through the line.
struct Lay {
  std::optional<double> roughness;  ///< Ra across [mm]; absent: not known
  double low = 0;
  double high = 0;
  std::optional<double> covered;
  std::string direction;
  double removed = 0;  ///< [mm] of the face so far
};

Lay as_delivered(const cases::Part& part) {
  if (!part.roughness) return {};
  return {.roughness = *part.roughness,
          .low = part.roughness_band.low,
          .high = part.roughness_band.high,
          .covered = {},
          .direction = {}};
}

/// A face that some depth has been taken off, by grains that leave a lay of their own or by none.
void go_over(Lay& lay, const StationSetup& station, std::optional<double> scored, double removed) {
  const double depth = removed - lay.removed;
  lay.removed = removed;
  if (depth <= 0.0) return;
  const double band = models::belt_roughness_band;
  if (!scored) {
    if (!lay.roughness) return;
    lay.roughness = models::worn_roughness(*lay.roughness, depth);
    lay.low = models::worn_roughness(lay.low, depth);
    lay.high = models::worn_roughness(lay.high, depth);
    return;
  }
  const double before = lay.roughness.value_or(0.0);
  const auto face = models::scored_face(before, *scored, depth);
  // A face of unknown roughness is known again only once nothing of it is left.
  const bool known = lay.roughness || face.covered > 0.999;
  // What one tool has missed the next may cover.
  lay.direction = discs_of(station) != nullptr ? "crossing arcs" : "along the feed";
  lay.covered = 1.0 - (1.0 - lay.covered.value_or(0.0)) * (1.0 - face.covered);
  if (!known) return;
  lay.roughness = face.roughness;
  lay.low = models::scored_face(lay.low, *scored / band, depth).roughness;
  lay.high = models::scored_face(lay.high, *scored * band, depth).roughness;
}

void state_lay(const Lay& lay, FaceResult& face) {
  if (lay.roughness) {
    face.roughness = Banded{.value = *lay.roughness, .low = lay.low, .high = lay.high};
    if (lay.covered)
      face.roughness_along = Banded{.value = models::along_share * *lay.roughness,
                                    .low = models::along_share_low * lay.low,
                                    .high = models::along_share_high * lay.high};
  }
  face.lay = lay.direction;
  if (lay.covered) face.lay_covered = known(*lay.covered);
}

}  // namespace

std::optional<double> lay_of(const StationSetup& station, const StationResult& result) {
  const double pressure = mean_pressure(station, result);
  if (pressure <= 0.0) return std::nullopt;
  if (const auto* belt = std::get_if<BeltSetup>(&station))
    return models::belt_roughness({.grain_diameter = belt->wear.grain_diameter,
                                   .pressure = pressure / belt->land_ratio,
                                   .speed = belt->sliding_speed,
                                   .sharpness = belt->wear.sharpness,
                                   .wet = belt->wet});
  const auto* brush = std::get_if<BrushSetup>(&station);
  if (brush == nullptr || brush->grain_diameter <= 0.0 || brush->speed <= 0.0) return std::nullopt;
  return models::brush_share * models::belt_roughness({.grain_diameter = brush->grain_diameter,
                                                       .pressure = pressure,
                                                       .speed = brush->speed,
                                                       .wet = brush->wet});
}

void add_finish(const Setup& setup, std::vector<StationResult>& stations) {
  Lay burrs = as_delivered(setup.scenario.part);
  Lay reverse = burrs;
  for (std::size_t i = 0; i < stations.size(); ++i) {
    PartState& after = stations[i].after;
    const auto scored = lay_of(setup.stations[i], stations[i]);
    if (after.face.removal) go_over(burrs, setup.stations[i], scored, after.face.removal->value);
    state_lay(burrs, after.face);
    if (!after.reverse) continue;
    if (after.reverse->face.removal)
      go_over(reverse, setup.stations[i], scored, after.reverse->face.removal->value);
    state_lay(reverse, after.reverse->face);
  }
}

}  // namespace drumlin::sim
