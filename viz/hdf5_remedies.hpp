#pragma once

#include "sim/remedy_result.hpp"
#include "viz/hdf5_tree.hpp"

namespace drumlin::viz {

/// Tables of what would have to change and of what each knob moves, one dataset per column.
void write_remedies(const H5Group& group, const sim::RemedyStudy& study);

}  // namespace drumlin::viz
