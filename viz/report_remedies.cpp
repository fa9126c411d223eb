#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/drawings.hpp"
#include "viz/page.hpp"
#include "viz/report_parts.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

const sim::RemedyKnob& knob_of(const sim::RemedyStudy& study, int index) {
  return study.knobs[static_cast<std::size_t>(index)];
}

std::string changes_text(const sim::RemedyStudy& study, const sim::Remedy& remedy) {
  std::string text;
  for (const sim::Turned& turned : remedy.changes) {
    const sim::RemedyKnob& knob = knob_of(study, turned.knob);
    text += fmt::format("{}{}: {} to {}", text.empty() ? "" : "; ", knob.name, knob.now_text,
                        turned.text);
  }
  return text;
}

bool same_changes(const std::vector<sim::Remedy>& a, const std::vector<sim::Remedy>& b) {
  return !a.empty() &&
         std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& x, const auto& y) {
           return x.changes.front().knob == y.changes.front().knob &&
                  x.changes.front().text == y.changes.front().text;
         });
}

std::string others_text(const sim::Remedy& remedy) {
  if (remedy.failing.empty()) return "all met";
  std::string text;
  constexpr std::size_t most = 2;
  for (std::size_t i = 0; i < std::min(most, remedy.failing.size()); ++i)
    text += (i > 0 ? ", " : "") + spoken(remedy.failing[i]);
  if (remedy.failing.size() > most)
    text += fmt::format(" and {} more", remedy.failing.size() - most);
  return text + " not met";
}

std::string effects_text(const sim::Remedy& remedy) {
  constexpr double told = 0.005;  // of the value: what moves less is not worth a line
  std::string text;
  for (const sim::SideEffect& effect : remedy.effects) {
    if (std::abs(effect.after - effect.before) <= told * std::abs(effect.before)) continue;
    text += fmt::format("{}{} {} to {}", text.empty() ? "" : "; ", effect.name,
                        number_text(effect.before), with_unit(effect.after, effect.unit));
  }
  return text;
}

/// @param limit  name of the one that the remedy is for.
Cell line_cell(const sim::RemedyStudy& study, const sim::Remedy& remedy, const std::string& limit) {
  if (!remedy.line) return {"not asked", "", "absent"};
  if (remedy.line->confirmed) return {"met too", "", "good"};
  const std::string& misses = limit == "all limits" ? remedy.line->decided_by : limit;
  std::string note = spoken(misses);
  const auto sought = std::find_if(study.limits.begin(), study.limits.end(),
                                   [&](const auto& s) { return s.name == misses; });
  if (sought != study.limits.end() && remedy.line->margin && *remedy.line->margin < 0)
    note += " short by " + with_unit(-*remedy.line->margin, sought->unit);
  return {"not confirmed", note, "bad"};
}

std::string remedies_table(const sim::RemedyStudy& study, std::string caption,
                           const std::vector<sim::Remedy>& remedies, const std::string& limit,
                           bool line) {
  Table table{
      std::move(caption), {"change", "other limits", "largest loss of margin", "side effects"}, {}};
  if (line) table.head.emplace_back("line model");
  for (const sim::Remedy& remedy : remedies) {
    const bool upstream = !knob_of(study, remedy.changes.front().knob).setting;
    std::vector<Cell> row{
        {changes_text(study, remedy), upstream ? "not a setting of this line" : "", ""},
        {others_text(remedy), "", remedy.failing.empty() ? "good" : "bad"},
        remedy.largest_loss_of.empty()
            ? Cell{"none", "", ""}
            : Cell{fmt::format("{:.0f} % of its limit", 100 * remedy.largest_loss),
                   spoken(remedy.largest_loss_of), ""},
        {remedy.effects.empty() ? "not looked up" : effects_text(remedy), "",
         remedy.effects.empty() ? "absent" : ""}};
    if (line) row.push_back(line_cell(study, remedy, limit));
    table.rows.push_back(std::move(row));
  }
  return table_html(table);
}

/// Where looking along a knob ended without finding.
std::string not_found_table(const sim::RemedyStudy& study, const sim::SoughtLimit& sought) {
  Table table{"Looked along without finding", {"knob", "up to", "margin there"}, {}};
  for (const sim::Looked& looked : sought.looked) {
    if (looked.found) continue;
    table.rows.push_back({{knob_of(study, looked.knob).name, looked.way > 0 ? "up" : "down", ""},
                          {looked.text, looked.ended_by, ""},
                          looked.margin ? Cell{with_unit(*looked.margin, sought.unit), "", ""}
                                        : Cell{"not given", "", "absent"}});
  }
  return table.rows.empty() ? "" : table_html(table);
}

std::string failed_html(const sim::RemedyStudy& study, const sim::SoughtLimit& sought, bool line) {
  const std::string title =
      "To meet " + spoken(sought.name) + (sought.name == "all limits" ? "" : ' ' + sought.limit);
  if (!sought.not_sought.empty())
    return fmt::format("<p>{}: {}.</p>\n", escaped(title), escaped(sought.not_sought));
  std::string html;
  if (sought.remedies.empty())
    html += fmt::format("<p>{}: no knob does it alone within the ranges looked at.</p>\n",
                        escaped(title));
  else
    html += remedies_table(study, title + ", one knob alone", sought.remedies, sought.name, line);
  const std::string ended = not_found_table(study, sought);
  return ended.empty() ? html : html + fold_html("Where looking ended without finding", ended);
}

std::string narrow_table(const sim::RemedyStudy& study) {
  Table table{"Met narrowly: where each knob loses it", {"limit", "knob", "lost beyond"}, {}};
  for (const sim::SoughtLimit& sought : study.limits) {
    if (sought.failed) continue;
    for (const sim::Looked& looked : sought.looked)
      if (looked.found)
        table.rows.push_back({{spoken(sought.name), sought.limit, ""},
                              {knob_of(study, looked.knob).name, "", ""},
                              {looked.text, looked.way > 0 ? "upwards" : "downwards", ""}});
  }
  return table.rows.empty() ? "" : table_html(table);
}

std::string pairs_html(const sim::RemedyStudy& study, bool line) {
  std::string html;
  if (!study.pairs.empty())
    html += remedies_table(study, "To meet all limits, two knobs", study.pairs, "all limits", line);
  else if (study.nearest)
    html += fmt::format(
        "<p>No one knob meets all limits, and no two of those tried do. Nearest: {}; there {} "
        "misses "
        "its limit by {:.0f} % of it.</p>\n",
        escaped(changes_text(study, *study.nearest)), escaped(spoken(study.nearest_limit)),
        -100 * study.nearest_margin);
  if (study.conflict)
    html += fmt::format(
        "<p>{} and {} pull opposite ways: {} of the knobs that meet the first work against the "
        "second.</p>\n",
        escaped(spoken(study.conflict->one)), escaped(spoken(study.conflict->other)),
        study.conflict->knobs);
  return html;
}

/// Knobs down, quantities across: elasticity where there is one, else the change by the step.
std::string sensitivities_table(const sim::RemedyStudy& study) {
  std::vector<std::string> quantities;
  for (const sim::Sensitivity& moved : study.sensitivities)
    if (std::find(quantities.begin(), quantities.end(), moved.quantity) == quantities.end())
      quantities.push_back(moved.quantity);
  std::vector<std::pair<int, std::string>> steps;
  for (const sim::Sensitivity& moved : study.sensitivities)
    if (std::find(steps.begin(), steps.end(), std::pair(moved.knob, moved.step)) == steps.end())
      steps.emplace_back(moved.knob, moved.step);
  Table table{"What each knob moves, per small step (fast model)", {"quantity"}, {}};
  for (const auto& [knob, step] : steps)
    table.head.push_back(fmt::format("{} {}", knob_of(study, knob).name, step));
  for (const std::string& quantity : quantities) {
    std::vector<Cell> row{{spoken(quantity), "", ""}};
    for (const auto& [knob, step] : steps) {
      const auto found =
          std::find_if(study.sensitivities.begin(), study.sensitivities.end(), [&](const auto& s) {
            return s.knob == knob && s.step == step && s.quantity == quantity;
          });
      if (found == study.sensitivities.end()) {
        row.push_back({"not given", "", "absent"});
        continue;
      }
      std::string note;
      if (found->elasticity) note = fmt::format("elasticity {:.2f}", *found->elasticity);
      if (!found->smooth) note += std::string(note.empty() ? "" : ", ") + "not smooth here";
      const bool none = std::abs(found->change) < 1e-9;
      row.push_back({none ? "no change"
                          : fmt::format("{}{}", found->change > 0 ? "+" : "",
                                        with_unit(found->change, found->unit)),
                     none ? "" : note, ""});
    }
    table.rows.push_back(std::move(row));
  }
  return table.rows.empty() ? "" : table_html(table);
}

}  // namespace

std::string report_remedies(const sim::Result& result) {
  if (!result.remedies) return "";
  const sim::RemedyStudy& study = *result.remedies;
  const bool line = result.model != "fast";
  std::string body;
  if (!study.forced.empty()) body += fmt::format("<p>{}.</p>\n", escaped(study.forced));
  for (const Drawing& drawing : remedies_drawings(result))
    body += figure_html(drawing);
  // One failed limit that nothing else bars has the same remedies as all limits at once.
  for (const sim::SoughtLimit& sought : study.limits)
    if (sought.failed && (&sought == &study.limits.front() ||
                          !same_changes(sought.remedies, study.limits.front().remedies)))
      body += failed_html(study, sought, line);
  body += pairs_html(study, line);
  body += narrow_table(study);
  const bool sought_any = !study.limits.empty();
  if (sought_any)
    body += fmt::format(
        "<p>By this model, uncalibrated: run these as samples. Changes are sought in the {} model, "
        "{} "
        "evaluations{}. Order: {}.</p>\n",
        study.model, study.evaluations, study.cut_short ? ", where the search was cut short" : "",
        escaped(study.rule));
  body += fold_html("What each knob moves", sensitivities_table(study), !sought_any);
  return section_html("remedies", "What would have to change", body);
}

}  // namespace drumlin::viz
