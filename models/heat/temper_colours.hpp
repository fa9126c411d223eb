#pragma once

#include <optional>
#include <string_view>

namespace drumlin::models {

/// Metals whose temper colours are tabulated.
enum class ColouringMetal { carbon_steel, stainless };

/// Colour of the oxide that a heated surface keeps.
struct TemperColour {
  std::string_view name;
  double from = 0;    ///< [K] at which it shows after minutes in air (stainless: an hour)
  double spread = 0;  ///< [K] either way, between lists
};

/// Kelvin more that a hold of so many seconds needs for the same colour than one of minutes: 100 K
/// at a second and less, none from a minute on, straight in the logarithm between (the 100 K from
/// memory, the rest our choice, no source).
[[nodiscard]] double colour_delay(double time) noexcept;

/// Colour that a surface shows after it was at a temperature for a time.
///
/// Carbon steel: two lists agree within 15 K (pale yellow 210 to grey-green 330 degC). Stainless
/// 18-8: two lists agree within 50 K (straw 290 to dark blue 600 degC, an hour); 30 K are stated.
///
/// @param temperature  [K], highest.
/// @param time         [s] at it.
/// @return             no value below the first colour.
[[nodiscard]] std::optional<TemperColour> temper_colour(ColouringMetal metal, double temperature,
                                                        double time) noexcept;

}  // namespace drumlin::models
