#pragma once

#include "sim/scatter_result.hpp"
#include "viz/hdf5_tree.hpp"

namespace drumlin::viz {

/// Group "uncertainty" of results.h5: every draw of every output, and what follows from them.
void write_scatter(const H5Group& group, const sim::ScatterStudy& scatter);

}  // namespace drumlin::viz
