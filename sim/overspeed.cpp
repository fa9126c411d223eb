#include "sim/overspeed.hpp"

#include <optional>
#include <string_view>

#include <fmt/format.h>

namespace drumlin::sim {
namespace {

void warn(std::size_t index, double speed, const std::optional<double>& limit, std::string_view of,
          std::vector<std::string>& list) {
  if (!limit || speed <= *limit) return;
  list.push_back(fmt::format(
      "station[{}] is forced: {:.4g} m/s is above the {:.4g} m/s that its {} is marked with; "
      "computed only since allow_overspeed says so",
      index, speed / 1000.0, *limit / 1000.0, of));
}

}  // namespace

std::vector<std::string> overspeed_warnings(const cases::Case& scenario) {
  std::vector<std::string> list;
  for (std::size_t i = 0; i < scenario.stations.size(); ++i) {
    if (const auto* belt = std::get_if<cases::BeltStation>(&scenario.stations[i])) {
      warn(i, belt->speed, belt->belt.speed_limit, "belt", list);
      warn(i, belt->speed, belt->drum.speed_limit, "drum", list);
    } else if (const auto* brush = std::get_if<cases::BrushStation>(&scenario.stations[i])) {
      warn(i, brush->speed, brush->speed_limit, "brush", list);
    }
  }
  return list;
}

std::string overspeed_caution(const cases::Case& scenario) {
  if (overspeed_warnings(scenario).empty()) return {};
  return "This case runs a tool faster than it is marked for. Do not run it on a machine: tools "
         "above their marked speed burst.";
}

}  // namespace drumlin::sim
