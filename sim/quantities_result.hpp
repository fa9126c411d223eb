#pragma once

#include <array>
#include <string_view>

#include "sim/result.hpp"

/// How every quantity leaves the program: its key (with the unit in it), unit, meaning and the way
/// from inner units. summary.json and results.h5 walk these lists, in this order.
namespace drumlin::sim {

/// From inner units to the unit of a key: value * factor + offset.
struct Scale {
  double factor = 1;
  double offset = 0;

  [[nodiscard]] constexpr double operator()(double inner) const noexcept {
    return inner * factor + offset;
  }
};

inline constexpr Scale as_is{};
inline constexpr Scale mm_to_um{.factor = 1e3};
inline constexpr Scale mw_to_w{.factor = 1e-3};
inline constexpr Scale mm_per_s_to_m_per_s{.factor = 1e-3};
inline constexpr Scale mm_per_s_to_mm_per_h{.factor = 3600};
inline constexpr Scale mm_per_s_to_m_per_min{.factor = 0.06};
inline constexpr Scale mm_to_m{.factor = 1e-3};
inline constexpr Scale s_to_h{.factor = 1.0 / 3600.0};
inline constexpr Scale s_to_ms{.factor = 1e3};
inline constexpr Scale per_s_to_per_min{.factor = 60};
inline constexpr Scale kelvin_to_celsius{.offset = -273.15};

template <class Owner>
struct QuantityKey {
  std::string_view key;
  std::string_view unit;
  std::string_view meaning;
  sim::Quantity Owner::*member;
  Scale scale;
};

inline constexpr auto station_quantities = std::to_array<QuantityKey<sim::StationResult>>({
    {"line_load_N_per_mm", "N/mm", "static line load on the plain, unworn face",
     &sim::StationResult::line_load, as_is},
    {"interference_mm", "mm", "how far the drum is set into the top of the nominal, unworn part",
     &sim::StationResult::interference, as_is},
    {"half_width_mm", "mm", "half the static contact strip on the plain, unworn face",
     &sim::StationResult::half_width, as_is},
    {"peak_pressure_MPa", "MPa", "highest static pressure on the plain, unworn face",
     &sim::StationResult::peak_pressure, as_is},
    {"line_load_slope_N_per_mm2", "N/mm^2", "static line load per interference",
     &sim::StationResult::line_load_slope, as_is},
    {"working_line_load_N_per_mm", "N/mm", "line load of the steady wearing pass",
     &sim::StationResult::working_line_load, as_is},
    {"power_W_per_mm", "W/mm", "grinding power per width", &sim::StationResult::power, mw_to_w},
    {"speed_ratio", "1",
     "belt speed over the critical speed of cover and belt; theory, no measured onset",
     &sim::StationResult::speed_ratio, as_is},
    {"critical_speed_m_per_s", "m/s",
     "speed at which waves in cover and belt keep up with the nip; theory, no measured onset",
     &sim::StationResult::critical_speed, mm_per_s_to_m_per_s},
    {"dynamic_stiffening", "1",
     "cover's modulus at the nip's frequency over the one that the durometer reads",
     &sim::StationResult::dynamic_stiffening, as_is},
    {"effective_interference_mm", "mm",
     "interference as set, with growth of the cover, thickness and bow, less the frame's give",
     &sim::StationResult::effective_interference, as_is},
    {"cover_growth_um", "um", "growth of the cover with temperature and speed",
     &sim::StationResult::cover_growth, mm_to_um},
    {"belt_tension_at_speed_N_per_mm", "N/mm", "belt tension that the belt's inertia leaves",
     &sim::StationResult::belt_tension_at_speed, as_is},
    {"lean_mm", "mm", "pressure's centroid from the drum's axis, along the feed",
     &sim::StationResult::lean, as_is},
    {"rolling_loss_W_per_mm", "W/mm", "power that the cover turns into heat, per width",
     &sim::StationResult::rolling_loss, mw_to_w},
    {"cover_heating_rate_K_per_min", "K/min", "heating of the cover while nothing cools it",
     &sim::StationResult::cover_heating_rate, per_s_to_per_min},
    {"cover_heating_K", "K", "estimated steady temperature of the cover over the air around it",
     &sim::StationResult::cover_heating, as_is},
    {"land_pressure_factor", "1", "pressure under a land over that of a plain cover",
     &sim::StationResult::land_pressure_factor, as_is},
    {"land_pressure_MPa", "MPa", "highest static pressure under a land",
     &sim::StationResult::land_pressure, as_is},
    {"land_dwell_ms", "ms", "time for which one land presses on one place",
     &sim::StationResult::land_dwell, s_to_ms},
    {"ripple_pitch_mm", "mm", "along the part, between passages of the same place of the drum",
     &sim::StationResult::ripple_pitch, as_is},
    {"ripple_height_um", "um", "most that the drum's run-out leaves on the face, peak to peak",
     &sim::StationResult::ripple_height, mm_to_um},
    {"penetration_mm", "mm", "how far the circle of a brush's free tips reaches into the face",
     &sim::StationResult::penetration, as_is},
    {"drag_N_per_mm", "N/mm", "tangential force of a brush on the part, per width",
     &sim::StationResult::drag, as_is},
    {"tip_force_N", "N", "highest force of one filament on the face",
     &sim::StationResult::tip_force, as_is},
    {"tip_reach_mm", "mm", "how far below the face tips strike the flanks that they run onto",
     &sim::StationResult::tip_reach, as_is},
    {"make_up_rate_mm_per_h", "mm/h", "by how much a brush must be moved in while it works",
     &sim::StationResult::make_up_rate, mm_per_s_to_mm_per_h},
});

inline constexpr auto face_quantities = std::to_array<QuantityKey<sim::FaceResult>>({
    {"removal_um", "um", "depth the far face lost, all layers", &sim::FaceResult::removal,
     mm_to_um},
    {"coating_left_um", "um", "coating left on the far face", &sim::FaceResult::coating_left,
     mm_to_um},
    {"coating_left_fraction", "1", "coating left on the far face, share of what was there",
     &sim::FaceResult::coating_left_fraction, as_is},
    {"coating_top_left_um", "um", "layer over the coating left on the far face",
     &sim::FaceResult::top_left, mm_to_um},
    {"roughness_um", "um", "Ra of the face across the lay", &sim::FaceResult::roughness, mm_to_um},
    {"roughness_along_um", "um", "Ra of the face along the lay", &sim::FaceResult::roughness_along,
     mm_to_um},
    {"lay_covered", "1", "share of the face that the lay of the line's grains covers",
     &sim::FaceResult::lay_covered, as_is},
    {"temperature_C", "degC", "highest temperature of the face", &sim::FaceResult::temperature,
     kelvin_to_celsius},
});

inline constexpr auto feature_quantities = std::to_array<QuantityKey<sim::FeatureResult>>({
    {"burr_height_um", "um",
     "highest point over the burr's original footprint above the worn face; negative: below it",
     &sim::FeatureResult::burr_height, mm_to_um},
    {"secondary_burr_um", "um", "overhang of folded burr beyond the original edge line",
     &sim::FeatureResult::secondary_burr, mm_to_um},
    {"lip_thickness_um", "um", "thickness of the folded burr at its foot",
     &sim::FeatureResult::lip_thickness, mm_to_um},
    {"fold_start_um", "um", "height of the burr above the worn face when it began to fold",
     &sim::FeatureResult::fold_start, mm_to_um},
    {"fold_stop_um", "um", "height of its top above the worn face when folding stopped",
     &sim::FeatureResult::fold_stop, mm_to_um},
    {"protrusion_um", "um", "how far a stub sticks out of the edge",
     &sim::FeatureResult::protrusion, mm_to_um},
    {"edge_radius_um", "um", "radius of the circle tangent to face and flank, least squares",
     &sim::FeatureResult::edge_radius, mm_to_um},
    {"edge_radius_fit_um", "um", "rms distance of the profile from that circle",
     &sim::FeatureResult::edge_radius_fit, mm_to_um},
    {"edge_drop_um", "um", "how far the profile at the original edge line lies below the worn face",
     &sim::FeatureResult::edge_drop, mm_to_um},
    {"edge_size_um", "um",
     "size of the edge as ISO 13715 states it: burr positive, undercut negative",
     &sim::FeatureResult::edge_size, mm_to_um},
    {"face_extent_um", "um", "extent of the worn edge along the face",
     &sim::FeatureResult::face_extent, mm_to_um},
    {"flank_extent_um", "um", "extent of the worn edge along the flank",
     &sim::FeatureResult::flank_extent, mm_to_um},
    {"minimum_radius_um", "um", "smallest local radius of the worn edge",
     &sim::FeatureResult::minimum_radius, mm_to_um},
    {"flank_oxide_left_fraction", "1", "share of the flank's height that still carries its oxide",
     &sim::FeatureResult::oxide_left, as_is},
    {"flank_reach_um", "um", "depth below the face to which the flank was worked",
     &sim::FeatureResult::flank_reach, mm_to_um},
    {"root_life_used", "1",
     "strikes of brushes on the burr's root over those that break it; a factor of ten either way",
     &sim::FeatureResult::root_life_used, as_is},
    {"peak_pressure_MPa", "MPa", "highest pressure at this edge over all passes",
     &sim::FeatureResult::peak_pressure, as_is},
    {"peak_line_force_N_per_mm", "N/mm", "highest force on the burr over all passes",
     &sim::FeatureResult::peak_line_force, as_is},
    {"coating_left_um", "um", "least coating left beyond the burr's root",
     &sim::FeatureResult::coating_left, mm_to_um},
    {"bare_length_um", "um", "from the edge line to where coating begins",
     &sim::FeatureResult::bare_length, mm_to_um},
    {"temperature_C", "degC", "highest temperature at the edge", &sim::FeatureResult::temperature,
     kelvin_to_celsius},
});

}  // namespace drumlin::sim
