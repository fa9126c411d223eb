#pragma once

#include "cases/material.hpp"

namespace drumlin::cases {

/// Fills what a material's file does not say of heat with what is usual in its family; a family
/// without usual values ("oxide", "polymer", one's own) is left as it is.
void add_thermal_defaults(Material& material);

}  // namespace drumlin::cases
