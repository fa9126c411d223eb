#pragma once

#include "cases/case.hpp"
#include "sim/setup.hpp"

/// What every model takes of a part's two faces.
namespace drumlin::sim {

/// Which of the part's faces is meant.
enum class FaceSide { burrs, reverse };

/// Plain face far from every feature, as it wears.
struct PlainFace {
  double removed = 0;  ///< [mm]
  double coating = 0;  ///< left [mm]
  double top = 0;      ///< layer over the coating, left [mm]
};

/// A face before the first station.
[[nodiscard]] PlainFace unworn_face(const cases::Part& part, FaceSide side);

/// Whether a tool of the line meets the face without burrs.
[[nodiscard]] bool meets_reverse(const Setup& setup);

/// Tallest burr of the part [mm], 0 without any: it can meet the drum that much earlier.
[[nodiscard]] double tallest_burr(const cases::Part& part);

}  // namespace drumlin::sim
