#pragma once

#include <string>
#include <string_view>

#include "cases/case.hpp"
#include "sim/window_result.hpp"

namespace drumlin::sim {

/// A setting's path in words: "station[0].setting.interference" as "interference", with its station
/// where there are several; "conveyor.speed" as "conveyor speed".
[[nodiscard]] std::string spoken_setting(std::string_view key, std::size_t stations);

/// A value with as many decimals as tell it apart at a thousandth of its axis' range, and its unit.
[[nodiscard]] std::string axis_text(const WindowAxis& axis, double value);

/// A value and how far one may go from it, with as many decimals as two digits of the latter need.
[[nodiscard]] std::string plus_minus(const WindowAxis& axis, double value, double reach);

/// Both settings of a place: "interference 0.31 mm and conveyor speed 4.2 m/min".
[[nodiscard]] std::string place_text(const Window& window, const MapPlace& place);

/// Fills in `words` and `notes`: what the map says, and how sure that is.
void add_words(const cases::Accept& accept, Window& window);

}  // namespace drumlin::sim
