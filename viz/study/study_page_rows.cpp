#include <algorithm>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/page.hpp"
#include "viz/study/analysis_words.hpp"
#include "viz/study/study_page_parts.hpp"

namespace drumlin::viz {
namespace {

constexpr std::size_t reasons_shown = 20;

using Analysis = sim::StudyAnalysis;

const sim::StudyColumn& column(const Analysis& study, std::size_t index) {
  return study.header.columns[index];
}

std::string corner_table(const Analysis& study, const std::vector<sim::Corner>& corners,
                         const std::string& caption) {
  Table table{caption, {"factor", "part of its range", "rows", "share with 95 % interval"}, {}};
  for (const sim::Corner& corner : corners)
    for (const sim::FactorGroup& group : corner.groups) {
      const std::string range = !group.low || *group.low == *group.high
                                    ? ""
                                    : fmt::format("{} to {}", number_text(*group.low),
                                                  value_text(study, corner.column, *group.high));
      table.rows.push_back(
          {{column(study, corner.column).name, "", ""},
           {group.name, range, ""},
           {fmt::format("{} of {}", group.hits, group.rows), "", "number"},
           {fmt::format("{:.3g} %", 100 * group.share.value),
            fmt::format("{:.3g} to {:.3g} %", 100 * group.share.low, 100 * group.share.high),
            "number"}});
    }
  return table_html(table);
}

/// "<= 0.03 mm" out of a margin's meaning.
std::string limit_text(const std::string& meaning) {
  const std::size_t from = meaning.find("limit (");
  if (from == std::string::npos) return "";
  const std::size_t to = meaning.find("); ", from);
  constexpr std::size_t before = 7;
  return meaning.substr(from + before, to - from - before);
}

std::string limits(const Analysis& study) {
  if (study.limits.empty()) return "";
  Table table{study.all_drawn
                  ? "Probability that a limit is met, among rows that have its number"
                  : "Share of the settings that meet a limit, among rows that have its number",
              {"limit", "met", "95 % interval", "rows"},
              {}};
  for (const sim::LimitMet& limit : study.limits) {
    const std::string& meaning = column(study, limit.column).meaning;
    table.rows.push_back(
        {{meaning.substr(0, meaning.find(": distance")), limit_text(meaning), ""},
         {fmt::format("{:.3g} %", 100 * limit.met.value), "", "number"},
         {fmt::format("{:.3g} to {:.3g} %", 100 * limit.met.low, 100 * limit.met.high), "",
          "number"},
         {fmt::format("{}", limit.rows), "", "number"}});
  }
  return table_html(table);
}

}  // namespace

std::string study_rows_html(const sim::StudyAnalysis& study) {
  Table counts{"What became of the rows", {"status", "rows"}, {}};
  for (const sim::CountedText& one : study.statuses)
    counts.rows.push_back({{one.text, "", ""}, {fmt::format("{}", one.rows), "", "number"}});
  Table reasons{"Reasons, most frequent first", {"reason", "rows"}, {}};
  for (const sim::CountedText& one : study.reasons)
    if (reasons.rows.size() < reasons_shown)
      reasons.rows.push_back({{one.text, "", ""}, {fmt::format("{}", one.rows), "", "number"}});
  std::string html = table_html(counts);
  if (!reasons.rows.empty()) html += table_html(reasons);
  if (study.reasons.size() > reasons_shown)
    html += paragraph(
        fmt::format("{} more reasons are in analysis.json.", study.reasons.size() - reasons_shown));
  const auto corner = [&](const std::vector<sim::Corner>& corners, const char* heading,
                          const char* what, const char* caption) {
    if (corners.empty()) return std::string();
    return fmt::format("<h3>{}</h3>\n", heading) +
           list_html(corner_sentences(study, corners, what)) +
           fold_html("By parts of every factor", corner_table(study, corners, caption));
  };
  html += corner(study.failed, "Are failures random, or a corner of the space?", "failed",
                 "Rows that failed");
  html += corner(study.not_accepted, "Where rows are not accepted", "were not accepted",
                 "Rows that were not accepted");
  return html;
}

std::string study_outputs_html(const sim::StudyAnalysis& study) {
  if (study.spreads.empty()) return paragraph("No row gave numbers.");
  Table table{"Percentiles over the rows that have numbers",
              {"output", "unit", "5 %", "25 %", "median", "75 %", "95 %"},
              {}};
  for (const sim::OutputSpread& spread : study.spreads) {
    std::vector<Cell> row{
        {column_text(column(study, spread.column)), column(study, spread.column).meaning, ""},
        {shown_unit(column(study, spread.column).unit), "", ""}};
    for (const double value : spread.percentiles)
      row.push_back({number_text(value), "", "number"});
    table.rows.push_back(std::move(row));
  }
  return table_html(table) + limits(study);
}

}  // namespace drumlin::viz
