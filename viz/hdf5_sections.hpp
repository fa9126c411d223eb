#pragma once

#include "sim/result.hpp"
#include "viz/hdf5_tree.hpp"

namespace drumlin::viz {

/// Writes one section into its group: profiles before and after, edges, history and frames.
void write_section(const sim::SectionRecord& section, const H5Group& group);

}  // namespace drumlin::viz
