#pragma once

#include <array>
#include <cstddef>

#include "viz/canvas.hpp"

namespace drumlin::viz {

/// Colour and dash of one curve among several: each alone tells the curves apart.
struct Pen {
  Colour colour;
  double dash;  ///< [pixel], as in Stroke
};

inline constexpr auto pens = std::to_array<Pen>({{palette::burr, 0},
                                                 {palette::face, 26},
                                                 {palette::coating, 9},
                                                 {palette::belt, 0},
                                                 {palette::quiet, 14},
                                                 {palette::ink, 30}});

/// Pen of the i-th curve; after the last one they come again.
[[nodiscard]] constexpr const Pen& pen(std::size_t i) {
  return pens[i % pens.size()];
}

}  // namespace drumlin::viz
