#pragma once

#include "cases/study.hpp"

namespace drumlin::cases {

/// The study of a case's scatter: its [uncertainty] as factors, drawn from a Sobol sequence, run
/// with the section's own model.
///
/// @param scenario  as the reader made it: its text is read again.
/// @throws CaseError where the case under the section's model is none.
/// @throws std::invalid_argument for a case in which nothing scatters.
[[nodiscard]] Study scatter_of(const Case& scenario);

}  // namespace drumlin::cases
