#pragma once

/// Roughness of a face that an abrasive goes over: how deep the grains of a belt score it, and what
/// is left of the roughness that was there before. Arithmetic mean roughness Ra (ISO 21920-2)
/// throughout, measured across the lay unless it says "along".
namespace drumlin::models {

/// How an abrasive scores a face.
struct Scoring {
  double grain_diameter = 0;  ///< mean, d [mm], > 0
  double pressure = 0;        ///< mean in the contact [MPa], > 0
  double speed = 0;           ///< of the grains over the face [mm/s], > 0
  double sharpness = 1;       ///< removal coefficient over the fresh one [-], 0 < g <= 1
  bool wet = false;
};

/// Ra across the lay [mm] of a face that a belt has gone over often enough to leave nothing of what
/// was there before,
///
///     Ra = 1.42 um (d / 0.1 mm)^1.04 (p / 0.1 MPa)^0.25 (v / 20 m/s)^-0.2 g^0.3 w.
///
/// The factor and the exponent of d are the least squares in logarithms through 27 rows of five
/// charts of roughness over grit (tests/validation/finish_test.cpp); that the exponent comes out
/// near 1 is what grains of one shape would give. The charts state no conditions, so pressure and
/// speed are those of common practice. The other exponents are common practice, no source: between
/// grains that dig in as the root of their load (0.5) and more grains that carry it (0); higher
/// speed finer; a worn belt leaves 0.6 to 0.8 of the fresh one's Ra; w = 0.8 wet.
[[nodiscard]] double belt_roughness(const Scoring& scoring) noexcept;

/// Factor up and down within which `belt_roughness` is known [-]: two standard deviations of the 27
/// rows about the fit. Charts for one grit differ by 2 to 4 times.
inline constexpr double belt_roughness_band = 2.75;

/// Ra of a face brushed with grains of that size over Ra of one ground with them [-]: filaments and
/// webs press grains singly and lightly. 0.4 puts brushing with P120 to P180 at 0.45 to 0.7 um,
/// inside the 0.2 to 1.0 um that a stockist's page gives for finish 2J of EN 10088-2; value and
/// band common practice, no source.
inline constexpr double brush_share = 0.4;

/// Ra along the lay over Ra across it [-]; 0.15 to 0.5, common practice, no source.
inline constexpr double along_share = 0.3;
inline constexpr double along_share_low = 0.15;
inline constexpr double along_share_high = 0.5;

/// A face partly gone over.
struct ScoredFace {
  double roughness = 0;  ///< Ra across the new lay [mm]
  double covered = 0;    ///< share of the face that the new lay covers [-]
};

/// Ra [mm] that is left of a face of Ra `before` once a mean depth h [mm] is taken off its top: a
/// Gaussian profile, sigma = sqrt(pi/2) Ra, cut off flat,
///
///     Ra(h) = 2 sigma (phi(h/sigma) - (h/sigma) (1 - Phi(h/sigma))).
///
/// Exact for that profile: the mean line sinks by h, and what lies under it was not touched. A soft
/// drum follows long waves and leaves more of them.
[[nodiscard]] double worn_roughness(double before, double removed) noexcept;

/// Share of that face [-] that the cut has not reached: Phi(t) with phi(t) - t (1 - Phi(t)) =
/// h/sigma.
[[nodiscard]] double untouched_share(double before, double removed) noexcept;

/// A face of Ra `before` [mm] after a tool that would leave Ra `scored` [mm] has taken a mean depth
/// `removed` [mm] off it.
///
/// The grooves of a tool are taken as triangles that lie side by side where it has gone over
/// everything: depth 4 Ra, metal 2 Ra. So h < 2 Ra leaves a share h / (2 Ra) covered, and sparse
/// grooves have an Ra of 2 h at most. Old and new heights are independent and add in squares.
[[nodiscard]] ScoredFace scored_face(double before, double scored, double removed) noexcept;

}  // namespace drumlin::models
