#include "sim/remedy/conflict.hpp"

#include <algorithm>
#include <map>
#include <string>

namespace drumlin::sim {
namespace {

/// A limit that loses less than this of its size does not pull against another.
constexpr double pulls = 0.01;

}  // namespace

std::optional<Conflict> conflict_of(const RemedyStudy& study) {
  const auto sought = std::find_if(study.limits.begin(), study.limits.end(), [](const auto& s) {
    return s.failed && s.name != all_limits && s.not_sought.empty();
  });
  if (sought == study.limits.end()) return std::nullopt;
  std::map<std::string, int> against;
  for (const Remedy& remedy : sought->remedies) {
    if (!study.knobs[static_cast<std::size_t>(remedy.changes.front().knob)].setting) continue;
    if (!remedy.failing.empty() && remedy.largest_loss > pulls) ++against[remedy.largest_loss_of];
  }
  const auto most =
      std::max_element(against.begin(), against.end(),
                       [](const auto& a, const auto& b) { return a.second < b.second; });
  if (most == against.end()) return std::nullopt;
  return Conflict{sought->name, most->first, most->second};
}

}  // namespace drumlin::sim
