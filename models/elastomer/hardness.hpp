#pragma once

namespace drumlin::models {

/// Young's modulus [MPa] of a rubber from its Shore A hardness, after Gent.
///
///     E = 0.0981 (56 + 7.62336 S) / (0.137505 (254 - 2.54 S))
///
/// Derived for a rigid cone-like punch in a linear elastic, incompressible half-space. Published
/// relations between hardness and modulus differ by a factor of 1.0 (30 Shore A) to 1.9 (80 Shore
/// A); carry at least 30 % as a band unless E was measured. Poor above 80, diverges at 100.
///
/// @param shore_a  S [Shore A], 0 < S < 100; meant for 20 to 90.
/// @return         E [MPa]; monotone in S.
///
/// Source: Gent (1958), IRI Transactions 34, 46, eq. as quoted in the literature (form seen).
[[nodiscard]] double gent_modulus(double shore_a) noexcept;

/// Young's modulus [MPa] from Shore A after Qi, Joyce and Boyce, for comparison and for bands.
///
///     log10 E = 0.0235 S - 0.6403,   20 <= S <= 80
///
/// Beware: public pages print this with base e, which gives half the modulus at 50 Shore A.
///
/// Source: Qi, Joyce, Boyce (2003), Rubber Chem. Technol. 76, 419 (from memory; base 10 as stated
/// by one reader of the paper).
[[nodiscard]] double qi_modulus(double shore_a) noexcept;

/// Young's modulus [MPa] from Shore A (IRHD) after the probit curve of BS 903, for bands.
///
///     S = 100 erf(3.186e-4 sqrt(E)),   E in Pa
///
/// Source: BS 903 family (from memory).
[[nodiscard]] double bs903_modulus(double shore_a) noexcept;

/// Between which moduli [MPa] the published relations leave a cover of known hardness.
struct ModulusBand {
  double low;
  double high;
};

/// From the least to the most of Gent, Qi (20 to 80 Shore A) and BS 903, and Gent's less and plus
/// 30 % at least: relations that agree by chance are no surer than those of ordinary rubbers.
[[nodiscard]] ModulusBand published_modulus_band(double shore_a) noexcept;

}  // namespace drumlin::models
