#pragma once

#include "sim/result.hpp"
#include "viz/hdf5_tree.hpp"

namespace drumlin::viz {

/// Groups /line and /wet_dry, as far as the result has them.
void write_line(const H5Group& root, const sim::Result& result);

}  // namespace drumlin::viz
