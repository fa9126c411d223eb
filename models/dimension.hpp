#pragma once

namespace drumlin::models {

/// What a quantity is measured in, as exponents of the base units mm, t, s, K (and of the pure
/// labels money, Shore A and parts, which convert to nothing else).
///
/// Inside drumlin one unit set is used: mm, N, MPa, s, K. Hence mass is in t (= N s^2/mm) and
/// power in mW (= N mm/s).
struct Dimension {
  int length = 0;
  int mass = 0;
  int time = 0;
  int temperature = 0;
  int angle = 0;
  int money = 0;
  int shore_a = 0;
  int parts = 0;

  friend constexpr bool operator==(const Dimension&, const Dimension&) = default;
};

namespace dimension {
inline constexpr Dimension number{};
inline constexpr Dimension length{.length = 1};
inline constexpr Dimension area{.length = 2};
inline constexpr Dimension time{.time = 1};
inline constexpr Dimension speed{.length = 1, .time = -1};
inline constexpr Dimension angle{.angle = 1};
inline constexpr Dimension temperature{.temperature = 1};
inline constexpr Dimension per_temperature{.temperature = -1};
inline constexpr Dimension money{.money = 1};
inline constexpr Dimension hardness{.shore_a = 1};
inline constexpr Dimension parts{.parts = 1};
inline constexpr Dimension force{.length = 1, .mass = 1, .time = -2};
inline constexpr Dimension pressure{.length = -1, .mass = 1, .time = -2};
inline constexpr Dimension per_pressure{.length = 1, .mass = -1, .time = 2};
inline constexpr Dimension line_load{.mass = 1, .time = -2};
inline constexpr Dimension bending_stiffness{.length = 2, .mass = 1, .time = -2};
inline constexpr Dimension compliance{.length = 2, .mass = -1, .time = 2};
inline constexpr Dimension density{.length = -3, .mass = 1};
inline constexpr Dimension area_density{.length = -2, .mass = 1};
inline constexpr Dimension specific_energy = pressure;
inline constexpr Dimension conductivity{.length = 1, .mass = 1, .time = -3, .temperature = -1};
inline constexpr Dimension specific_heat{.length = 2, .time = -2, .temperature = -1};
}  // namespace dimension

}  // namespace drumlin::models
