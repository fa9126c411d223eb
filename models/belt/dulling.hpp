#pragma once

/// How a belt loses its bite with the work that it has done.
///
/// Work is counted as the metal that it would have removed while fresh, mu P' v t / u: grains wear
/// by rubbing too, and a dull belt that hardly cuts goes on growing dull. In the open measurements
/// of belts the loss goes with the sum of force, time and speed (an exponential in it is adequate
/// within their scatter).
namespace drumlin::models {

/// What a belt of given grain and abrasive stands.
struct Dulling {
  /// V_L [mm]: metal that a fresh belt would have removed, per area of belt, with the work done
  /// when the grain is used up, > 0.
  double life_volume = 0;
  double worn_share = 1;  ///< K at the end of life over K of the fresh belt [-], 0 < w <= 1
  double run_in = 0.2;    ///< share of life in which the fast first fall decays by e [-], > 0

  /// Share of the fresh belt's removal at a force that is left [-] at the share x = V / V_L of its
  /// life; the coefficient K carries all of it, so a threshold that rises with dulling (2 to 5
  /// times; common practice) is in it and must not be counted again,
  ///
  ///     g(x) = 1 - (1 - w) (1 - e^(-x/r)) / (1 - e^(-1/r)),   g(0) = 1,  g(1) = w.
  ///
  /// Fast first, then steady: the first two of the three stages that are published (Li et al.,
  /// J. Manuf. Process. 2021, abstract). The third, a belt that breaks down, lies beyond x = 1,
  /// where the law says no more than g(1).
  ///
  /// @param life_share  x >= 0 [-].
  [[nodiscard]] double sharpness(double life_share) const noexcept;
};

/// Volume of grain and bond per area of belt [mm] that wears before the belt is done: half a mean
/// grain diameter; common practice, no source.
inline constexpr double worn_layer_in_diameters = 0.5;

/// V_L [mm] = G d / 2.
///
/// @param grinding_ratio  G [-], metal removed over abrasive worn.
/// @param grain_diameter  d [mm].
[[nodiscard]] constexpr double life_volume(double grinding_ratio, double grain_diameter) noexcept {
  return grinding_ratio * worn_layer_in_diameters * grain_diameter;
}

/// Share of the fresh belt's friction coefficient that is left [-] where a share g of its removal
/// coefficient is: sqrt(g). K = mu / u, and the fall is shared evenly (in logarithms) between
/// friction and specific energy: at the end, g = 0.2 to 0.3, friction is half and energy twice the
/// fresh belt's, as stated for worn belts (normal over tangential force 1.7 to 3.3, energy 2 to 4
/// times; both from memory).
[[nodiscard]] double dull_friction_share(double sharpness) noexcept;

/// Share of a belt's bite that clogged gaps leave [-], once the loading metal taken per belt area
/// is V: 1 - c (1 - e^(-V / (4 d))).
///
/// c = 0.15 to 0.7 is published for coated abrasives (De Pellegrin et al. 2009, second-hand). That
/// gaps clog while a few grain diameters of metal go through them is common practice, no source.
///
/// @param clogged         c [-], 0 <= c < 1: lost when fully loaded; 0 for metals that do not.
/// @param loading_volume  V [mm], metal of that kind removed per area of belt.
/// @param grain_diameter  d [mm].
[[nodiscard]] double loading_share(double clogged, double loading_volume,
                                   double grain_diameter) noexcept;

}  // namespace drumlin::models
