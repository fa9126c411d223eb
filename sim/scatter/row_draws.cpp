#include "sim/scatter/row_draws.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "sim/design/sobol.hpp"
#include "sim/numerics/error.hpp"
#include "sim/statistics/percentile.hpp"
#include "sim/statistics/proportion.hpp"
#include "sim/sweep/row_answer.hpp"

namespace drumlin::sim {
namespace {

constexpr std::array<double, 3> percents{5, 50, 95};

/// A limit's name as part of a column's.
std::string in_column(std::string name) {
  std::replace(name.begin(), name.end(), ' ', '_');
  return name;
}

}  // namespace

/// What is counted over the draws of one row.
struct RowDraws::Tally {
  std::uint64_t all_met = 0;
  std::uint64_t failed = 0;
  std::vector<std::uint64_t> met;     // by limit; a limit that says nothing of a draw's part is met
  std::vector<std::uint64_t> judged;  // by limit, met or not
  std::vector<double> margins;        // of the limit that decides
  // Limits of which a draw knows nothing, draw by draw where no other one failed.
  std::vector<std::vector<std::size_t>> open;

  explicit Tally(std::size_t limits) : met(limits), judged(limits) {}
  void take(const Verdict& verdict, const std::vector<std::string>& limits);
  [[nodiscard]] bool is_judged(std::size_t limit) const { return judged[limit] > 0; }
  void conclude();
};

void RowDraws::Tally::take(const Verdict& verdict, const std::vector<std::string>& limits) {
  std::vector<std::size_t> unknown;
  for (std::size_t i = 0; i < limits.size(); ++i) {
    const auto item = std::find_if(verdict.items.begin(), verdict.items.end(),
                                   [&](const VerdictItem& one) { return one.name == limits[i]; });
    if (item == verdict.items.end() || item->accepted.value_or(false)) ++met[i];
    if (item == verdict.items.end()) continue;
    if (item->accepted)
      ++judged[i];
    else
      unknown.push_back(i);
  }
  const auto fails = [](const VerdictItem& item) { return !item.accepted.value_or(true); };
  if (std::none_of(verdict.items.begin(), verdict.items.end(), fails))
    open.push_back(std::move(unknown));
  const VerdictItem* deciding = verdict.deciding();
  const auto margin = deciding == nullptr ? std::nullopt : deciding->relative_margin();
  if (margin) margins.push_back(*margin);
}

/// A limit that is judged in other draws and not known in one is not met there; one that the model
/// never judges is left out.
void RowDraws::Tally::conclude() {
  for (const std::vector<std::size_t>& unknown : open)
    if (std::none_of(unknown.begin(), unknown.end(),
                     [this](std::size_t limit) { return is_judged(limit); }))
      ++all_met;
}

RowDraws::RowDraws(const cases::RowScatter& scatter) : scatter_(scatter) {
  const Sobol sobol(scatter.factors.size(), scatter.seed);
  for (std::uint64_t point = 0; point < scatter.size; ++point) {
    std::vector<double>& draw = draws_.emplace_back();
    for (std::size_t i = 0; i < scatter.factors.size(); ++i)
      draw.push_back(models::quantile(*scatter.factors[i].distribution, sobol.at(point, i)));
  }
}

void RowDraws::learn(const Verdict& verdict) {
  for (const VerdictItem& item : verdict.items)
    if (std::find(limits_.begin(), limits_.end(), item.name) == limits_.end())
      limits_.push_back(item.name);
}

std::vector<StudyColumn> RowDraws::columns() const {
  std::vector<StudyColumn> list{
      {"probability_all_met", "1",
       "share of draws in which every limit that the model judges is met"},
      {"probability_all_met_low", "1", "lower end of its interval of 95 %"},
      {"probability_all_met_high", "1", "upper end of its interval of 95 %"},
      {"scatter.failed_draws", "1", "draws that could not be computed; they count as not met"}};
  for (const double percent : percents)
    list.push_back({fmt::format("verdict.margin_p{:.0f}", percent), "1",
                    fmt::format("percentile {:.0f} over the draws of verdict.margin", percent)});
  for (const std::string& limit : limits_)
    list.push_back({fmt::format("limit.{}.probability", in_column(limit)), "1",
                    fmt::format("share of draws in which {} is met", limit)});
  return list;
}

std::vector<std::optional<double>> RowDraws::values(std::span<const double> row, fast::Drums& drums,
                                                    const std::stop_token& stop) const {
  Tally tally(limits_.size());
  for (const std::vector<double>& draw : draws_) {
    try {
      tally.take(row_answer(set_up(scatter_.with(row, draw)), drums, stop).verdict, limits_);
    } catch (const cases::CaseError&) {
      ++tally.failed;
    } catch (const NumericsError&) {
      ++tally.failed;
    }
  }
  const auto of = static_cast<double>(draws_.size());
  std::vector<std::optional<double>> values(7 + limits_.size());
  tally.conclude();
  const auto judged = [](std::uint64_t count) { return count > 0; };
  if (std::any_of(tally.judged.begin(), tally.judged.end(), judged)) {
    const Proportion all = proportion(tally.all_met, draws_.size());
    values[0] = all.value;
    values[1] = all.low;
    values[2] = all.high;
  }
  values[3] = static_cast<double>(tally.failed);
  if (!tally.margins.empty()) {
    const auto at = percentiles(tally.margins, percents);
    std::copy(at.begin(), at.end(), values.begin() + 4);
  }
  for (std::size_t i = 0; i < limits_.size(); ++i)
    if (tally.is_judged(i)) values[7 + i] = static_cast<double>(tally.met[i]) / of;
  return values;
}

}  // namespace drumlin::sim
