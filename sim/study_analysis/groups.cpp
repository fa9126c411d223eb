#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "sim/statistics/percentile.hpp"
#include "sim/study_analysis/parts.hpp"

namespace drumlin::sim {
namespace {

/// A factor of no more values than this is looked at value by value.
constexpr std::size_t few_values = 6;
/// Words of which each makes a group; of more, the first ones.
constexpr std::size_t most_words = 24;
constexpr auto quarters = std::to_array<const char*>(
    {"lowest quarter", "second quarter", "third quarter", "highest quarter"});

/// Upper ends of the groups of a factor.
struct Groups {
  std::vector<double> ends;
  std::vector<FactorGroup> list;

  [[nodiscard]] std::size_t of(double value) const {
    const auto found = std::lower_bound(ends.begin(), ends.end(), value);
    return static_cast<std::size_t>(found - ends.begin());
  }
};

Groups groups_of(const std::vector<double>& values, const std::vector<std::string>& words,
                 const std::vector<bool>& counted) {
  std::vector<double> some;
  for (std::size_t i = 0; i < values.size(); ++i)
    if (counted[i] && std::isfinite(values[i])) some.push_back(values[i]);
  Groups groups;
  if (some.empty()) return groups;
  std::vector<double> apart = some;
  std::sort(apart.begin(), apart.end());
  apart.erase(std::unique(apart.begin(), apart.end()), apart.end());
  if (!words.empty() || apart.size() <= few_values) {
    for (const double value : apart) {
      if (groups.list.size() == most_words) break;
      groups.ends.push_back(value);
      FactorGroup group;
      if (words.empty()) group.low = group.high = value;
      group.name =
          words.empty() ? fmt::format("{:.6g}", value) : words[static_cast<std::size_t>(value)];
      groups.list.push_back(std::move(group));
    }
    return groups;
  }
  const auto ends = percentiles(some, std::array<double, 5>{0, 25, 50, 75, 100});
  for (std::size_t q = 0; q < quarters.size(); ++q) {
    groups.ends.push_back(ends[q + 1]);
    FactorGroup group;
    group.name = quarters[q];
    group.low = ends[q];
    group.high = ends[q + 1];
    groups.list.push_back(std::move(group));
  }
  return groups;
}

}  // namespace

std::vector<Corner> corners(const LookedAt& rows, const ReadColumns& columns,
                            const std::vector<bool>& counted, const std::vector<bool>& hit) {
  std::vector<Corner> result;
  for (std::size_t k = 0; k < columns.factors.size(); ++k) {
    Groups groups = groups_of(rows.factors[k], rows.words[k], counted);
    for (std::size_t i = 0; i < rows.rows.size(); ++i) {
      if (!counted[i]) continue;
      const std::size_t at = groups.of(rows.factors[k][i]);
      if (at >= groups.list.size()) continue;
      ++groups.list[at].rows;
      if (hit[i]) ++groups.list[at].hits;
    }
    Corner corner{.column = columns.factors[k], .groups = {}, .differs = false};
    double highest_low = 0;
    double lowest_high = 1;
    for (FactorGroup& group : groups.list) {
      if (group.rows == 0) continue;
      group.share = proportion(group.hits, group.rows);
      highest_low = std::max(highest_low, group.share.low);
      lowest_high = std::min(lowest_high, group.share.high);
      corner.groups.push_back(std::move(group));
    }
    corner.differs = highest_low > lowest_high;
    result.push_back(std::move(corner));
  }
  return result;
}

}  // namespace drumlin::sim
