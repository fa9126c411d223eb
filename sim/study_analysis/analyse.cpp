#include "sim/study_analysis/analyse.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include <fmt/format.h>

#include "sim/statistics/percentile.hpp"
#include "sim/study_analysis/parts.hpp"

namespace drumlin::sim {
namespace {

constexpr std::size_t most_targets = 6;
constexpr std::size_t cloud_rows = 800;

const char* name_of(cases::DesignKind kind) {
  switch (kind) {
    case cases::DesignKind::grid:
      return "grid";
    case cases::DesignKind::latin_hypercube:
      return "latin-hypercube";
    case cases::DesignKind::sobol:
      return "sobol";
    case cases::DesignKind::list:
      return "list";
    case cases::DesignKind::pick_freeze:
      return "pick-freeze";
  }
  return "";
}

std::string in_words(const cases::StudyWishes& wishes, const StudyHeader& header,
                     std::size_t factors) {
  const std::string seed = fmt::format(", seed {}", header.seed);
  const std::string shift = wishes.scramble ? " with a digital shift" + seed : " as published";
  switch (wishes.design) {
    case cases::DesignKind::grid:
      return wishes.all_drawn ? "rows drawn from the factors' distributions" + seed
                              : "a grid of all combinations of the factors' values" + seed;
    case cases::DesignKind::latin_hypercube:
      return "a Latin hypercube (McKay, Beckman and Conover 1979)" + seed;
    case cases::DesignKind::sobol:
      return "points of a Sobol sequence (direction numbers of Joe and Kuo 2008)" + shift;
    case cases::DesignKind::list:
      return "a list of rows" + seed;
    case cases::DesignKind::pick_freeze:
      return fmt::format(
          "a pick-freeze design (Saltelli et al. 2010) of {} points of {} rows each, from one "
          "Sobol sequence (direction numbers of Joe and Kuo 2008){}",
          header.rows / (factors + 2), factors + 2, shift);
  }
  return "";
}

std::vector<AimedColumn> aimed(const StudyHeader& header, const cases::StudyWishes& wishes) {
  std::vector<AimedColumn> aims;
  const auto bound = [](const std::optional<cases::Aim::Bound>& given) {
    return given ? std::optional(given->value) : std::nullopt;
  };
  for (const cases::Aim& aim : wishes.aims) {
    const auto found =
        std::find_if(header.columns.begin(), header.columns.end(),
                     [&](const StudyColumn& column) { return column.name == aim.column; });
    if (found == header.columns.end())
      throw std::runtime_error(fmt::format("the study has no column {}", aim.column));
    aims.push_back({.column = static_cast<std::size_t>(found - header.columns.begin()),
                    .up = aim.up,
                    .at_least = bound(aim.at_least),
                    .at_most = bound(aim.at_most)});
  }
  return aims;
}

void add_spreads(const LookedAt& rows, const ReadColumns& columns, StudyAnalysis& analysis) {
  for (std::size_t k = 0; k < columns.outputs.size(); ++k) {
    std::vector<double> values;
    for (std::size_t i = 0; i < rows.rows.size(); ++i)
      if (has_numbers(rows.statuses[i]) && std::isfinite(rows.outputs[k][i]))
        values.push_back(rows.outputs[k][i]);
    if (values.empty()) continue;
    OutputSpread spread{.column = columns.outputs[k], .rows = values.size(), .percentiles = {}};
    const auto found = percentiles(values, spread_percents);
    std::copy(found.begin(), found.end(), spread.percentiles.begin());
    analysis.spreads.push_back(spread);
  }
}

void add_limits(const LookedAt& rows, const ReadColumns& columns, StudyAnalysis& analysis) {
  for (std::size_t k = 0; k < columns.limits.size(); ++k) {
    std::uint64_t known = 0;
    std::uint64_t met = 0;
    for (const double margin : rows.limits[k]) {
      if (!std::isfinite(margin)) continue;
      ++known;
      if (margin >= 0) ++met;
    }
    if (known > 0) analysis.limits.push_back({columns.limits[k], known, proportion(met, known)});
  }
}

void add_corners(const LookedAt& rows, const ReadColumns& columns, StudyAnalysis& analysis) {
  const std::size_t n = rows.rows.size();
  std::vector<bool> tried(n);
  std::vector<bool> failed(n);
  std::vector<bool> judged(n);
  std::vector<bool> refused(n);
  for (std::size_t i = 0; i < n; ++i) {
    failed[i] = has_failed(rows.statuses[i]);
    judged[i] = has_numbers(rows.statuses[i]);
    tried[i] = failed[i] || judged[i];
    refused[i] = rows.statuses[i] == RowStatus::not_accepted;
  }
  const auto any = [](const std::vector<bool>& flags) {
    return std::find(flags.begin(), flags.end(), true) != flags.end();
  };
  if (any(failed)) analysis.failed = corners(rows, columns, tried, failed);
  if (any(refused)) analysis.not_accepted = corners(rows, columns, judged, refused);
}

void add_cloud(const LookedAt& rows, StudyAnalysis& analysis) {
  if (analysis.aims.empty()) return;
  std::vector<std::size_t> drawn;
  for (std::size_t i = 0; i < rows.rows.size(); ++i) {
    bool whole = has_numbers(rows.statuses[i]);
    for (std::size_t k = 0; k < analysis.aims.size(); ++k)
      whole = whole && std::isfinite(rows.outputs[k][i]);
    if (whole) drawn.push_back(i);
  }
  const std::size_t shown = std::min(drawn.size(), cloud_rows);
  for (std::size_t j = 0; j < shown; ++j) {
    const std::size_t i = drawn[j * drawn.size() / shown];
    CloudPoint point{.aims = {}, .accepted = rows.statuses[i] == RowStatus::done};
    for (std::size_t k = 0; k < analysis.aims.size(); ++k)
      point.aims.push_back(rows.outputs[k][i]);
    analysis.cloud.push_back(std::move(point));
  }
}

/// What the factors are at the points of both fronts: one pass over their columns.
void add_settings(const StudyTable& table, StudyAnalysis& analysis) {
  std::map<std::uint64_t, std::vector<FactorValue>> settings;
  const auto fronts = {&analysis.front, &analysis.front_of_all};
  for (const Front* front : fronts)
    for (const FrontPoint& point : front->points)
      settings[point.row];
  if (settings.empty()) return;
  table.each(analysis.factors, [&](std::uint64_t first, const std::vector<StudyValues>& values) {
    if (values.empty()) return;
    const std::uint64_t rows = std::visit([](const auto& list) { return list.size(); }, values[0]);
    for (auto at = settings.lower_bound(first); at != settings.end() && at->first < first + rows;
         ++at)
      for (const StudyValues& list : values)
        std::visit([&](const auto& all) { at->second.emplace_back(all[at->first - first]); }, list);
  });
  for (Front* front : {&analysis.front, &analysis.front_of_all})
    for (FrontPoint& point : front->points)
      point.factors = settings[point.row];
}

/// Outputs whose shares are asked for: the aims that are no factors, or else the main ones that
/// vary.
std::vector<std::size_t> targets_of(const StudyHeader& header, const ReadColumns& columns,
                                    const StudyAnalysis& analysis) {
  std::vector<std::size_t> targets;
  const std::size_t candidates =
      analysis.aims.empty() ? columns.outputs.size() : analysis.aims.size();
  for (std::size_t k = 0; k < candidates && targets.size() < most_targets; ++k) {
    if (header.columns[columns.outputs[k]].role == "factor") continue;
    const auto spread =
        std::find_if(analysis.spreads.begin(), analysis.spreads.end(),
                     [&](const OutputSpread& s) { return s.column == columns.outputs[k]; });
    if (spread != analysis.spreads.end() &&
        spread->percentiles.front() < spread->percentiles.back())
      targets.push_back(k);
  }
  return targets;
}

}  // namespace

std::vector<std::size_t> columns_to_aim_at(const StudyHeader& header) {
  std::vector<std::size_t> columns;
  for (std::size_t i = 0; i < header.columns.size(); ++i)
    if (header.columns[i].kind == StudyColumn::Kind::number && header.columns[i].role != "status")
      columns.push_back(i);
  return columns;
}

StudyAnalysis analyse(const StudyTable& table, const cases::StudyWishes& wishes) {
  StudyAnalysis analysis;
  analysis.header = *table.header;
  analysis.title = wishes.title;
  analysis.study_file = wishes.file;
  analysis.design = name_of(wishes.design);
  analysis.replicates = wishes.replicates;
  analysis.all_drawn = wishes.all_drawn;
  analysis.aims = aimed(*table.header, wishes);
  const ReadColumns columns = columns_of(*table.header, analysis.aims);
  analysis.factors = columns.factors;
  analysis.design_in_words = in_words(wishes, *table.header, columns.factors.size());
  const std::size_t listed = columns.factors.size() - wishes.varied.size();
  for (std::size_t k = 0; k < columns.factors.size(); ++k)
    analysis.varied.push_back(k < listed ? "as the list has it" : wishes.varied[k - listed]);
  const bool pick_freeze = wishes.design == cases::DesignKind::pick_freeze;
  const LookedAt rows = look(table, columns, pick_freeze, analysis);
  add_settings(table, analysis);
  add_corners(rows, columns, analysis);
  add_spreads(rows, columns, analysis);
  add_limits(rows, columns, analysis);
  add_cloud(rows, analysis);
  const std::vector<std::size_t> targets = targets_of(*table.header, columns, analysis);
  add_shares(table, wishes, rows, columns, targets, analysis);
  add_odd_rows(rows, columns, targets, analysis);
  return analysis;
}

}  // namespace drumlin::sim
