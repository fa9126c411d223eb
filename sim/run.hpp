#pragma once

#include <functional>
#include <stop_token>
#include <string_view>

#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// Called now and then with the share of the work done [0..1] and what is being done.
using Progress = std::function<void(double share, std::string_view what)>;

/// Runs every station and pass over every feature, judges the answer and adds bands.
///
/// @throws NumericsError if a contact problem does not converge.
/// @throws Stopped if `stop` asks for it.
[[nodiscard]] Result run(const Setup& setup, const Progress& progress = {},
                         const std::stop_token& stop = {});

}  // namespace drumlin::sim
