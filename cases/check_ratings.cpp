#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cases/library.hpp"
#include "cases/reader_parts.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// What a speed may not exceed, and where the case says so.
struct Rating {
  std::optional<double> limit;
  std::string_view of;
  std::string key;
};

/// @return whether one of the ratings is exceeded.
bool check_speed_limits(const Section& station, double speed, bool allowed,
                        std::vector<Rating> ratings) {
  std::erase_if(ratings, [&](const Rating& r) { return !r.limit || speed <= *r.limit; });
  if (ratings.empty()) return false;
  if (allowed) return true;
  const auto lowest =
      std::min_element(ratings.begin(), ratings.end(),
                       [](const Rating& a, const Rating& b) { return *a.limit < *b.limit; });
  const std::string limit = units::format(*lowest->limit, "m/s", 6);
  station.problem_at_value(
      "speed", fmt::format("{} is above what the {} is marked with, {} ({}); nearest speed that "
                           "would do: \"{}\"; to compute it all the same, under a warning: "
                           "allow_overspeed = true",
                           units::format(speed, "m/s", 6), lowest->of, limit, lowest->key, limit));
  return true;
}

void check_speed_of(const Section& section, const Station& station) {
  bool allowed = false;
  bool over = false;
  if (const auto* belt = std::get_if<BeltStation>(&station)) {
    allowed = belt->allow_overspeed;
    over = check_speed_limits(section, belt->speed, allowed,
                              {{belt->belt.speed_limit, "belt", section.path("belt.speed_limit")},
                               {belt->drum.speed_limit, "drum", section.path("drum.speed_limit")}});
  } else if (const auto* brush = std::get_if<BrushStation>(&station)) {
    allowed = brush->allow_overspeed;
    over = check_speed_limits(section, brush->speed, allowed,
                              {{brush->speed_limit, "brush", section.path("speed_limit")}});
  }
  if (allowed && !over) section.note_unused("allow_overspeed", "no speed limit is exceeded");
}

/// The shipped backing that may run wet and bends most like another.
std::string nearest_wet_backing(const Backing& dry) {
  const Library library;
  std::string best;
  double least = 0;
  for (const LibraryEntry& entry : library.list(EntryKind::backing)) {
    const Backing backing = library.backing(entry.name);
    if (!backing.wet || backing.bending_stiffness.value <= 0) continue;
    const double distance =
        std::abs(std::log(backing.bending_stiffness.value / dry.bending_stiffness.value));
    if (!best.empty() && distance >= least) continue;
    best = entry.name;
    least = distance;
  }
  return best;
}

void check_wet(const Section& section, const Belt& belt) {
  if (belt.wet) return;
  const auto table = section.open("belt");
  if (table->given("wet")) {
    table->problem_at_value("wet",
                            "the belt must stay dry, but environment.cooling is \"wet\"; nearest "
                            "valid choice: cooling = \"dry\", or a belt that may run wet");
    return;
  }
  table->problem_at_value(
      "backing",
      fmt::format("a belt on {} must stay dry, but environment.cooling is \"wet\": paper and "
                  "animal glue soften in water (common practice, no source); nearest valid choice: "
                  "backing = \"{}\", or cooling = \"dry\"; for a water-proof one add wet = true",
                  belt.backing.name, nearest_wet_backing(belt.backing)));
}

/// Lanes that the narrowest belt of the line is wide enough for.
void check_lanes(const Section& top, const Case& scenario) {
  const int lanes = scenario.conveyor.lanes;
  if (lanes < 2) return;
  const double angle = scenario.part.angle;
  const double across = scenario.part.width * std::abs(std::cos(angle)) +
                        scenario.part.length * std::abs(std::sin(angle));
  const double taken = lanes * (across + scenario.conveyor.gap) - scenario.conveyor.gap;
  for (std::size_t i = 0; i < scenario.stations.size(); ++i) {
    const auto* belt = std::get_if<BeltStation>(&scenario.stations[i]);
    if (belt == nullptr || !belt->belt.width || taken <= *belt->belt.width * (1 + 1e-9)) continue;
    const double fit =
        (*belt->belt.width + scenario.conveyor.gap) / (across + scenario.conveyor.gap);
    top.open("conveyor")
        ->problem_at_value(
            "lanes", fmt::format("{} lanes take {}, more than the belt of station[{}] is wide, {}; "
                                 "nearest that fits: {}",
                                 lanes, units::format(taken, "mm", 6), i,
                                 units::format(*belt->belt.width, "mm", 6),
                                 std::max(static_cast<int>(fit * (1 + 1e-9)), 1)));
    return;
  }
}

}  // namespace

void check_ratings(const Section& top, const Case& scenario) {
  const auto sections = top.open_list("station");
  for (std::size_t i = 0; i < scenario.stations.size(); ++i) {
    const std::size_t entry = index_in_file(scenario.stations, i);
    if (entry >= sections.size()) continue;
    // The second roller of a pair stands in the entry of the first.
    if (i == 0 || entry != index_in_file(scenario.stations, i - 1))
      check_speed_of(sections[entry], scenario.stations[i]);
    const auto* belt = std::get_if<BeltStation>(&scenario.stations[i]);
    if (belt != nullptr && scenario.cooling == Cooling::wet) check_wet(sections[entry], belt->belt);
  }
  check_lanes(top, scenario);
}

}  // namespace drumlin::cases
