#pragma once

#include <array>
#include <cstddef>

/// What a thermally cut edge may look like, by the ranges of ISO 9013.
namespace drumlin::models {

/// Straight line in the thickness a [mm]: constant + slope a.
struct CutRange {
  double constant;
  double slope;
};

/// Perpendicularity or angularity tolerance u [mm] of ranges 1 to 5: how far the flank may lean or
/// belly. Source: ISO 9013:2017 (from memory).
inline constexpr std::array<CutRange, 5> perpendicularity_ranges{
    {{0.05, 0.003}, {0.15, 0.007}, {0.4, 0.01}, {0.8, 0.02}, {1.2, 0.035}}};

/// Mean height of the flank's profile Rz5 [mm] of ranges 1 to 4. Source: as above.
inline constexpr std::array<CutRange, 4> profile_height_ranges{
    {{0.010, 0.0006}, {0.040, 0.0008}, {0.070, 0.0012}, {0.110, 0.0018}}};

/// Thickness [mm] that ISO 9013 speaks of: plasma from 0.5, laser from 0.5 to 32, flame up to 300.
inline constexpr double thinnest_cut = 0.5;
inline constexpr double thickest_cut = 300.0;

/// u [mm] that a range allows at a thickness.
/// @param range      1 to 5.
/// @param thickness  a [mm].
[[nodiscard]] constexpr double perpendicularity(int range, double thickness) noexcept {
  const CutRange& line = perpendicularity_ranges[static_cast<std::size_t>(range - 1)];
  return line.constant + line.slope * thickness;
}

/// Rz5 [mm] that a range allows at a thickness.
/// @param range      1 to 4.
/// @param thickness  a [mm].
[[nodiscard]] constexpr double profile_height(int range, double thickness) noexcept {
  const CutRange& line = profile_height_ranges[static_cast<std::size_t>(range - 1)];
  return line.constant + line.slope * thickness;
}

}  // namespace drumlin::models
