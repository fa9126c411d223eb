#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <stdexcept>

#include <fmt/format.h>

#include "sim/design/draws.hpp"
#include "sim/design/pick_freeze.hpp"
#include "sim/study_analysis/parts.hpp"
#include "sim/study_analysis/reason_kind.hpp"

namespace drumlin::sim {
namespace {

constexpr std::size_t most_outputs = 16;
/// Reasons told apart; the rest are counted together.
constexpr std::size_t most_reasons = 1000;
constexpr auto all_statuses =
    std::to_array<RowStatus>({RowStatus::done, RowStatus::not_accepted, RowStatus::not_known,
                              RowStatus::left_out, RowStatus::bad_input, RowStatus::not_converged});
/// What a shop asks for first: ends of the names of outputs, in that order.
constexpr auto main_endings = std::to_array<std::string_view>(
    {"verdict.margin", "face.removal_um", "face.coating_left_um", "face.roughness_um", "_per_part",
     "line.throughput_per_h", ".burr_height_um", ".secondary_burr_um", ".edge_radius_um",
     ".edge_drop_um", "].working_line_load_N_per_mm"});

std::size_t named(const StudyHeader& header, std::string_view name) {
  for (std::size_t i = 0; i < header.columns.size(); ++i)
    if (header.columns[i].name == name) return i;
  throw std::runtime_error(fmt::format("the study has no column {}", name));
}

bool is_margin(const StudyColumn& column) {
  return column.name.starts_with("limit.");
}

const std::vector<std::string>& words_in(const StudyValues& values) {
  return std::get<std::vector<std::string>>(values);
}

/// The rows' counts by status and reason.
class Counts {
 public:
  void add(RowStatus status, const std::string& reason) {
    ++statuses_[static_cast<std::size_t>(status)];
    if (reason.empty()) return;
    const std::string why = fmt::format("{}: {}", to_text(status), reason_kind(reason));
    ++reasons_[reasons_.size() < most_reasons || reasons_.contains(why) ? why : "others"];
  }

  void put_into(StudyAnalysis& analysis) const {
    for (const RowStatus status : all_statuses)
      if (const auto rows = statuses_[static_cast<std::size_t>(status)]; rows > 0)
        analysis.statuses.push_back({std::string(to_text(status)), rows});
    for (const auto& [why, rows] : reasons_)
      analysis.reasons.push_back({why, rows});
    std::stable_sort(analysis.reasons.begin(), analysis.reasons.end(),
                     [](const auto& a, const auto& b) { return a.rows > b.rows; });
  }

 private:
  std::array<std::uint64_t, all_statuses.size()> statuses_{};
  std::map<std::string, std::uint64_t> reasons_;
};

/// Numbers every word as it comes; sorted in the end.
struct Words {
  std::map<std::string, double> numbers;

  double of(const std::string& word) {
    return numbers.try_emplace(word, static_cast<double>(numbers.size())).first->second;
  }
};

/// Words in order, and their numbers changed accordingly.
std::vector<std::string> sort_words(const Words& words, std::vector<double>& numbers) {
  std::vector<std::string> sorted;
  std::vector<double> place(words.numbers.size());
  for (const auto& [word, number] : words.numbers) {
    place[static_cast<std::size_t>(number)] = static_cast<double>(sorted.size());
    sorted.push_back(word);
  }
  for (double& number : numbers)
    number = place[static_cast<std::size_t>(number)];
  return sorted;
}

}  // namespace

bool has_numbers(RowStatus status) noexcept {
  return status == RowStatus::done || status == RowStatus::not_accepted ||
         status == RowStatus::not_known;
}

bool has_failed(RowStatus status) noexcept {
  return status == RowStatus::bad_input || status == RowStatus::not_converged;
}

RowStatus status_of(const std::string& text) {
  for (const RowStatus status : all_statuses)
    if (to_text(status) == text) return status;
  throw std::runtime_error(fmt::format("the study has a row of unknown status: {}", text));
}

ReadColumns columns_of(const StudyHeader& header, const std::vector<AimedColumn>& aims) {
  ReadColumns columns{.status = named(header, "status"),
                      .reason = named(header, "reason"),
                      .factors = {},
                      .outputs = {},
                      .limits = {}};
  for (const AimedColumn& aim : aims)
    columns.outputs.push_back(aim.column);
  for (std::size_t i = 0; i < header.columns.size(); ++i) {
    if (header.columns[i].role == "factor") columns.factors.push_back(i);
    if (is_margin(header.columns[i])) columns.limits.push_back(i);
  }
  for (const std::string_view ending : main_endings)
    for (std::size_t i = 0; i < header.columns.size(); ++i) {
      const StudyColumn& column = header.columns[i];
      const bool known =
          std::find(columns.outputs.begin(), columns.outputs.end(), i) != columns.outputs.end();
      if (!known && column.role == "output" && column.kind == StudyColumn::Kind::number &&
          !is_margin(column) && column.name.ends_with(ending) &&
          columns.outputs.size() < most_outputs)
        columns.outputs.push_back(i);
    }
  return columns;
}

Choice::Choice(std::uint64_t rows, std::size_t columns, std::size_t factors, bool pick_freeze)
    : per_point_(pick_freeze ? PickFreezePoints::rows_per_point(factors) : 1) {
  const std::uint64_t counting = pick_freeze ? rows / per_point_ * 2 : rows;
  const std::uint64_t most =
      std::min(most_rows_looked_at, most_numbers_kept / std::max<std::uint64_t>(columns, 1));
  stride_ = std::max<std::uint64_t>(1, (counting + most - 1) / most);
}

bool Choice::takes(std::uint64_t row) const noexcept {
  if (per_point_ > 1) {
    if (row % per_point_ > 1) return false;
    row = row / per_point_ * 2 + row % per_point_;
  }
  const std::uint64_t stretch = row / stride_;
  return row % stride_ == mixed(stretch) % stride_;
}

LookedAt look(const StudyTable& table, const ReadColumns& columns, bool pick_freeze,
              StudyAnalysis& analysis) {
  const StudyHeader& header = *table.header;
  std::vector<std::size_t> all{columns.status, columns.reason};
  for (const auto* list : {&columns.factors, &columns.outputs, &columns.limits})
    all.insert(all.end(), list->begin(), list->end());
  const std::size_t outputs_from = 2 + columns.factors.size();
  const std::size_t limits_from = outputs_from + columns.outputs.size();
  const Choice choice(header.rows, all.size(), columns.factors.size(), pick_freeze);
  LookedAt looked;
  looked.factors.resize(columns.factors.size());
  looked.words.resize(columns.factors.size());
  looked.outputs.resize(columns.outputs.size());
  looked.limits.resize(columns.limits.size());
  std::vector<Words> words(columns.factors.size());
  Counts counts;
  Fronts fronts(analysis.aims);
  std::vector<double> aims(analysis.aims.size());
  const auto number = [](const StudyValues& values, std::size_t i) {
    return std::get<std::vector<double>>(values)[i];
  };
  const auto aims_of = [&](const std::vector<StudyValues>& values, std::size_t from,
                           std::size_t i) {
    for (std::size_t k = 0; k < aims.size(); ++k)
      aims[k] = number(values[from + k], i);
  };
  table.each(all, [&](std::uint64_t first, const std::vector<StudyValues>& values) {
    for (std::size_t i = 0; i < words_in(values[0]).size(); ++i) {
      const RowStatus status = status_of(words_in(values[0])[i]);
      counts.add(status, words_in(values[1])[i]);
      aims_of(values, outputs_from, i);
      fronts.offer(first + i, status, aims);
      if (!choice.takes(first + i)) continue;
      looked.rows.push_back(first + i);
      looked.statuses.push_back(status);
      for (std::size_t k = 0; k < columns.factors.size(); ++k) {
        const StudyValues& factor = values[2 + k];
        looked.factors[k].push_back(std::holds_alternative<std::vector<double>>(factor)
                                        ? number(factor, i)
                                        : words[k].of(words_in(factor)[i]));
      }
      for (std::size_t k = 0; k < columns.outputs.size(); ++k)
        looked.outputs[k].push_back(number(values[outputs_from + k], i));
      for (std::size_t k = 0; k < columns.limits.size(); ++k)
        looked.limits[k].push_back(number(values[limits_from + k], i));
    }
  });
  for (std::size_t k = 0; k < words.size(); ++k)
    if (!words[k].numbers.empty()) looked.words[k] = sort_words(words[k], looked.factors[k]);
  if (fronts.thinned()) {
    std::vector<std::size_t> few{columns.status};
    few.insert(few.end(), columns.outputs.begin(),
               columns.outputs.begin() + static_cast<std::ptrdiff_t>(aims.size()));
    table.each(few, [&](std::uint64_t, const std::vector<StudyValues>& values) {
      for (std::size_t i = 0; i < words_in(values[0]).size(); ++i) {
        aims_of(values, 1, i);
        fronts.strike(status_of(words_in(values[0])[i]), aims);
      }
    });
  }
  counts.put_into(analysis);
  fronts.put_into(analysis);
  analysis.looked_at = looked.rows.size();
  return looked;
}

std::vector<std::size_t> rows_with(const LookedAt& rows, std::size_t output) {
  std::vector<std::size_t> with;
  for (std::size_t i = 0; i < rows.rows.size(); ++i)
    if (has_numbers(rows.statuses[i]) && std::isfinite(rows.outputs[output][i])) with.push_back(i);
  if (with.size() <= most_rows_fitted) return with;
  std::vector<std::size_t> fewer;
  fewer.reserve(most_rows_fitted);
  for (std::size_t k = 0; k < most_rows_fitted; ++k)
    fewer.push_back(with[k * with.size() / most_rows_fitted]);
  return fewer;
}

}  // namespace drumlin::sim
