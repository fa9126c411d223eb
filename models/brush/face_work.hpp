#pragma once

#include "models/brush/brush.hpp"

namespace drumlin::models {

/// What a pass of a brush takes off a flat face.
struct FaceWork {
  double coating = 0;  ///< of the layer on it [mm]
  double base = 0;     ///< of the metal below [mm]
};

/// Depth lost in one pass: each layer in proportion to the normal work per area it is rubbed with,
///
///     h = K rub / v_f,   rub / v_f = P' v / v_f for a brush that rubs at speed v,
///
/// the coating first, and what is left of the rubbing goes into the metal.
///
/// @param feed         v_f [mm/s], > 0.
/// @param coating      on the face [mm], >= 0.
/// @param coating_removal, base_removal  K of either [1/MPa], >= 0.
[[nodiscard]] FaceWork face_work(const BrushContact& contact, double feed, double coating,
                                 double coating_removal, double base_removal) noexcept;

}  // namespace drumlin::models
