#pragma once

#include <stop_token>
#include <vector>

#include "sim/setup.hpp"

namespace drumlin::sim {

/// How far the belts of a line have come after so many parts.
///
/// A belt grows dull with the work that it does. With x the share of its life and P'(x) the line
/// load that its station works with,
///
///     n(x) = lanes l_b V_L / (L passes) * integral_0^x dx' / h(x'),   h = mu P'(x) v / (v_f u),
///
/// h the depth that the fresh belt would take with that work, l_b the belt's length, L the part's,
/// V_L the metal per belt area that it stands. P' comes from the fast model at six ages, every belt
/// of the line at the same x; between them it goes straight. Work on edges and burrs is left out: a
/// few hundredths of the face's.
class BeltLives {
 public:
  /// @param fresh  every belt fresh.
  BeltLives(const Setup& fresh, const std::stop_token& stop);

  /// Whether the belt of a station wears at all: one that does not touch has no end.
  [[nodiscard]] bool wears(std::size_t station) const noexcept;
  /// Parts off the line until a belt has come to a share of its life.
  [[nodiscard]] double parts_at(std::size_t station, double life_share) const;
  /// Share of its life [-] after so many parts, at most 1.
  [[nodiscard]] double share_after(std::size_t station, double parts) const;
  /// Parts that an amount of work is; a share of life counts for that station's belt.
  [[nodiscard]] double parts_of(std::size_t station, const cases::Amount& amount) const;
  [[nodiscard]] double time_of(double parts) const noexcept;    ///< [s] of running
  [[nodiscard]] double length_of(double parts) const noexcept;  ///< [mm] of sheet past a belt

 private:
  struct Belt {
    std::vector<double> depth;      ///< h [mm] at the ages; empty at other tools
    double parts_per_integral = 0;  ///< [mm], parts over the integral of dx / h
  };
  [[nodiscard]] double integral(const Belt& belt, double life_share) const;

  std::vector<Belt> belts_;  ///< by station; empty at other tools
  double part_length_ = 0;
  double part_area_ = 0;
  double lanes_ = 1;
  double throughput_ = 0;
};

/// The line of fresh belts after so many parts.
[[nodiscard]] Setup worn_line(const Setup& fresh, const BeltLives& lives, double parts);

/// The line of fresh belts with each belt as old as the case states it.
[[nodiscard]] Setup with_belt_ages(const Setup& fresh, const BeltLives& lives);
/// @overload  for whoever has no use for the lives themselves.
[[nodiscard]] Setup with_belt_ages(const Setup& fresh, const std::stop_token& stop);

}  // namespace drumlin::sim
