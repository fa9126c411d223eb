#pragma once

#include "cases/case.hpp"

/// How many parts a line takes.
namespace drumlin::sim {

/// Width of conveyor that a part takes when turned by an angle from how its edges are named [mm].
[[nodiscard]] double across(const cases::Part& part, double angle) noexcept;

/// Length of conveyor that it takes [mm].
[[nodiscard]] double along(const cases::Part& part, double angle) noexcept;

/// Longest line across the conveyor that lies on the part so turned [mm]: what a drum has under it
/// at most.
[[nodiscard]] double widest_chord(const cases::Part& part, double angle) noexcept;

/// Lanes of parts turned by an angle [rad] that go into the width that the case's lanes take with
/// parts as they lie, gaps between them; at least 1.
[[nodiscard]] int lanes_at(const cases::Part& part, const cases::Conveyor& conveyor,
                           double angle) noexcept;

/// Parts that leave the line [1/s]: lanes v_f / ((length + gap) passes). A part that goes through
/// more than once takes the conveyor as often.
[[nodiscard]] double throughput(const cases::Part& part, const cases::Conveyor& conveyor,
                                double angle) noexcept;

}  // namespace drumlin::sim
