#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/material.hpp"

/// What a case says of the money that its line takes, and of how parts lie on its conveyor.
namespace drumlin::cases {

/// How the conveyor holds the parts.
struct Grip {
  Sourced friction_dry;  ///< f [-] of part on conveyor; low = high where the case gives it
  Sourced friction_wet;  ///< [-]
  double suction = 0;    ///< p_s [MPa] below the air's, over the whole part

  [[nodiscard]] bool operator==(const Grip&) const = default;
};

/// A tool that is used up.
struct ToolPrice {
  double price = 0;            ///< money, or money per area where `per_area`
  bool per_area = false;       ///< price is per mm^2 of belt
  std::optional<double> life;  ///< parts until it is changed; absent: not given

  [[nodiscard]] bool operator==(const ToolPrice&) const = default;
};

/// Parts that have to be worked again.
struct Rework {
  double price = 0;             ///< money per part worked again
  std::optional<double> share;  ///< of the parts [-]

  [[nodiscard]] bool operator==(const Rework&) const = default;
};

/// Prices, in one currency; what is absent was not given. Rates per second, energy in mJ.
struct Cost {
  std::string currency;             ///< ISO 4217 code, such as "EUR"; never empty
  std::optional<double> line_rate;  ///< money per s
  std::optional<double> labour;     ///< money per s, on top of the line's rate
  std::optional<double> power;      ///< money per mJ
  std::optional<double> fluid;      ///< money per s, while the line runs wet
  /// One for each belt station in order; empty: no price given.
  std::vector<ToolPrice> belts;
  /// One for each brush station in order, or a single one for all brushes of the line together;
  /// empty: no price given.
  std::vector<ToolPrice> brushes;
  std::optional<Rework> rework;

  [[nodiscard]] bool operator==(const Cost&) const = default;
};

}  // namespace drumlin::cases
