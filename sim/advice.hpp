#pragma once

#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// Fills in what words there are to a result: warnings, what the model leaves out, which samples to
/// run, cautions.
void advise(const Setup& setup, Result& result);

}  // namespace drumlin::sim
