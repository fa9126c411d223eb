#pragma once

#include <cmath>
#include <numbers>
#include <span>

/// Ishigami and Homma (1990) with a = 7, b = 0.1, over three factors uniform in (-pi, pi): shares
/// are known exactly, S = (0.3139, 0.4424, 0), T = (0.5576, 0.4424, 0.2437) (Saltelli et al. 2008,
/// Global Sensitivity Analysis, section 4.6, from memory; they follow from
/// V1 = (1 + b pi^4/5)^2/2, V2 = a^2/8, V13 = 8 b^2 pi^8/225, V = V1 + V2 + V13).
namespace drumlin::support {

inline constexpr double ishigami_first[] = {0.3139, 0.4424, 0.0};
inline constexpr double ishigami_total[] = {0.5576, 0.4424, 0.2437};

/// @param u  three numbers in (0, 1).
inline double ishigami(std::span<const double> u) {
  const auto angle = [](double x) { return std::numbers::pi * (2 * x - 1); };
  const double sine = std::sin(angle(u[1]));
  return std::sin(angle(u[0])) + 7 * sine * sine +
         0.1 * std::pow(angle(u[2]), 4) * std::sin(angle(u[0]));
}

}  // namespace drumlin::support
