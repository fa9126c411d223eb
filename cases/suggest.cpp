#include "cases/suggest.hpp"

#include <algorithm>
#include <cctype>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace drumlin::cases {
namespace {

/// Words longer than this are nobody's misspelling; it bounds the cost on hostile input.
constexpr std::size_t longest_word = 64;

char lower(char c) {
  return static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
}

bool same(char a, char b) {
  return lower(a) == lower(b);
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> current(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j)
    current[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(current);
    current[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t slip = same(a[i - 1], b[j - 1]) ? 0 : 1;
      current[j] = std::min({last[j] + 1, current[j - 1] + 1, last[j - 1] + slip});
      if (i > 1 && j > 1 && same(a[i - 1], b[j - 2]) && same(a[i - 2], b[j - 1]))
        current[j] = std::min(current[j], before_last[j - 2] + 1);
    }
  }
  return current[b.size()];
}

std::optional<std::string> nearest(std::string_view word, std::span<const std::string> candidates) {
  if (word.empty() || word.size() > longest_word) return std::nullopt;
  std::optional<std::string> best;
  std::size_t fewest = 0;
  for (const std::string& candidate : candidates) {
    const std::size_t slips = edit_distance(word, candidate);
    if (2 * slips > std::max(candidate.size(), std::size_t{2})) continue;
    if (!best || slips < fewest) {
      best = candidate;
      fewest = slips;
    }
  }
  return best;
}

std::string suggestion(std::string_view word, std::span<const std::string> candidates) {
  const auto near = nearest(word, candidates);
  const std::string first = near ? fmt::format("; nearest is \"{}\" ", *near) : std::string("; ");
  if (near) return fmt::format("{}(known: {})", first, fmt::join(candidates, ", "));
  return fmt::format("{}known: {}", first, fmt::join(candidates, ", "));
}

}  // namespace drumlin::cases
