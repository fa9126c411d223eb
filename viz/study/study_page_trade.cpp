#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/page.hpp"
#include "viz/study/analysis_words.hpp"
#include "viz/study/study_drawings.hpp"
#include "viz/study/study_page_parts.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

constexpr std::size_t front_rows_shown = 12;

using Analysis = sim::StudyAnalysis;

const sim::StudyColumn& column(const Analysis& study, std::size_t index) {
  return study.header.columns[index];
}

std::string front_table(const Analysis& study) {
  const auto& points = study.front.points;
  const std::size_t shown = std::min(points.size(), front_rows_shown);
  Table table{fmt::format("{} of {} rows of the front; all are in front.csv", shown, points.size()),
              {"row"},
              {}};
  for (const sim::AimedColumn& aim : study.aims)
    table.head.push_back(column_text(column(study, aim.column)));
  for (const std::size_t factor : study.factors)
    table.head.push_back(column(study, factor).name);
  for (std::size_t j = 0; j < shown; ++j) {
    const std::size_t i = shown > 1 ? j * (points.size() - 1) / (shown - 1) : 0;
    const bool knee = study.front.knee && study.front.knee->point == i;
    std::vector<Cell> row{{fmt::format("{}", points[i].row), knee ? "knee" : "", ""}};
    for (std::size_t k = 0; k < study.aims.size(); ++k)
      row.push_back({value_text(study, study.aims[k].column, points[i].aims[k]), "", "number"});
    for (std::size_t k = 0; k < points[i].factors.size(); ++k) {
      const double* number = std::get_if<double>(&points[i].factors[k]);
      row.push_back({number != nullptr ? value_text(study, study.factors[k], *number)
                                       : std::get<std::string>(points[i].factors[k]),
                     "", "number"});
    }
    table.rows.push_back(std::move(row));
  }
  return table_html(table);
}

}  // namespace

std::string study_front_html(const sim::StudyAnalysis& study) {
  if (study.aims.empty())
    return paragraph(
        "The study names no aims. Two to five entries of [[aim]] with column and direction give "
        "the "
        "rows that no other row beats.");
  Table aims{"Aims", {"column", "direction", "bounds"}, {}};
  for (const sim::AimedColumn& aim : study.aims) {
    std::string bounds;
    if (aim.at_least) bounds = "at least " + value_text(study, aim.column, *aim.at_least);
    if (aim.at_most)
      bounds += (bounds.empty() ? "at most " : ", at most ") +
                value_text(study, aim.column, *aim.at_most);
    aims.rows.push_back({{column(study, aim.column).name, column(study, aim.column).meaning, ""},
                         {aim.up ? "more is better" : "less is better", "", ""},
                         {bounds.empty() ? "none" : bounds, "", ""}});
  }
  std::string html = table_html(aims);
  html += list_html(front_sentences(study, study.front, "accepted rows"));
  for (const Drawing& drawing : front_drawings(study))
    html += figure_html(drawing);
  if (!study.front.points.empty()) html += front_table(study);
  html += fold_html("The same over all rows that have numbers, accepted or not",
                    list_html(front_sentences(study, study.front_of_all, "rows")));
  return html;
}

std::string study_shares_html(const sim::StudyAnalysis& study) {
  if (study.shares.empty()) return paragraph("No output varies.");
  std::string html = list_html(share_sentences(study)) + paragraph(study.about_shares);
  for (const Drawing& drawing : share_drawings(study))
    html += figure_html(drawing);
  Table table{"Shares of the variance, ± two errors, and rank correlations",
              {"output and factor", "alone", "alone and with others", "rank correlation"},
              {}};
  const auto estimate = [](const std::optional<sim::Estimate>& share) {
    return share ? Cell{fmt::format("{:.3f}", share->value),
                        fmt::format("± {:.3f}", 2 * share->error), "number"}
                 : Cell{"-", "", "absent"};
  };
  for (const sim::OutputShares& one : study.shares)
    for (std::size_t k = 0; k < one.factors.size(); ++k) {
      const sim::FactorShare& share = one.factors[k];
      table.rows.push_back(
          {{column(study, study.factors[k]).name, column_text(column(study, one.column)), ""},
           estimate(share.first),
           estimate(share.total),
           share.rank
               ? Cell{fmt::format("{:+.3f}", *share.rank),
                      fmt::format("{:+.3f} to {:+.3f}", share.rank_low, share.rank_high), "number"}
               : Cell{"-", "", "absent"}});
    }
  html += fold_html("All shares and rank correlations", table_html(table));
  for (const sim::OutputShares& one : study.shares)
    if (one.incomplete > 0)
      html += paragraph(fmt::format(
          "{}: {} points of the design are left out since one of their rows has no number; the "
          "shares are of the part of the space where rows run.",
          column_text(column(study, one.column)), one.incomplete));
  return html;
}

std::string study_odd_rows_html(const sim::StudyAnalysis& study) {
  if (study.odd_rows.empty())
    return paragraph("None could be told: too few rows, or nothing is left beside the surface.");
  return paragraph(fmt::format(
             "Rows farthest from a quadratic surface through {} rows (least squares). They may be "
             "a "
             "true edge of the process or the fast model's limit: rerun them at the finer model.",
             study.fitted_rows)) +
         list_html(odd_row_sentences(study)) +
         fmt::format(
             "<p><code>drumlin sweep {} --row {} --out case.toml</code>, then set "
             "<code>model = \"line\"</code> under <code>[numerics]</code> and "
             "<code>drumlin run case.toml</code>.</p>\n",
             escaped(std::filesystem::path(study.study_file).filename().string()),
             study.odd_rows.front().row);
}

}  // namespace drumlin::viz
