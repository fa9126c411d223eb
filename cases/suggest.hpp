#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace drumlin::cases {

/// Number of single-letter slips (one letter wrong, missing, too many, or two swapped) that turn
/// one word into the other, upper and lower case alike.
///
/// Source: Damerau (1964), Commun. ACM 7, 171, with no letter changed twice (from memory).
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// The candidate with the fewest slips; none where even that one has more slips than half its
/// letters. The earlier candidate wins a tie.
[[nodiscard]] std::optional<std::string> nearest(std::string_view word,
                                                 std::span<const std::string> candidates);

/// "; nearest is "x" (known: x, y, z)", the first part only where there is a near one.
[[nodiscard]] std::string suggestion(std::string_view word,
                                     std::span<const std::string> candidates);

}  // namespace drumlin::cases
