#include "models/heat/temper_colours.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace drumlin::models {
namespace {

constexpr double celsius = 273.15;
constexpr double steel_spread = 15.0;
constexpr double stainless_spread = 30.0;

constexpr auto steel_colours = std::to_array<TemperColour>({
    {"pale yellow", 210 + celsius, steel_spread},
    {"straw", 225 + celsius, steel_spread},
    {"dark straw", 240 + celsius, steel_spread},
    {"brown", 250 + celsius, steel_spread},
    {"red-brown", 260 + celsius, steel_spread},
    {"purple", 270 + celsius, steel_spread},
    {"violet", 281 + celsius, steel_spread},
    {"dark blue", 290 + celsius, steel_spread},
    {"blue", 301 + celsius, steel_spread},
    {"light blue", 310 + celsius, steel_spread},
    {"grey-blue", 320 + celsius, steel_spread},
    {"grey-green", 330 + celsius, steel_spread},
});

constexpr auto stainless_colours = std::to_array<TemperColour>({
    {"straw", 290 + celsius, stainless_spread},
    {"brown", 390 + celsius, stainless_spread},
    {"purple", 420 + celsius, stainless_spread},
    {"blue", 540 + celsius, stainless_spread},
    {"dark blue", 600 + celsius, stainless_spread},
});

}  // namespace

double colour_delay(double time) noexcept {
  constexpr double most = 100.0;
  constexpr double minute = 60.0;
  if (time <= 1.0) return most;
  return most * std::max(0.0, 1.0 - std::log(time) / std::log(minute));
}

std::optional<TemperColour> temper_colour(ColouringMetal metal, double temperature,
                                          double time) noexcept {
  const std::span<const TemperColour> list = metal == ColouringMetal::stainless
                                                 ? std::span<const TemperColour>(stainless_colours)
                                                 : std::span<const TemperColour>(steel_colours);
  std::optional<TemperColour> shown;
  for (const TemperColour& colour : list)
    if (temperature - colour_delay(time) >= colour.from) shown = colour;
  return shown;
}

}  // namespace drumlin::models
