#include "sim/brush/brush_variations.hpp"

#include <algorithm>
#include <variant>

#include <fmt/format.h>

#include "sim/brush/brush_setup.hpp"
#include "sim/brush/disc_tool.hpp"

namespace drumlin::sim {
namespace {

BrushSetup& brush(Setup& setup, std::size_t index) {
  return std::get<BrushSetup>(setup.stations[index]);
}

void set_modulus(models::AnyBrush& any, double value) {
  if (auto* filaments = std::get_if<models::FilamentBrush>(&any))
    filaments->filament.modulus = value;
  else if (auto* discs = std::get_if<models::DiscBrush>(&any))
    discs->filament.modulus = value;
  else
    std::get<models::NonWovenBrush>(any).contact_modulus = value;
}

void set_fill(models::AnyBrush& any, double value) {
  if (auto* filaments = std::get_if<models::FilamentBrush>(&any)) filaments->fill = value;
  if (auto* discs = std::get_if<models::DiscBrush>(&any)) discs->fill = value;
}

/// Not every place across a part gets the same from a row of discs.
void add_unevenness(std::vector<Variation>& list, const Setup& setup, std::size_t index) {
  const auto& station = std::get<BrushSetup>(setup.stations[index]);
  const auto* discs = std::get_if<models::DiscBrush>(&station.brush);
  if (discs == nullptr || station.penetration <= 0.0) return;
  const DiscResult motion = DiscTool(*discs, working_penetration(station), station.speed,
                                     station.feed, fed_width(setup.scenario))
                                .motion();
  if (motion.rubbed_path <= 0.0 || motion.evenness >= 1.0) return;
  const double low = motion.rubbed_least / motion.rubbed_path;
  const double high = motion.rubbed_most / motion.rubbed_path;
  list.push_back({fmt::format("station[{}].disc", index),
                  "place across the part: rubbing there over its mean",
                  "-",
                  low,
                  high,
                  [=](Setup& s, bool to_high) {
                    // A place that gets nothing at all still has to be solved.
                    scale_removal(brush(s, index), std::max(to_high ? high : low, 1e-9));
                  },
                  {}});
}

}  // namespace

void add_brush_variations(std::vector<Variation>& list, const Setup& setup, std::size_t index) {
  const auto& station = std::get<BrushSetup>(setup.stations[index]);
  // Two rollers of a pair are one make: what is not known of the one is not known of the other.
  if (station.second_of_pair) return;
  const auto* next = index + 1 < setup.stations.size()
                         ? std::get_if<BrushSetup>(&setup.stations[index + 1])
                         : nullptr;
  const bool pair = next != nullptr && next->second_of_pair;
  const auto number = [&](const char* key, const char* meaning, const char* unit, double low,
                          double high, auto set) {
    if (low == high) return;
    list.push_back({fmt::format("station[{}].{}", index, key),
                    meaning,
                    unit,
                    low,
                    high,
                    [=](Setup& s, bool to_high) {
                      for (std::size_t i = index; i < index + (pair ? 2 : 1); ++i)
                        set(brush(s, i), to_high ? high : low);
                    },
                    {}});
  };
  number("removal_coefficient", "removal by the brush per pressure and path, all layers together",
         "1/MPa", station.removal_low, station.removal_high,
         [base = station.base.coefficient](BrushSetup& s, double value) {
           scale_removal(s, value / base);
         });
  const bool filaments = !std::holds_alternative<models::NonWovenBrush>(station.brush);
  number(filaments ? "filament.modulus" : "web.contact_modulus", "stiffness of the brush", "MPa",
         station.modulus_low, station.modulus_high,
         [](BrushSetup& s, double value) { set_modulus(s.brush, value); });
  number("fill", "share of the tips' face that filaments cover", "-", station.fill_low,
         station.fill_high, [](BrushSetup& s, double value) { set_fill(s.brush, value); });
  add_unevenness(list, setup, index);
}

}  // namespace drumlin::sim
