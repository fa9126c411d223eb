#pragma once

#include <stop_token>

#include "cases/knobs.hpp"
#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// What would have to change for the limits of a case to be met, alone and with least side effect,
/// and what each setting moves: sought in the fast model, each trial a case that the reader
/// accepts.
///
/// For each limit that fails, and for all at once, each knob is turned alone to the nearest value
/// that meets it; for each limit met narrowly, to where it is lost. If no knob meets all limits
/// alone, two are tried. The number of trials is bounded and counted, so the answer is the same on
/// every machine.
///
/// @param open    the case of the result, as read.
/// @param result  of its run; its verdict is what is to be met.
/// @throws Stopped
[[nodiscard]] RemedyStudy seek_remedies(const cases::OpenCase& open, const Result& result,
                                        const std::stop_token& stop = {});

/// Adds the study to a result made from a file: the case is opened again from its text, and left
/// alone where it is not what the text says. Puts the first remedy among the samples to run.
void explain(const cases::Case& scenario, Result& result, const std::stop_token& stop = {});

}  // namespace drumlin::sim
