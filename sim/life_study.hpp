#pragma once

#include <optional>
#include <stop_token>

#include "sim/bands.hpp"
#include "sim/life_result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// What the line makes with fresh, half-used and worn-out belts, how long each belt lasts, and when
/// the first limit is lost. The end is that of the belt that is done first.
///
/// Parts until a limit is lost are searched for between fresh and done, so one that is lost and
/// found again in between is passed over.
///
/// @param fresh  every belt fresh, whatever age the case states.
/// @param rerun  states the line at every age.
/// @return  none without a belt that wears.
[[nodiscard]] std::optional<LifeStudy> study_life(const Setup& fresh, const Rerun& rerun,
                                                  const std::stop_token& stop);

}  // namespace drumlin::sim
