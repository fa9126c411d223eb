#include "sim/line_warnings.hpp"

#include <string>

#include <fmt/format.h>

#include "models/line/capstan.hpp"
#include "sim/line_economy.hpp"

namespace drumlin::sim {
namespace {

std::string band_text(const Banded& value) {
  if (!value.low || !value.high) return {};
  return fmt::format(" (band {:.2f}..{:.2f})", *value.low, *value.high);
}

/// What would hold the part.
std::string remedy_text(const StationEconomy& station, const LineEconomy& line) {
  std::string text =
      station.smallest_length
          ? fmt::format(
                "the smallest part that would hold is {:.0f} mm long along the feed, this "
                "one has {:.0f} mm",
                station.smallest_length->value, line.part_length)
          : std::string("no length of part would hold");
  if (station.holding_suction)
    text += fmt::format("; a suction of {:.2g} kPa under the whole part would hold it",
                        1e3 * station.holding_suction->value);
  return text;
}

void warn_of_slip(const StationEconomy& station, const LineEconomy& line,
                  std::vector<std::string>& warnings) {
  if (!station.grip_margin || station.grip_margin->value >= 1.0) return;
  warnings.push_back(fmt::format(
      "station[{}]: the part slips: grip margin {:.2f}{}: the {} {} with {:.3g} N, more than the "
      "conveyor holds at a friction of {:.3g}; {}",
      station.station, station.grip_margin->value, band_text(*station.grip_margin), station.kind,
      station.direction == "with-feed" ? "pushes it forward" : "holds it back",
      station.drag ? station.drag->value : 0.0, line.grip_friction, remedy_text(station, line)));
}

void warn_of_turning(const StationEconomy& station, std::vector<std::string>& warnings) {
  const bool slips = station.grip_margin && station.grip_margin->value < 1.0;
  if (slips || !station.turning_margin || station.turning_margin->value >= 1.0) return;
  warnings.push_back(fmt::format(
      "station[{}]: the part turns: turning margin {:.2f}{}: a part of which half the width is "
      "under the {}, askew or over the drum's end, is turned; guide it, or hold it by suction",
      station.station, station.turning_margin->value, band_text(*station.turning_margin),
      station.kind));
}

void warn_of_drive(const StationEconomy& station, std::vector<std::string>& warnings) {
  const double held = models::capstan_ratio(drive_friction, drive_wrap);
  if (!station.tension_ratio || station.tension_ratio->value <= held) return;
  warnings.push_back(fmt::format(
      "station[{}]: the belt slips on its drive: its drag asks for T1/T2 = {:.2g} of the tension "
      "left at speed, half a turn of wrap at a friction of {:.2g} holds {:.2f} (common practice, "
      "no "
      "source); more tension, or less load",
      station.station, station.tension_ratio->value, drive_friction, held));
}

}  // namespace

void warn_of_line(Result& result) {
  if (!result.line_economy) return;
  const LineEconomy& line = *result.line_economy;
  std::vector<std::string> first = line.forced;
  for (const StationEconomy& station : line.stations)
    warn_of_slip(station, line, first);
  for (const StationEconomy& station : line.stations)
    warn_of_turning(station, first);
  for (const StationEconomy& station : line.stations)
    warn_of_drive(station, first);
  result.warnings.insert(result.warnings.begin(), first.begin(), first.end());
}

}  // namespace drumlin::sim
