#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/case.hpp"
#include "sim/result.hpp"
#include "sim/setup.hpp"

/// What follows from a set-up and its nip alone, whatever model solved the contact: critical speed,
/// tension at speed, stiffening, growth, lands, ripple, heat. Every model states it the same way.
namespace drumlin::sim {

/// Belt speed over critical speed up to which a moving cover is solved with all its inertia [-]:
/// near 1 the compliance diverges and no linear answer means anything.
inline constexpr double most_inertia = 0.9;

/// T_eff [N/mm]: what the belt's inertia leaves of its tension, max(0, T - m' v_b^2); T at rest.
[[nodiscard]] double tension_at_speed(const BeltSetup& station);

/// Frequency [rad/s] at which a nip of half-width a works the cover: v_b / a.
///
/// @param interference  [mm]; a lies between sqrt(R delta), half-space, and sqrt(2 R delta), thin
///                      cover: their mean is taken, which moves the modulus by 1 or 2 %.
[[nodiscard]] double nip_frequency(const BeltSetup& station, double interference);

/// Storage modulus at the nip's frequency over the one that the durometer reads [-]: rate,
/// temperature and strain counted. Without motion only the temperature counts.
[[nodiscard]] double dynamic_stiffening(const BeltSetup& station, double interference);

/// Critical speed of cover and belt [mm/s]: the lowest speed at which waves in the cover, with the
/// belt's bending, tension and mass on it, keep up with the nip; at the modulus that such a wave
/// meets, at rest that of the durometer. Theory; no measured onset was found. Some milliseconds.
///
/// @return  no value where a stiff belt lets no such wave be, up to 2.5 times the shear wave speed.
[[nodiscard]] std::optional<double> critical_speed_of(const BeltSetup& station,
                                                      double interference);

/// Belt speed over the Rayleigh speed of the bare cover at the modulus that the nip meets [-]: a
/// quick estimate of belt speed over critical speed, within a fifth where the belt is of cloth.
[[nodiscard]] double rayleigh_ratio(const BeltSetup& station, double interference);

/// Share of the cover's inertia that is solved [-]: 1, and above 0.9 of the critical speed so much
/// that the answer is that of 0.9 of it. Frequency and modulus stay those of the belt's speed.
[[nodiscard]] double inertia_share(const BeltSetup& station, double interference);

/// Highest belt speed [mm/s] that even the upper end of the dynamic modulus's band lets the cover
/// follow: highest modulus, highest loss factor, no softening with strain.
///
/// @return  no value where no speed is too high.
[[nodiscard]] std::optional<double> highest_speed(const BeltSetup& station, double interference);

/// Interference that a setting comes to, for estimates before anything is solved [mm]: as set, or
/// of a Hertz contact that carries the line load.
[[nodiscard]] double estimated_interference(const BeltSetup& station);

/// Adds to `problems` where a moving cover cannot follow the belt of a station.
void check_speed(const BeltSetup& setup, const cases::BeltStation& station, const std::string& file,
                 std::size_t index, std::vector<cases::Problem>& problems);

/// States what follows from the set-up.
///
/// @param result  read where the model gives them: interference as set, effective interference
///                (else reckoned here from growth, offset and the frame's give to the working line
///                load), half-width, line loads, peak pressure, line-load slope, rolling loss. What
///                needs one that is not there stays without a value.
/// @param waves   whether to look for the critical speed, which takes milliseconds; without,
///                critical speed and speed ratio are left as they are.
void state_drum(const BeltSetup& station, StationResult& result, bool waves = true);

}  // namespace drumlin::sim
