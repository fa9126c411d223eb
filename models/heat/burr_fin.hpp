#pragma once

#include "models/heat/metal.hpp"

namespace drumlin::models {

/// Upright burr as a fin on the corner of a sheet.
struct BurrFin {
  double height = 0;  ///< h [mm], > 0
  double root = 0;    ///< t_b [mm], > 0; taken as its thickness all the way up
  double sheet = 0;   ///< t [mm], thickness of the sheet, > 0
};

/// How warm a burr gets over the sheet far from it.
struct BurrRise {
  double tip = 0;     ///< [K]
  double root = 0;    ///< [K] where it meets the sheet, hottest place there
  double beside = 0;  ///< [K] on the face at the inner foot of the burr
};

/// Steady warming of a fin's tip over its root [K], heat entering at the tip:
///
///     Q' tanh(m h) / (k t_b m),   m = sqrt(2 h_c / (k t_b));   Q' h / (k t_b) without a film.
///
/// @param heat  Q' [mW/mm] per length of edge.
/// @param film  h_c [mW/(mm^2 K)] on both flanks, >= 0.
[[nodiscard]] double fin_rise(const BurrFin& burr, const ThermalMetal& metal, double heat,
                              double film) noexcept;

/// The same a time after the heat began, root held, no film: the steady rise times
/// 1 - (8/pi^2) sum over odd n of exp(-n^2 pi^2 alpha t / 4h^2) / n^2. Terms are added until the
/// next is below 1e-12; for times under 0.01 h^2/alpha the bar without end serves,
/// 2 (Q'/t_b) sqrt(t / (pi k rho c)).
///
/// @param time  t [s], >= 0.
[[nodiscard]] double fin_rise_after(const BurrFin& burr, const ThermalMetal& metal, double heat,
                                    double time) noexcept;

/// Warming of the sheet's corner under the root a time after the heat began [K]: a strip from the
/// edge line to t_b, no heat through face, flank and back. The flank is a mirror, and the back with
/// it; mirror images of the strip through the back count as lines.
///
/// @param place  0 at the edge line (hottest), 1 at the inner foot of the burr.
///
/// Source: strip on a half-space, Carslaw and Jaeger (1959) sec. 10.5, from memory.
[[nodiscard]] double root_rise_after(const BurrFin& burr, const ThermalMetal& metal, double heat,
                                     int place, double time) noexcept;

/// Burr that takes up heat at its tip for a time. The sheet feels it later by what heat needs to
/// go down the fin on average, h^2 / (2 alpha); all of Q' counts from then on, so that the sum is
/// an upper estimate for short times and right for long ones.
[[nodiscard]] BurrRise burr_rise(const BurrFin& burr, const ThermalMetal& metal, double heat,
                                 double time) noexcept;

}  // namespace drumlin::models
