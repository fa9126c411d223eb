#include "sim/app/brush_text.hpp"

#include <cmath>
#include <numbers>
#include <vector>

#include <fmt/format.h>

#include "models/brush/disc.hpp"
#include "sim/app/part_text.hpp"
#include "sim/app/result_table.hpp"
#include "sim/names.hpp"

namespace drumlin::app {
namespace {

std::string band(double low, double high) {
  return fmt::format("band {}..{}", brief(low, 3), brief(high, 3));
}

std::string metres_per_second(double speed) {
  return fmt::format("{} m/s", brief(speed / 1000, 4));
}

std::string filaments_text(const cases::BrushStation& station, const models::Filament& filament) {
  return fmt::format("{} filaments {} x {} mm, E {} MPa, {}", station.filament,
                     brief(filament.diameter, 3), brief(filament.free_length, 4),
                     brief(filament.modulus, 4),
                     band(station.modulus_band.low, station.modulus_band.high));
}

std::string fill_text(const cases::BrushStation& station, double fill) {
  return fmt::format("fill {}, {}", brief(fill, 3),
                     band(station.fill_band.low, station.fill_band.high));
}

std::string kind_text(const cases::BrushStation& station) {
  if (const auto* web = std::get_if<models::NonWovenBrush>(&station.brush))
    return fmt::format("web {} mm deep, radius {} mm, contact modulus {} MPa, {}",
                       brief(web->depth, 4), brief(web->radius, 4), brief(web->contact_modulus, 3),
                       band(station.modulus_band.low, station.modulus_band.high));
  if (const auto* discs = std::get_if<models::DiscBrush>(&station.brush))
    return fmt::format("{}; on rings of {} to {} mm radius; {}",
                       filaments_text(station, discs->filament), brief(discs->inner_radius, 4),
                       brief(discs->radius, 4), fill_text(station, discs->fill));
  const auto& brush = std::get<models::FilamentBrush>(station.brush);
  return fmt::format("{}; radius {} mm, {}", filaments_text(station, brush.filament),
                     brief(brush.radius, 4), fill_text(station, brush.fill));
}

double per_minute(double turning) {
  return 60.0 * std::abs(turning) / (2.0 * std::numbers::pi);
}

std::string arrangement_text(const cases::BrushStation& station, const sim::BrushSetup& setup) {
  std::string text(sim::to_text(station.arrangement));
  if (station.roller_of_pair > 0)
    text += station.roller_of_pair == 1 ? ", first roller" : ", second roller";
  const auto* discs = std::get_if<models::DiscBrush>(&setup.brush);
  if (discs == nullptr) return text;
  text += fmt::format(", {} {}", discs->heads, discs->heads > 1 ? "heads" : "head");
  if (discs->heads > 1)
    text += fmt::format(" {} mm apart, turning {}", brief(discs->head_pitch, 4),
                        discs->alternating ? "opposite ways" : "alike");
  if (discs->carrier_radius > 0.0)
    text += fmt::format(", each {} discs {} mm from the carrier's axis", discs->discs,
                        brief(discs->carrier_radius, 4));
  return text + fmt::format("; {} mm wide in all", brief(models::row_width(*discs), 4));
}

std::string speed_text(const cases::BrushStation& station, const sim::BrushSetup& setup) {
  const auto* discs = std::get_if<models::DiscBrush>(&setup.brush);
  if (discs == nullptr)
    return fmt::format("tips {}, {} against the part", metres_per_second(station.speed),
                       metres_per_second(setup.speed));
  std::string text =
      fmt::format("tips {} at the rim, discs {} rpm", metres_per_second(setup.speed),
                  brief(per_minute(models::spindle_turning(*discs, setup.speed)), 4));
  if (discs->carrier_radius > 0.0)
    text += fmt::format(", carrier {} rpm the {} way",
                        brief(per_minute(models::carrier_turning(*discs, setup.speed)), 4),
                        discs->carrier_turns < 0.0 ? "other" : "same");
  return text;
}

std::string discs_text(const std::string& label, const sim::DiscResult& disc) {
  return fmt::format(
      "{}: tips {} on the mean; a place is rubbed over {} m of tip way in a pass, {} to {} m "
      "across "
      "the part (evenness {}); {} % of it along the feed, {} % across (64 % each if all ways "
      "alike). Edges across the feed get {} strikes per mm, {} % in pairs from both sides; the "
      "part's sides {} per mm, {} %.",
      label, metres_per_second(disc.tip_speed), brief(disc.rubbed_path / 1000.0, 3),
      brief(disc.rubbed_least / 1000.0, 3), brief(disc.rubbed_most / 1000.0, 3),
      brief(disc.evenness, 2), brief(100.0 * disc.along_share, 2),
      brief(100.0 * disc.across_share, 2), brief(disc.strikes_on_ends, 2),
      brief(100.0 * disc.reversed_on_ends, 2), brief(disc.strikes_on_sides, 2),
      brief(100.0 * disc.reversed_on_sides, 2));
}

}  // namespace

std::string brush_text(std::size_t number, const sim::BrushSetup& setup,
                       const cases::BrushStation& station, const Style& style) {
  NamedLines lines{
      {"brush", kind_text(station)},
      {"arrangement", arrangement_text(station, setup)},
      {"penetration", fmt::format("{} mm as set, {} mm left of it", brief(station.penetration, 3),
                                  brief(setup.penetration, 3))},
      {"speed", speed_text(station, setup)},
      {"removal, base metal", fmt::format("{} 1/MPa, {}", brief(setup.base.coefficient, 3),
                                          band(setup.removal_low, setup.removal_high))}};
  if (station.wear.radius_loss > 0 || station.wear.make_up > 0)
    lines.emplace_back("since it was set", fmt::format("{} mm worn off, {} mm made up",
                                                       brief(station.wear.radius_loss, 3),
                                                       brief(station.wear.make_up, 3)));
  return heading(fmt::format("Station {}: brush", number), style) + lines_text(lines, style);
}

std::string brushes_text(const sim::Result& result, const Style& style) {
  using sim::StationResult;
  std::vector<StationResult> brushes;
  std::vector<std::string> labels;
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    if (result.stations[i].kind != "brush") continue;
    brushes.push_back(result.stations[i]);
    labels.push_back(fmt::format("{} brush", i + 1));
  }
  if (brushes.empty()) return "";
  const Table table = table_of<StationResult>(
      "station", brushes, [&](std::size_t i) { return labels[i]; },
      {{"drag", "N/mm", [](const StationResult& s) { return s.drag; }, 1, 2},
       {"tip force", "N", [](const StationResult& s) { return s.tip_force; }, 1, 3},
       {"tip reach", "mm", [](const StationResult& s) { return s.tip_reach; }, 1, 2},
       {"make-up", "mm/h", [](const StationResult& s) { return s.make_up_rate; }, 3600.0, 3}});
  std::string out = heading("Brushes at work; make-up: while they are on the part", style) +
                    to_text(table, style);
  for (std::size_t i = 0; i < brushes.size(); ++i)
    if (brushes[i].disc)
      out +=
          wrapped(discs_text(fmt::format("station {}", labels[i]), *brushes[i].disc), "  ", style);
  return out;
}

}  // namespace drumlin::app
