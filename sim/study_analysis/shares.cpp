#include <algorithm>
#include <limits>

#include <fmt/format.h>

#include "sim/design/pick_freeze.hpp"
#include "sim/statistics/given_data.hpp"
#include "sim/statistics/rank_correlation.hpp"
#include "sim/study_analysis/parts.hpp"

namespace drumlin::sim {
namespace {

std::vector<double> chosen(const std::vector<double>& values,
                           const std::vector<std::size_t>& rows) {
  std::vector<double> some;
  some.reserve(rows.size());
  for (const std::size_t i : rows)
    some.push_back(values[i]);
  return some;
}

/// The table's numbers as points of the design; one pass for all columns.
std::vector<PickFreeze> points_of(const StudyTable& table, const std::vector<std::size_t>& columns,
                                  std::size_t factors) {
  const std::uint64_t per_point = PickFreezePoints::rows_per_point(factors);
  const std::uint64_t points = std::min(table.header->rows, most_numbers_shared) / per_point;
  const double gap = std::numeric_limits<double>::quiet_NaN();
  const std::vector<double> empty(points, gap);
  std::vector<PickFreeze> all(columns.size(), {empty, empty, {factors, empty}});
  table.each(columns, [&](std::uint64_t first, const std::vector<StudyValues>& values) {
    for (std::size_t c = 0; c < columns.size(); ++c) {
      const auto& numbers = std::get<std::vector<double>>(values[c]);
      for (std::size_t i = 0; i < numbers.size(); ++i) {
        const std::uint64_t point = (first + i) / per_point;
        if (point >= points) break;
        const std::uint64_t part = (first + i) % per_point;
        auto& list = part == 0 ? all[c].a : part == 1 ? all[c].b : all[c].ab[part - 2];
        list[point] = numbers[i];
      }
    }
  });
  return all;
}

void add_exact(const StudyTable& table, StudyAnalysis& analysis) {
  std::vector<std::size_t> columns;
  for (const OutputShares& shares : analysis.shares)
    columns.push_back(shares.column);
  const std::vector<PickFreeze> points = points_of(table, columns, analysis.factors.size());
  for (std::size_t c = 0; c < columns.size(); ++c) {
    OutputShares& shares = analysis.shares[c];
    const SobolIndices indices = sobol_indices(points[c], table.header->seed);
    shares.points = indices.points;
    shares.incomplete = points[c].a.size() - indices.points;
    for (std::size_t k = 0; k < indices.first.size(); ++k) {
      shares.factors[k].first = indices.first[k];
      shares.factors[k].total = indices.total[k];
    }
  }
}

std::string about(cases::DesignKind design, bool all_numbers) {
  std::string text;
  if (design == cases::DesignKind::pick_freeze)
    text =
        "First-order and total shares of the variance by the pick-freeze design (Saltelli et al. "
        "2010; Jansen 1999), errors by 200 bootstrap samples of its points; "
        "what stands after ± is two errors.";
  else
    text =
        "First-order shares are estimated from the rows as they are, by classes of each factor, "
        "errors by 100 bootstrap samples; what stands after ± is two errors. They take the factors "
        "as independent. Total shares need a design of kind \"pick-freeze\".";
  if (design == cases::DesignKind::list)
    text += " A list may pair factors: then a share of one stands for the others too.";
  if (!all_numbers) text += " A factor of words has no rank correlation.";
  return text;
}

}  // namespace

void add_shares(const StudyTable& table, const cases::StudyWishes& wishes, const LookedAt& rows,
                const ReadColumns& columns, const std::vector<std::size_t>& targets,
                StudyAnalysis& analysis) {
  const bool pick_freeze = wishes.design == cases::DesignKind::pick_freeze;
  for (const std::size_t target : targets) {
    OutputShares shares{
        .column = columns.outputs[target], .points = 0, .incomplete = 0, .factors = {}};
    const std::vector<std::size_t> some = rows_with(rows, target);
    const std::vector<double> output = chosen(rows.outputs[target], some);
    shares.points = some.size();
    for (std::size_t k = 0; k < columns.factors.size(); ++k) {
      const std::vector<double> factor = chosen(rows.factors[k], some);
      FactorShare share;
      if (rows.words[k].empty()) {
        if (const auto rank = rank_correlation(factor, output)) {
          share.rank = rank->value;
          share.rank_low = rank->low;
          share.rank_high = rank->high;
        }
      }
      if (!pick_freeze) share.first = given_data_share(factor, output, table.header->seed);
      shares.factors.push_back(share);
    }
    analysis.shares.push_back(std::move(shares));
  }
  if (pick_freeze) add_exact(table, analysis);
  const bool all_numbers = std::all_of(rows.words.begin(), rows.words.end(),
                                       [](const auto& words) { return words.empty(); });
  if (!targets.empty()) analysis.about_shares = about(wishes.design, all_numbers);
}

}  // namespace drumlin::sim
