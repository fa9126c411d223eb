#pragma once

#include <optional>
#include <stop_token>

#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// How burr and face pressure of the first station answer to belt speed, for covers of 20, 40 and
/// 60 Shore A and everything else as in the case: the fast model, one pass, up to 0.9 of each
/// cover's critical speed.
///
/// @return  no value where there is nothing to show: no burr that a section shows, no motion
/// followed,
///          a cover given by its modulus.
/// @throws Stopped.
[[nodiscard]] std::optional<SpeedStudy> study_speed(const Setup& setup,
                                                    const std::stop_token& stop = {});

}  // namespace drumlin::sim
