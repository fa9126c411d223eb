#include <algorithm>
#include <memory>

#include <fmt/format.h>

#include "cases/study_parts.hpp"

namespace drumlin::cases {
namespace {

constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

/// Where the value of a scattered key goes among those of the family.
struct Seat {
  std::size_t at = 0;
  /// Of a key that the study varies too: the mean of its distribution, in whose place the row's
  /// value stands.
  std::optional<double> replaced{};
};

std::size_t factor_of(const std::string& key, const std::vector<FactorKey>& keys) {
  const auto found = std::find_if(keys.begin(), keys.end(),
                                  [&](const FactorKey& k) { return k.factor.key == key; });
  return found == keys.end() ? nowhere : static_cast<std::size_t>(found - keys.begin());
}

}  // namespace

std::optional<RowScatter> row_scatter(const OpenCase& base, const std::vector<FactorKey>& keys,
                                      const Section& top) {
  const auto& uncertainty = base.as_read().uncertainty;
  if (!uncertainty) {
    top.problem_at_value("scatter", "the case has no [uncertainty] to draw from");
    return std::nullopt;
  }
  RowScatter scatter;
  scatter.size = static_cast<std::uint64_t>(uncertainty->size);
  scatter.seed = static_cast<std::uint64_t>(uncertainty->seed);
  std::vector<VariedKey> varied;
  for (const FactorKey& key : keys)
    varied.push_back(key.varied);
  std::vector<Seat> seats;
  for (const ScatteredKey& key : uncertainty->keys) {
    FactorKey made = scattered_factor(key);
    const std::size_t at = factor_of(key.key, keys);
    if (at != nowhere && !key.around_own)
      top.problem_at_value(
          "scatter", fmt::format("{} is varied by the study, and its scatter in the case has a "
                                 "middle of its own; give the case a bare deviation, which goes "
                                 "around each row's value",
                                 in_quotes(key.key)));
    if (at == nowhere) {
      seats.push_back({varied.size(), std::nullopt});
      varied.push_back(made.varied);
    } else {
      seats.push_back({at, models::quantile(key.distribution, 0.5)});
    }
    scatter.factors.push_back(std::move(made.factor));
  }
  OpenCase own = base;
  try {
    set_model(own, uncertainty->model);
  } catch (const CaseError& wrong) {
    for (const Problem& problem : wrong.problems())
      top.problem_at_value("scatter", problem.text);
    return std::nullopt;
  }
  const auto family = std::make_shared<const CaseFamily>(std::move(own), std::move(varied));
  const std::size_t thickness = factor_of("part.thickness", keys);
  scatter.with = [family, seats, count = family->keys(), thickness,
                  own = base.as_read().part.thickness](std::span<const double> row,
                                                       std::span<const double> draw) {
    std::vector<double> values(row.begin(), row.end());
    values.resize(count);
    for (std::size_t i = 0; i < seats.size(); ++i)
      values[seats[i].at] =
          seats[i].replaced ? row[seats[i].at] + (draw[i] - *seats[i].replaced) : draw[i];
    Case drawn = family->with(values);
    // The line is set for the row's sheet; the draw is one that comes.
    if (!drawn.part.set_thickness)
      drawn.part.set_thickness = thickness == nowhere ? own : row[thickness];
    return drawn;
  };
  return scatter;
}

}  // namespace drumlin::cases
