#pragma once

#include "sim/life_result.hpp"
#include "viz/hdf5_tree.hpp"

namespace drumlin::viz {

/// Belt life: one dataset per quantity over the points "fresh", "half life", "end of life".
void write_life(const H5Group& group, const sim::LifeStudy& study);

}  // namespace drumlin::viz
