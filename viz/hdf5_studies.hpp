#pragma once

#include "sim/result.hpp"
#include "viz/hdf5_tree.hpp"

namespace drumlin::viz {

/// Writes what was asked beyond the case itself, each study into a group of its own: belt speed,
/// interference, cut or fold.
void write_studies(const H5Group& root, const sim::Result& result);

}  // namespace drumlin::viz
