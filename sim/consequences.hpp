#pragma once

#include "sim/answer.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// Adds to what a model says of its stations all that follows from the contact without acting back
/// on it within the pass. Every model's `state` calls it last, before the part is taken from the
/// last station; so bands and studies see it too.
void add_consequences(const Setup& setup, StatedAnswer& answer);

}  // namespace drumlin::sim
