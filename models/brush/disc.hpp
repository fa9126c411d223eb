#pragma once

#include <vector>

#include "models/brush/brush.hpp"

namespace drumlin::models {

/// Filaments that pass over a place of the part, or over a piece of edge there: so many, that way.
/// x is the feed direction (the part runs to +x), y lies across, towards the left.
struct TipsPassing {
  /// Filaments per area times the length of feed over which they are met [1/mm]; over the feed
  /// speed: filaments times the time that they are there, per area.
  double count = 0;
  double along = 0;   ///< v_x over the part [mm/s]
  double across = 0;  ///< v_y [mm/s]
};

/// Speed at which a disc turns about its own axis, seen from its carrier [rad/s].
[[nodiscard]] double spindle_turning(const DiscBrush& brush, double speed) noexcept;
/// Speed at which the carrier turns [rad/s]; negative: against the discs.
[[nodiscard]] double carrier_turning(const DiscBrush& brush, double speed) noexcept;

/// Filaments of one head per area of its discs [1/mm^2].
[[nodiscard]] double filaments_per_area(const DiscBrush& brush) noexcept;

/// How far one head reaches from its middle, across and along [mm].
[[nodiscard]] double reach_of(const DiscBrush& brush) noexcept;
/// Where the heads' middles stand across the feed [mm], the row symmetric about the middle line.
[[nodiscard]] std::vector<double> head_places(const DiscBrush& brush);
/// Width from the outermost reach of the row to that on the other side [mm].
[[nodiscard]] double row_width(const DiscBrush& brush) noexcept;

/// All tips that pass over a place, as it goes under the row of heads.
///
/// A disc at a point r from its axis moves its tips with W z x r; on a carrier, with the point p
/// from the carrier's axis, with W_c z x p + W z x r. Over the part the feed comes off. A place
/// meets the carrier at any phase alike: the mean over its turns (a head that turns slowly over a
/// fast part leaves a pattern, which this does not show).
///
/// @param speed   W b of the tips at the outer radius about the disc's own axis [mm/s].
/// @param feed    v_f [mm/s].
/// @param across  y of the place, from the middle line [mm].
/// @param order   points of the rule on every piece of the way; 8 give sums within 1e-4.
[[nodiscard]] std::vector<TipsPassing> tips_over(const DiscBrush& brush, double speed, double feed,
                                                 double across, int order = 8);

/// A place across the part, and the share of the width that it stands for.
struct WidthPlace {
  double across = 0;  ///< [mm] from the middle line
  double share = 0;   ///< [-]; all of them sum to 1
};

/// Places whose weighted sum is the mean across a width, laid between the ends of discs and rings.
///
/// @param width   [mm], about the middle line.
/// @param points  of the rule between two ends.
[[nodiscard]] std::vector<WidthPlace> places_across(const DiscBrush& brush, double width,
                                                    int points = 4);

/// How tips rub over a place: sums over them.
struct Rubbing {
  double path = 0;        ///< sum of count |v| [1/s]: normal force times it, over v_f, is the work
  double along = 0;       ///< of count |v_x|
  double across = 0;      ///< of count |v_y|
  double net_along = 0;   ///< of count v_x
  double net_across = 0;  ///< of count v_y
};
[[nodiscard]] Rubbing rubbing(const std::vector<TipsPassing>& tips) noexcept;

/// How tips meet an edge that passes under the row: per length of edge, times the feed speed.
struct EdgePassing {
  double onto = 0;      ///< filaments that come onto the metal [1/s]
  double off = 0;       ///< that run off it [1/s]
  double reversed = 0;  ///< of both, that have one from the other side to go with [1/s]
  double path = 0;      ///< sum of count |v|, of all of them [1/s]
  /// The same sum of those that come on, by the cosine of their angle to the edge's normal, in
  /// even intervals of that angle from 0 to pi / 2.
  std::vector<double> onto_by_angle;
};

/// Intervals of `onto_by_angle`.
inline constexpr int edge_angles = 45;

/// @param out_along, out_across  the edge's normal, out of the metal; of length 1.
[[nodiscard]] EdgePassing edge_passing(const std::vector<TipsPassing>& tips, double out_along,
                                       double out_across);

/// Adds a share of another place's.
void add(EdgePassing& sum, const EdgePassing& part, double share);

/// Mean over the disc's area of the speed of tips about the head's middle, the feed left out
/// [mm/s].
///
///     disc: W (2/3) (b^3 - a^3) / (b^2 - a^2);
///     on a carrier, at the radius r: (2/pi) (A + B) E(2 (A B)^(1/2) / (A + B)),
///     A = |W_c| R_c,  B = |W + W_c| r.
[[nodiscard]] double mean_tip_speed(const DiscBrush& brush, double speed);

}  // namespace drumlin::models
