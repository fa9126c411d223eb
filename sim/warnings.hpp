#pragma once

#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// Says where a result is not to be trusted as it stands: speeds and depths past what the model
/// holds for, burrs that would fold, bands that reach past a limit, parts too small for a section,
/// coating worn beside edges. Reads values, bands and verdict; the fold check of a wall burr is the
/// only physics in it.
void warn(const Setup& setup, Result& result);

}  // namespace drumlin::sim
