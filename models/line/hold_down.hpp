#pragma once

#include <optional>

namespace drumlin::models {

/// What a tool does to the part under it, per width of drum.
struct ToolOnPart {
  double line_load = 0;  ///< P' [N/mm] down onto the part and through it onto the conveyor, >= 0
  /// F' [N/mm] along the feed: positive pushes the part forward (tool runs with the feed), negative
  /// holds it back (against the feed). Of a belt mu P'.
  double drag = 0;
};

/// What holds the part down beside the tool.
struct Bed {
  double friction = 0;  ///< f [-] of part on conveyor, >= 0
  /// q [MPa] down on every place of the part: its own weight and the suction.
  double pressure = 0;
};

/// Standard gravity [mm/s^2].
inline constexpr double gravity = 9806.65;

/// Own weight and suction per area of the part, rho g t + p_s [MPa].
///
/// @param density    rho [t/mm^3]
/// @param thickness  t [mm]
/// @param suction    p_s [MPa] below the air's, over the whole part.
[[nodiscard]] double bed_pressure(double density, double thickness, double suction) noexcept;

/// Grip margin: force that friction can hold over the force that the tool pushes with [-],
///
///     f (P' w + q w l) / (|F'| w) = (f / |F'|) (P' + q l).
///
/// Statics of a rigid flat part, all of its width w under one tool: the tool's own load presses the
/// part on the conveyor right under it, so with f > mu = |F'| / P' no part slips, however small.
/// The width cancels. The couple F' t of drag above and friction below shifts the load by no more
/// than mu t along the feed; it lifts no part that reaches that far past the nip.
///
/// @param length  l [mm] of the part along the feed (its area over its width), >= 0.
/// @return  absent without a drag: nothing pushes.
[[nodiscard]] std::optional<double> grip_margin(const ToolOnPart& tool, const Bed& bed,
                                                double length) noexcept;

/// Shortest part that one tool does not push away [mm], of any width: grip margin 1,
///
///     l = (|F'| / f - P') / q,   0 where the tool's own load is enough.
///
/// @return  absent where no length holds (f = 0, or q = 0 and too little friction).
[[nodiscard]] std::optional<double> smallest_length(const ToolOnPart& tool,
                                                    const Bed& bed) noexcept;

/// Pressure on the part that holds a given length, q for grip margin 1 [MPa]; 0 where the tool's
/// own load is enough, absent without friction.
[[nodiscard]] std::optional<double> holding_pressure(const ToolOnPart& tool, double friction,
                                                     double length) noexcept;

/// Integral of the distance to the middle over a rectangle [mm^3]: with an even pressure q and a
/// friction f its friction resists a turn about the middle with the moment f q times this.
///
///     4 (p h d / 3 + p^3 asinh(h / p) / 6 + h^3 asinh(p / h) / 6),
///     p = a / 2, h = b / 2, d^2 = p^2 + h^2.
///
/// @param a, b  sides [mm], > 0.
[[nodiscard]] double turning_arm(double a, double b) noexcept;

/// Moment that turns a part of which a width w1 at one side is under the tool, |F'| w1 (w - w1) / 2
/// [N mm]; greatest, |F'| w^2 / 8, with half of it under the tool.
[[nodiscard]] double turning_moment(const ToolOnPart& tool, double width, double covered) noexcept;

/// Turning margin: moment that friction can hold over the one that turns the part [-], with half of
/// its width under the tool, as when it comes in askew or runs over the end of the drum:
///
///     f P' / |F'| + f q A / (|F'| w^2 / 8),   A = turning_arm(w, l).
///
/// The part turns about its middle; one that turns and slides at once gives way somewhat earlier.
///
/// @param width, length  of the part along the drum and along the feed [mm], > 0.
/// @return  absent without a drag.
[[nodiscard]] std::optional<double> turning_margin(const ToolOnPart& tool, const Bed& bed,
                                                   double width, double length) noexcept;

}  // namespace drumlin::models
