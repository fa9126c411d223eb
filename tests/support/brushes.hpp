#pragma once

#include "models/brush/brush.hpp"

namespace drumlin::tests {

/// A web of non-woven on a hub, 50 mm deep.
inline constexpr models::NonWovenBrush web{.radius = 150,
                                           .depth = 50,
                                           .contact_modulus = 0.4,
                                           .friction = 0.5,
                                           .abrasion = {1e-6, 4.0, 1e-8, 1.0}};

}  // namespace drumlin::tests
