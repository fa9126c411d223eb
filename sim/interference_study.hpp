#pragma once

#include <optional>
#include <stop_token>

#include "cases/case.hpp"
#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// The part as it is: how sheet thickness, bow, cover wear, another belt and warmth move the
/// interference, what that does to the face, and how much of it the customer's limits leave room
/// for. With the fast model, in some tens of milliseconds; nothing is drawn at random.
///
/// Each cause goes alone from its one end to its other, as given by the case or, where the case is
/// silent, by an amount that is usual in shops. Where the drum is set by interference a warm cover
/// is softer as well as higher. Where it is set by line load, the drum stays where it was set:
/// every cause, warmth with its growth only, then shifts the interference away from what was found.
///
/// Run-out and splices are none of these causes: their ripple on the part is shorter than the nip
/// and averages out.
///
/// @param accept  limits; those on what the fast model does not give are passed over.
/// @return        no value for a line without a belt.
/// @throws NumericsError, Stopped.
[[nodiscard]] std::optional<InterferenceStudy> study_interference(const Setup& setup,
                                                                  const cases::Accept& accept,
                                                                  const std::stop_token& stop = {});

}  // namespace drumlin::sim
