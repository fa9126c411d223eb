#include "viz/study/study_page.hpp"

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/page.hpp"
#include "viz/study/analysis_words.hpp"
#include "viz/study/study_page_parts.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

constexpr const char* style = R"(
td.number{white-space:nowrap}
tbody th{min-width:8rem;overflow-wrap:break-word}
code{overflow-wrap:anywhere}
pre{font-size:.85rem}
)";

using Analysis = sim::StudyAnalysis;

const sim::StudyColumn& column(const Analysis& study, std::size_t index) {
  return study.header.columns[index];
}

std::string header(const Analysis& study) {
  const std::uint64_t failed = rows_that(study, "bad input") + rows_that(study, "not converged");
  return fmt::format(
      "<p class=\"quiet\">Study of {} rows, {} model</p>\n<h1>{}</h1>\n<p>{} rows are accepted{}, "
      "{} are not{}.</p>\n",
      study.header.rows, escaped(study.header.model),
      escaped(study.title.empty() ? "What the study says" : study.title), rows_that(study, "done"),
      study.limits.empty() ? " (the case sets no limits)" : "", rows_that(study, "not accepted"),
      failed > 0 ? fmt::format(", {} gave no numbers", failed) : std::string());
}

std::string varied(const Analysis& study) {
  Table table{"Keys of the case that were varied", {"key", "how", "meaning"}, {}};
  for (std::size_t k = 0; k < study.factors.size(); ++k) {
    const sim::StudyColumn& factor = column(study, study.factors[k]);
    table.rows.push_back(
        {{factor.name, "", ""}, {study.varied[k], "", ""}, {factor.meaning, "", ""}});
  }
  return paragraph("The rows are " + study.design_in_words + ".") + table_html(table);
}

std::string dictionary(const Analysis& study) {
  Table table{"Every column of study.h5", {"column", "unit", "role", "meaning"}, {}};
  for (const sim::StudyColumn& one : study.header.columns)
    table.rows.push_back(
        {{one.name, "", ""}, {one.unit, "", ""}, {one.role, "", ""}, {one.meaning, "", ""}});
  return paragraph(
             "NaN stands where the model gives no value. cases/studies/read_study.py reads "
             "the table with ordinary tools.") +
         fold_html(fmt::format("{} columns", study.header.columns.size()), table_html(table));
}

std::string provenance(const Analysis& study) {
  const sim::StudyHeader& h = study.header;
  return fmt::format(
      "<p>drumlin {}, {} model, {} rows, seed {}.<br>Study SHA-256 {}.<br>Case SHA-256 "
      "{}.</p>\n<p>A process "
      "estimate, not a safety assessment. Local law, fire and dust codes, the machine's manual and "
      "qualified people decide.</p>\n",
      escaped(h.version), escaped(h.model), h.rows, h.seed, escaped(h.identity),
      escaped(h.case_sha256));
}

}  // namespace

std::string study_page(const sim::StudyAnalysis& study) {
  Page page;
  page.title = study.title.empty() ? "Study" : study.title;
  page.style = style;
  page.header = header(study);
  page.body =
      section_html("varied", "What was varied", varied(study)) +
      section_html("rows", "What became of the rows", study_rows_html(study)) +
      section_html("outputs", "What the rows give", study_outputs_html(study)) +
      section_html("front", "What is given up for what", study_front_html(study)) +
      section_html("shares", "What matters most", study_shares_html(study)) +
      section_html("odd", "Odd rows", study_odd_rows_html(study)) +
      section_html("sure", "How sure this is", list_html(how_sure(study))) +
      section_html("methods", "For the methods section", paragraph(methods_paragraph(study))) +
      section_html("columns", "Data dictionary", dictionary(study)) +
      section_html("texts", "The study and its case as they were read",
                   fold_html("Study", "<pre class=\"wide\" tabindex=\"0\">" +
                                          escaped(study.header.study_text) + "</pre>\n") +
                       fold_html("Case", "<pre class=\"wide\" tabindex=\"0\">" +
                                             escaped(study.header.case_text) + "</pre>\n"));
  page.footer = provenance(study);
  return page_html(page);
}

}  // namespace drumlin::viz
