#pragma once

#include <complex>
#include <memory>

#include "models/belt/tensioned_plate.hpp"
#include "models/elastomer/cover.hpp"

namespace drumlin::models {

/// How the belt lies on the cover.
enum class Grip {
  slip,  ///< the cover's surface slides freely along the belt
  stick  ///< the belt, which does not stretch, holds it
};

/// Stretching stiffness per width that counts as none at all in a nip [N/mm]. Cloth belts have 500
/// to 1500 (E 0.5 to 1.5 GPa on 1 mm; common practice, no source); with 1000 a thin, nearly
/// incompressible cover carries 1.4 % less line load at an interference of a fifth of it, others
/// less. It is finite because a belt is no hoop: a wave as long as the drum's circumference it does
/// not hold.
inline constexpr double unstretching = 1e6;

/// Cover with the belt on it, as the nip feels both: the vertical give to a vertical load.
struct BeltOnCover {
  Cover cover;
  /// Tension is what is left of it at speed; grains are not part of this compliance.
  TensionedPlate belt{};
  Grip grip = Grip::slip;
  double membrane_stiffness = unstretching;  ///< B [N/mm], of the belt where it grips
};

/// Compliance of belt and cover, without grains, to a component exp(i q s) of vertical load
/// [mm/MPa]; complex once the cover moves and loses energy, C(-q) = conj C(q).
///
///     1 / C = D q^4 + T q^2 + 1 / C_cover,
///     C_cover = nn (slip) or nn - nt tn / tt (stick: the belt carries the tangential load),
///
/// on a drum turned into the vertical: the load at angle b and the displacement at angle a combine
/// as cos(a - b), which mixes the harmonics n - 1 and n + 1 (eq. 14 of the theory page). The belt
/// that sticks to a drum follows the cover without stretching along the curve; next to q = 1 / R
/// its C passes through zero (the whole circumference shifted sideways), where only the remainder
/// counts.
///
/// Tabulated once over the wave numbers where the cover's thickness and curvature matter, so that
/// thousands of wave numbers cost 50 ns each. Agrees with the direct evaluation to `accuracy`, at
/// three times that at worst. Made in 0.3 to 0.7 ms at 1e-5 and in 0.1 to 0.2 ms at 1e-3.
class NipCompliance {
 public:
  /// @param with_remainder  whether `remainder` is tabulated too, a third of the making; without,
  ///                        each of its values costs some microseconds.
  explicit NipCompliance(const BeltOnCover& nip, double accuracy = 1e-5,
                         bool with_remainder = true);

  [[nodiscard]] std::complex<double> operator()(double q) const;

  /// What the convolution leaves out on a drum [mm/MPa], C(-q) = conj C(q); zero on a flat cover.
  ///
  /// Away from the lowest point the vertical is no longer the normal: with a, b the angles of two
  /// places and K2 the kernel of this spectrum, the vertical give is exactly
  ///
  ///     u(a) = (K * p)(a) + sin a (K2 * (p sin b))(a).
  ///
  /// Left out, a slipping cover carries 0.08 to 0.4 % (R 100, t 20, interference 1 to 2 mm, nu
  /// 0.45), at worst 3.4 % (t 10, 2 mm, nu 0.49) too much line load, a gripped one 0.5 to 2.4 % too
  /// little; the peak pressure changes by a third of that. K2 is that of the cover alone, tt - nn,
  /// damped by the belt as a small change of the cover is: 1 / (1 + (D q^4 + T q^2) C_cover)^2.
  [[nodiscard]] std::complex<double> remainder(double q) const;

  /// Whether C is real: the nip then looks the same from both sides.
  [[nodiscard]] bool symmetric() const noexcept;

 private:
  struct Table;
  std::shared_ptr<const Table> table_;
};

/// C evaluated directly: the reference for the table.
[[nodiscard]] std::complex<double> nip_compliance(const BeltOnCover& nip, double q);

}  // namespace drumlin::models
