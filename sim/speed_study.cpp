#include "sim/speed_study.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "models/elastomer/hardness.hpp"
#include "sim/drum_state.hpp"
#include "sim/fast/fast_model.hpp"

namespace drumlin::sim {
namespace {

constexpr auto hardnesses = std::to_array<double>({20.0, 40.0, 60.0});
constexpr int points = 9;
constexpr double slowest = 2e3;   // [mm/s]
constexpr double fastest = 30e3;  // [mm/s]

/// The burr that is watched: the tallest that a section normal to the drum shows.
const cases::Feature* watched_feature(const cases::Part& part) {
  const cases::Feature* tallest = nullptr;
  double height = 0.0;
  for (const auto& feature : part.features) {
    const auto* wall = std::get_if<models::WallBurr>(&feature.burr);
    if (wall == nullptr || feature.side == cases::Side::side || wall->height <= height) continue;
    tallest = &feature;
    height = wall->height;
  }
  return tallest;
}

/// One station alone, one pass, on the one feature.
Setup reduced(const Setup& setup, std::size_t index, const cases::Feature& feature) {
  Setup one = setup;
  one.stations = {setup.stations[index]};
  one.scenario.stations = {setup.scenario.stations[index]};
  one.scenario.conveyor.passes = 1;
  one.scenario.part.features = {feature};
  return one;
}

/// The feed goes along, so that each place of the part still meets as much belt: what changes is
/// what the cover does, not how much is ground.
void set_speed(BeltSetup& station, double speed) {
  const double faster = speed / station.belt_speed;
  station.belt_speed = speed;
  station.feed *= faster;
  station.sliding_speed *= faster;
}

SpeedCurve curve_of(Setup setup, double hardness, const std::stop_token& stop) {
  BeltSetup& station = setup.belt(0);
  station.cover.modulus = models::gent_modulus(hardness);
  SpeedCurve curve;
  curve.cover = fmt::format("{:.0f} Shore A", hardness);
  const double depth = estimated_interference(station);
  curve.critical_speed = critical_speed_of(station, depth);
  const double end =
      std::min(fastest, curve.critical_speed ? most_inertia * *curve.critical_speed : fastest);
  for (int i = 0; i < points; ++i) {
    const double speed = slowest + (end - slowest) * i / (points - 1);
    set_speed(station, speed);
    fast::Drums drums;
    const StatedAnswer answer =
        fast::state(setup, fast::simulate(setup, drums, stop), /*waves=*/false);
    const Quantity& face = answer.stations.front().peak_pressure;
    double burr = 0.0;
    for (const auto& edge : answer.part.features) {
      if (edge.peak_pressure) burr = std::max(burr, edge.peak_pressure->value);
    }
    if (!face || burr <= 0.0) continue;
    curve.speed.push_back(speed);
    curve.face_pressure.push_back(face->value);
    curve.burr_pressure.push_back(burr);
  }
  return curve;
}

}  // namespace

std::optional<SpeedStudy> study_speed(const Setup& setup, const std::stop_token& stop) {
  const auto first = std::find_if(setup.stations.begin(), setup.stations.end(), [](const auto& s) {
    return std::holds_alternative<BeltSetup>(s);
  });
  const cases::Feature* feature = watched_feature(setup.scenario.part);
  if (feature == nullptr || first == setup.stations.end()) return std::nullopt;
  const auto index = static_cast<std::size_t>(first - setup.stations.begin());
  const BeltSetup& station = setup.belt(index);
  const auto& belt = std::get<cases::BeltStation>(setup.scenario.stations[index]);
  if (!belt.drum.hardness || !station.options.moving) return std::nullopt;
  SpeedStudy study;
  if (const auto* depth = std::get_if<cases::InterferenceSetting>(&station.setting)) {
    study.held = fmt::format("{:.4g} mm interference", depth->interference);
  } else {
    study.held = fmt::format("{:.4g} N/mm working line load",
                             std::get<cases::LineLoadSetting>(station.setting).line_load);
  }
  study.held +=
      fmt::format(", {:.0f} mm of belt per mm of feed", station.sliding_speed / station.feed);
  const auto& wall = std::get<models::WallBurr>(feature->burr);
  study.burr = fmt::format("{}, {:.4g} mm high", feature->name, wall.height);
  study.model = "fast";
  study.belt_speed = station.belt_speed;
  const Setup one = reduced(setup, index, *feature);
  for (const double hardness : hardnesses)
    study.curves.push_back(curve_of(one, hardness, stop));
  return study;
}

}  // namespace drumlin::sim
