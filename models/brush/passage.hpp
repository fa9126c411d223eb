#pragma once

#include "models/brush/sweep.hpp"

namespace drumlin::models {

/// What a filament leaves on the face in one passage.
struct PassageSums {
  double normal_impulse = 0;  ///< integral of normal force over hub angle [N rad]
  double normal_path = 0;     ///< integral of normal force over the path of the tip [N mm]
  double torque_work = 0;     ///< moment of the forces about the axis over hub angle [N mm]
};

/// A filament that has inertia, in its first mode only.
struct Passage {
  PassageSums swinging;  ///< as it strikes, flies and comes down again
  PassageSums balanced;  ///< the same mode where inertia counts for nothing
  double strike = 0;     ///< impulse of the first touch on the face [N s]
  double touching = 0;   ///< share of the passage in which it touches [-]
};

/// First-mode estimate of what inertia adds.
///
/// The tip stands w behind that of the straight filament and 0.6 w^2 / L short of it. It swings
/// with its frequency and 33/140 of its mass and may not enter the face; at a touch it keeps no
/// speed into the face. In contact its place, and so w, is given:
///
///     m w'' + m w0^2 w = N (dz/dw - mu dx/dw),   z >= 0,  N >= 0,  N z = 0.
///
/// At the first touch the tip stops: impulse m v / (sin b + mu cos b), b the hub angle of entry.
/// Slow passages come out as balanced ones; in fast ones the strike at entry carries most.
/// `swinging` over `balanced` is by how much inertia changes what contact() gives. An estimate:
/// higher modes, damping and neighbours are left out, and a strike at a penetration near zero comes
/// out too hard.
///
/// @param on     angular_speed > 0.
/// @param steps  over the arc; sums are good to about 1 / steps.
///
/// Source: models/theory/brush.md; time stepping after Moreau.
[[nodiscard]] Passage passage(const FilamentOnDrum& on, int steps = 1000);

}  // namespace drumlin::models
