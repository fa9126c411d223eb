#pragma once

#include <complex>
#include <span>
#include <vector>

#include "models/belt/nip_compliance.hpp"
#include "sim/line/drum.hpp"
#include "sim/numerics/line_response.hpp"

namespace drumlin::sim::line {

/// How pressure is spread along the feed, on even places.
struct FeedProfile {
  double spacing = 0;                ///< [mm]
  std::span<const double> pressure;  ///< in any unit
};

/// How belt and cover give across an edge that lies along the feed, without the grains' own give
/// [mm/MPa], real and even in q_y.
///
/// A pressure g(x) exp(i q_y y) sinks the surface by (C(|q|) * g)(x) exp(i q_y y). What counts of
/// that is its part along g itself,
///
///     C_eff(q_y) = int |g^|^2 C(q_x, q_y) dq_x / int |g^|^2 dq_x.
///
/// A component gives as plane strain along its own wave vector, q^2 = q_x^2 + q_y^2; the cover
/// passes it at v q_x / q; the belt bends alike in every direction and is in tension along the feed
/// only. A drum counts as a flat cover of thickness R ln(R / (R - t)).
///
/// Source: models/theory/side_edge.md, eq. (2); within 4 % of the pressures of a contact solved in
/// both directions (there, Checks).
class SideCompliance {
 public:
  /// Makes the tables of the cover, which serve every profile.
  SideCompliance(const BeltSetup& station, double interference);

  /// C_eff for a pressure spread along the feed like this.
  [[nodiscard]] Symbol under(const FeedProfile& profile) const;

 private:
  [[nodiscard]] std::complex<double> cover(double qx, double q) const;

  models::BeltOnCover nip_;                    // flat
  std::vector<models::NipCompliance> tables_;  // cover alone, slower from one to the next
};

}  // namespace drumlin::sim::line
