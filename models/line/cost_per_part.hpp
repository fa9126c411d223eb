#pragma once

namespace drumlin::models {

/// Parts that leave a line [1/s]: lanes v_f / ((l + gap) passes).
///
/// @param speed   v_f [mm/s] of the conveyor.
/// @param length  l [mm] of a part along the feed; the gap [mm] to the next comes on top.
/// @param passes  times that a part goes through, >= 1.
[[nodiscard]] constexpr double parts_per_time(double lanes, double speed, double length, double gap,
                                              double passes) noexcept {
  return lanes * speed / ((length + gap) * passes);
}

/// Money per part of what is paid by time: rate over parts per time.
[[nodiscard]] constexpr double cost_of_time(double rate, double parts_per_time) noexcept {
  return rate / parts_per_time;
}

/// Money per part of what is used up: price over the parts that it lasts for.
[[nodiscard]] constexpr double cost_of_wear(double price, double life) noexcept {
  return price / life;
}

/// Energy that a tool of even power per width puts into a part [mJ]: every place of the part's area
/// passes under it at the speed of the feed,
///
///     E = P' A / v_f.
///
/// @param power  P' [mW/mm]
/// @param area   A [mm^2] of the part, times the passes.
/// @param feed   v_f [mm/s], > 0.
[[nodiscard]] constexpr double energy_per_part(double power, double area, double feed) noexcept {
  return power * area / feed;
}

}  // namespace drumlin::models
