#pragma once

#include <optional>

#include "cases/case.hpp"
#include "sim/result.hpp"

namespace drumlin::sim {

/// Judges a part against what the case accepts.
///
/// A limit of `[accept]` holds for the quantity wherever the part has it: `coating_left`,
/// `top_left`, `face_removal`, `roughness` for the plain face, the rest for every edge
/// (`burr_height` for every edge that carried a burr, `protrusion` for every stub).
/// `[[accept.feature]]` limits hold for the edges they name. Where a tool meets the other face too,
/// the same limits hold there, and the items' names begin with "reverse". A limit on something that
/// the model does not give is "not known", and a part with one is not accepted.
///
/// Margin: distance to the nearer limit, positive inside. Deciding item: the one with the smallest
/// margin relative to its limit; "not accepted" comes before "not known".
/// A limit on `belt_life`, which is the line's and not the part's, is passed over.
[[nodiscard]] Verdict judge(const cases::Accept& accept, const PartState& part);

/// The same with a limit on `belt_life`, which holds for every belt of the line.
///
/// @param life  none where it was not looked for: the limit is then "not known".
[[nodiscard]] Verdict judge(const cases::Accept& accept, const PartState& part,
                            const std::optional<LifeStudy>& life);

}  // namespace drumlin::sim
