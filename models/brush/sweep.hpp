#pragma once

#include <vector>

#include "models/brush/elastica.hpp"
#include "models/brush/filament.hpp"

namespace drumlin::models {

/// A filament on its drum, above a flat face, turning.
struct FilamentOnDrum {
  Filament filament;
  double hub_radius = 0;     ///< r [mm] where filaments are held, > 0; tips run at r + L
  double penetration = 0;    ///< delta [mm] of the free tips' circle into the face, 0 < delta < L
  double angular_speed = 0;  ///< W [rad/s] for the centrifugal load; 0 leaves it out
};

/// Deepest penetrations, over the filament's length, up to which sweeps are found.
inline constexpr double deepest_on_face = 0.7;
inline constexpr double deepest_on_edge = 0.2;

/// Radius of the free tips' circle, r + L [mm].
[[nodiscard]] double tip_radius(const FilamentOnDrum& on) noexcept;

/// How far a straight filament's tip lies below the face (negative: above) at a hub angle [mm].
[[nodiscard]] double tip_depth(const FilamentOnDrum& on, double hub_angle) noexcept;

/// The filament as a rod that turns about the drum's axis; the axis stands over x = 0.
[[nodiscard]] Rod rod_of(const FilamentOnDrum& on) noexcept;

/// limpness() of the filament at its speed.
[[nodiscard]] double limpness(const FilamentOnDrum& on) noexcept;

/// Where the hub holds the filament at a hub angle (0: straight down, growing as the drum turns).
[[nodiscard]] Hold hold_of(const FilamentOnDrum& on, double hub_angle) noexcept;

/// One moment of a filament's way over the face.
struct SweepPoint {
  double hub_angle = 0;  ///< [rad]
  Touch touch;
};

/// A filament's whole way over the face, from first touch to where it comes off.
///
/// Quasi-static: a filament is at every moment where its forces balance, centrifugal load
/// included, its own swing left out. At the end the trailing filament runs out of balance and
/// springs free with the energy it holds.
struct Sweep {
  std::vector<SweepPoint> points;  ///< first: straight, without force; last: as it comes off
  double normal_impulse = 0;       ///< integral of normal force over hub angle [N rad]
  double drag_impulse = 0;         ///< integral of drag over hub angle [N rad]
  double rubbing = 0;              ///< integral of drag over the path of the tip [N mm]
  double normal_path = 0;          ///< integral of normal force over that path [N mm]
  double torque_work = 0;          ///< what the drum puts in over the sweep [N mm]
  double released = 0;             ///< energy of bending as it comes off [N mm]
  double peak_normal = 0;          ///< [N]
  double peak_flank = 0;           ///< longest part lying on its flank [mm]
};

/// @param steps  over the arc on which a free tip would lie below the face; impulses are good to
///               steps^-2 (trapezoids), 32 give some parts in a thousand.
/// @return  without points where the penetration is not above zero.
/// @throws  std::domain_error for filaments limper than `limpest`, penetrations beyond
///          `deepest_on_face`, or filaments that cannot be followed as they lie down (limp ones,
///          from 0.4 L on).
[[nodiscard]] Sweep sweep_face(const FilamentOnDrum& on, int steps = 32);

/// A filament's way over an edge at a given place, from where its flank meets the corner until its
/// tip has crossed: the drum turns onto the metal, which lies towards +x from the edge.
///
/// @param edge_x  place of the edge, seen from below the axis [mm].
/// @return  normal force is that across the filament; without points where filaments pass over the
///          edge without touching.
/// @throws  std::domain_error for filaments limper than `limpest`, penetrations beyond
///          `deepest_on_edge`.
[[nodiscard]] Sweep sweep_edge(const FilamentOnDrum& on, double edge_x, int steps = 24);

/// State of a sweep between its points, by where the tip stands on the face [mm]; linear.
[[nodiscard]] SweepPoint at_place(const Sweep& sweep, double x) noexcept;

}  // namespace drumlin::models
