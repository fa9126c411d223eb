#include "viz/compare_page.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/compare_drawings.hpp"
#include "viz/compare_table.hpp"
#include "viz/page.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

constexpr const char* style = R"(
.sides{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(22rem,100%),1fr));gap:0 1.5rem}
.sides figure{max-width:34rem}.sides figure svg{min-width:0}
.names{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(18rem,100%),1fr));gap:.6rem 1.5rem;
 margin:.8rem 0;padding:0;list-style:none}
.names li{border-left:.35rem solid var(--ink);padding-left:.7rem}
.story{border:2px solid var(--ink);padding:.6rem 1rem;margin:1rem 0;font-weight:bold}
.blanks{display:none}
@media print{.sides{grid-template-columns:1fr 1fr;gap:0 1rem}.sides figure{margin:.3rem 0}
 .sides .setup{display:none}.names{grid-template-columns:1fr 1fr}
 details::details-content{content-visibility:visible;display:block}}
)";

/// On the learner's printed sheet answers give way to lines to write on.
constexpr const char* learner_style = R"(
@media print{details.answer>*:not(summary){display:none}details.answer::details-content{display:none}
 .answers-only,.sides figcaption{display:none}
 .blanks{display:block;border-bottom:1px solid var(--ink);height:2.2em}}
)";

std::string paragraphs(const std::vector<std::string>& sentences) {
  std::string html;
  for (const std::string& sentence : sentences)
    html += fmt::format("<p>{}</p>\n", escaped(sentence));
  return html;
}

std::string answer(std::string_view question, std::string_view body) {
  return fmt::format(
      "<details class=\"answer\">\n<summary>{}</summary>\n{}</details>\n<div "
      "class=\"blanks\"></div>\n"
      "<div class=\"blanks\"></div>\n",
      escaped(question), body);
}

std::string header(const ComparedCases& cases) {
  std::string html = "<p class=\"quiet\">Comparison on equal scales</p>\n<h1>";
  const auto& compared = cases.comparison.cases;
  for (std::size_t i = 0; i < compared.size(); ++i)
    html += (i == 0 ? "" : i + 1 < compared.size() ? ", " : " and ") + compared[i].letter;
  html += ": what differs, and why</h1>\n<ul class=\"names\">\n";
  for (std::size_t i = 0; i < cases.results.size(); ++i) {
    const sim::CaseFacts& facts = cases.comparison.cases[i];
    html +=
        fmt::format("<li><strong>{}</strong> {}<small>{}{}; {}</small></li>\n", facts.letter,
                    escaped(facts.title), escaped(facts.state),
                    facts.decided_by.empty() ? "" : ", limited by " + escaped(facts.decided_by),
                    cases.results[i].calibrated ? "calibrated" : "uncalibrated: read the bands");
  }
  html += "</ul>\n";
  std::string held;
  for (const std::string& one : cases.comparison.held)
    held += (held.empty() ? "" : ", ") + one;
  return html +
         fmt::format("<p><strong>Held equal:</strong> {}.</p>\n",
                     held.empty() ? "nothing that a setting or a load states" : escaped(held));
}

std::string pressing(const ComparedCases& cases) {
  std::set<std::string> said;
  std::string html;
  for (const sim::Result& result : cases.results)
    for (const std::string& caution : result.pressing_cautions)
      if (said.insert(caution).second)
        html += fmt::format("<p class=\"caution\" role=\"note\">{}</p>\n", escaped(caution));
  return html;
}

std::string figures(const std::vector<Drawing>& drawings, double height) {
  constexpr double width = 760;
  std::string html = "<div class=\"sides\">\n";
  for (const Drawing& drawing : drawings)
    html += figure_html(drawing, width, height);
  return html + "</div>\n";
}

std::string pictures(const ComparedCases& cases) {
  const std::optional<SharedEdge> edge = shared_edge(cases.results);
  std::string html;
  std::vector<Drawing> curves;
  if (!edge) {
    html +=
        "<p>No pictures of sections: the cases share no edge by name, or a model without "
        "sections computed one of them.</p>\n";
  } else {
    html += fmt::format(
        "<p>Each case at the moment of the highest edge pressure over {}; close-up and edge: {}. "
        "Lengths, heights and pressures have one scale in all pictures of a row.</p>\n",
        escaped(edge->section), escaped(edge->edge));
    html += figures(contact_drawings(cases.results, cases.comparison, *edge), 720);
    html += figures(close_drawings(cases.results, cases.comparison, *edge), 720);
    html += "<h3>The edge afterwards</h3>\n" +
            figures(edge_drawings(cases.results, cases.comparison, *edge), 560);
    curves = coating_drawings(cases.results, cases.comparison, *edge);
  }
  for (Drawing& drawing : thickness_drawings(cases.results, cases.comparison))
    curves.push_back(std::move(drawing));
  return curves.empty() ? html : html + figures(curves, 620);
}

std::vector<std::string> heads(const ComparedCases& cases, const char* first) {
  std::vector<std::string> head{first};
  for (const sim::CaseFacts& facts : cases.comparison.cases)
    head.push_back(facts.short_name());
  return head;
}

std::string outcome(const ComparedCases& cases) {
  Table differs{"What differs in the outcome, with bands", heads(cases, "quantity"), {}};
  differs.head.emplace_back("how sure");
  Table same{"What is the same within half a per cent", heads(cases, "quantity"), {}};
  for (const ComparedQuantity& quantity : compared_quantities(cases.results)) {
    std::vector<Cell> row{{quantity.place + ": " + quantity.name, quantity.meaning, ""}};
    for (const sim::Quantity& value : quantity.values)
      row.push_back(quantity_cell(value, as_is, quantity.unit));
    if (quantity.differs)
      row.push_back({quantity.bands_overlap ? "bands overlap: a sample decides" : "", "", ""});
    (quantity.differs ? differs : same).rows.push_back(std::move(row));
  }
  std::string html;
  if (const auto lonely = features_of_some(cases.results); !lonely.empty())
    html += fmt::format("<p>Only in some of the cases, by name, and so not compared: {}.</p>\n",
                        escaped(fmt::format("{}", fmt::join(lonely, ", "))));
  if (differs.rows.empty())
    html += "<p>Nothing differs by more than half a per cent.</p>\n";
  else
    html += table_html(differs);
  if (!same.rows.empty()) html += fold_html("The same in all cases", table_html(same));
  return html;
}

std::string limits(const ComparedCases& cases) {
  Table table{"Limits of the cases", {"case", "limit on", "value", "limit", "margin", "state"}, {}};
  for (std::size_t i = 0; i < cases.results.size(); ++i)
    for (const sim::VerdictItem& item : cases.results[i].verdict.items) {
      table.rows.push_back({{cases.comparison.cases[i].letter, "", ""},
                            {item.name, "", ""},
                            quantity_cell(item.value, as_is, item.unit),
                            {item.limit, "", ""},
                            {item.margin ? with_unit(*item.margin, item.unit) : "", "", ""},
                            {sim::state_of(item), "", kind_of_state(sim::state_of(item))}});
    }
  return table.rows.empty() ? std::string("<p>No case states limits.</p>\n") : table_html(table);
}

std::string inputs(const ComparedCases& cases) {
  if (cases.inputs.empty()) return "<p>The case files state the same.</p>\n";
  Table table{"Keys in which the case files differ", heads(cases, "key"), {}};
  for (const InputDifference& difference : cases.inputs) {
    std::vector<Cell> row{{difference.key, "", ""}};
    for (const std::string& value : difference.values)
      row.push_back(value.empty() ? Cell{"left out", "", "absent"} : Cell{value, "", ""});
    table.rows.push_back(std::move(row));
  }
  return table_html(table);
}

std::string sureness(const ComparedCases& cases) {
  std::string html =
      "<p>Until a sample part has been measured, read every number with its band. A difference "
      "between two cases is surer than either number where both use the same belt, material and "
      "model, since what is not known of these is the same in both.</p>\n";
  for (std::size_t i = 0; i < cases.results.size(); ++i) {
    const sim::Result& result = cases.results[i];
    html +=
        fold_html(fmt::format("{}: model {}, warnings, what the model leaves out",
                              cases.comparison.cases[i].letter, result.model),
                  list_html(result.warnings) + list_html(result.notes) + list_html(result.samples));
  }
  return html;
}

std::string cautions(const ComparedCases& cases) {
  std::vector<std::string> all;
  for (const sim::Result& result : cases.results)
    for (const std::string& caution : result.cautions)
      if (std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(caution);
  return "<div class=\"caution\">\n" + list_html(all) + "</div>\n";
}

std::string footer(const ComparedCases& cases) {
  std::string html;
  for (std::size_t i = 0; i < cases.results.size(); ++i) {
    const sim::Provenance& provenance = cases.results[i].provenance;
    html += fmt::format("<p>{}: drumlin {}, model {}, case {} (SHA-256 {})</p>\n",
                        cases.comparison.cases[i].letter, escaped(provenance.version),
                        escaped(cases.results[i].model), escaped(provenance.case_file),
                        escaped(provenance.case_sha256));
  }
  return html;
}

}  // namespace

std::string compare_page(const ComparedCases& cases, bool answers) {
  const sim::Comparison& comparison = cases.comparison;
  std::string why = paragraphs(comparison.why);
  if (!comparison.usual_story.empty())
    why += fmt::format("<p class=\"story\">{}</p>\n", escaped(comparison.usual_story));
  Page page;
  page.title = "Comparison";
  for (const sim::CaseFacts& facts : comparison.cases)
    page.title += (facts.letter == "A" ? ": " : " / ") + facts.title;
  page.header = pressing(cases) + header(cases);
  page.body =
      section_html(
          "guess", "Guess first",
          "<p>Write down which case it is before you look.</p>\n"
          "<ol>\n<li>Which takes more off the face?</li>\n<li>In which does the burr carry more, "
          "beside what the face carries?</li>\n<li>Which minds 0.1 mm of sheet thickness "
          "more?</li>\n</ol>\n" +
              answer("What the numbers say, and why", why)) +
      section_html("pictures", "Side by side", pictures(cases)) +
      fmt::format("<div class=\"answers-only\">\n{}{}</div>\n",
                  section_html("outcome", "Outcome", outcome(cases)),
                  section_html("limits", "Against the limits", limits(cases))) +
      section_html("inputs", "What differs in the cases", inputs(cases)) +
      fmt::format("<div class=\"answers-only\">\n{}</div>\n",
                  section_html("sure", "How sure this is", sureness(cases))) +
      section_html("cautions", "Cautions", cautions(cases));
  page.footer = footer(cases);
  page.style = std::string(style) + (answers ? "" : learner_style);
  return page_html(page);
}

}  // namespace drumlin::viz
