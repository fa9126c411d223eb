#include "sim/brush/brush_variations.hpp"

#include <variant>

#include <fmt/format.h>

namespace drumlin::sim {
namespace {

BrushSetup& brush(Setup& setup, std::size_t index) {
  return std::get<BrushSetup>(setup.stations[index]);
}

void set_modulus(models::AnyBrush& any, double value) {
  if (auto* filaments = std::get_if<models::FilamentBrush>(&any))
    filaments->filament.modulus = value;
  else
    std::get<models::NonWovenBrush>(any).contact_modulus = value;
}

void set_fill(models::AnyBrush& any, double value) {
  if (auto* filaments = std::get_if<models::FilamentBrush>(&any)) filaments->fill = value;
}

}  // namespace

void add_brush_variations(std::vector<Variation>& list, const Setup& setup, std::size_t index) {
  const auto& station = std::get<BrushSetup>(setup.stations[index]);
  const auto number = [&](const char* key, const char* meaning, const char* unit, double low,
                          double high, auto set) {
    if (low == high) return;
    list.push_back({fmt::format("station[{}].{}", index, key),
                    meaning,
                    unit,
                    low,
                    high,
                    [=](Setup& s, bool to_high) { set(brush(s, index), to_high ? high : low); },
                    {}});
  };
  number("removal_coefficient", "removal by the brush per pressure and path, all layers together",
         "1/MPa", station.removal_low, station.removal_high,
         [base = station.base.coefficient](BrushSetup& s, double value) {
           scale_removal(s, value / base);
         });
  const bool filaments = std::holds_alternative<models::FilamentBrush>(station.brush);
  number(filaments ? "filament.modulus" : "web.contact_modulus", "stiffness of the brush", "MPa",
         station.modulus_low, station.modulus_high,
         [](BrushSetup& s, double value) { set_modulus(s.brush, value); });
  number("fill", "share of the tips' cylinder that filaments cover", "-", station.fill_low,
         station.fill_high, [](BrushSetup& s, double value) { set_fill(s.brush, value); });
}

}  // namespace drumlin::sim
