#include <algorithm>
#include <string_view>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/report_parts.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

constexpr const char* standing =
    "A process estimate, not a safety assessment. Local law, fire and dust codes, the machine's "
    "manual and qualified people decide.";

/// Whether a value keeps its limit and its band does not.
bool sample_decides(const sim::VerdictItem& item) {
  if (!item.accepted.value_or(false) || !item.value) return false;
  return (item.high && item.value->high && *item.value->high > *item.high) ||
         (item.low && item.value->low && *item.value->low < *item.low);
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

/// The verdict and what decides it.
std::string sentence(const sim::Result& result) {
  const sim::Verdict& verdict = result.verdict;
  const char* sure = result.calibrated ? "calibrated" : "uncalibrated";
  std::string text = fmt::format("{} ({})", capital(verdict.state), sure);
  if (verdict.decided_by.empty()) return text + ": the case names no limit that could be judged.";
  text += fmt::format(": {} {}", spoken(verdict.decided_by),
                      verdict.state == "accepted" ? "comes nearest to its limit" : "decides");
  const sim::VerdictItem* item = verdict.deciding();
  if (item == nullptr) return text + ".";
  if (!item->value)
    return text + fmt::format(", and the model gives no value to hold against {}.", item->limit);
  text += fmt::format(", with {}", with_unit(item->value->value, item->unit));
  if (item->value->low && item->value->high)
    text += fmt::format(" (band {} to {})", number_text(*item->value->low),
                        number_text(*item->value->high));
  text += fmt::format(" against {}", item->limit);
  if (item->margin) text += fmt::format(", margin {}", with_unit(*item->margin, item->unit));
  text += '.';
  if (sample_decides(*item)) text += " Its band reaches past the limit: a sample decides.";
  return text;
}

std::string caution_box(std::string_view label, const std::vector<std::string>& cautions) {
  return fmt::format(
      "<div class=\"caution\" role=\"note\" aria-label=\"{0}\">\n<strong>{0}</strong>\n"
      "{1}</div>\n",
      label, list_html(cautions));
}

}  // namespace

std::string report_header(const sim::Result& result) {
  std::string html;
  if (!result.pressing_cautions.empty())
    html += caution_box("Caution, before anything else", result.pressing_cautions);
  html += fmt::format("<p class=\"quiet\">Report of a simulated pass</p>\n<h1>{}</h1>\n",
                      escaped(result.title));
  html += fmt::format("<p class=\"verdict {}\">{}</p>\n", kind_of_state(result.verdict.state),
                      escaped(sentence(result)));
  std::string part = "Part: " + result.part_material;
  if (result.coating)
    part += fmt::format(", {} {} on the face", *result.coating,
                        with_unit(result.coating_thickness * 1e3, "um"));
  html += fmt::format("<p>{}.</p>\n", escaped(part));
  html +=
      "<p class=\"quiet\">A process estimate, not a safety assessment; <a href=\"#cautions\">"
      "cautions</a> below.</p>\n";
  return html;
}

std::string report_limits(const sim::Result& result) {
  const sim::Verdict& verdict = result.verdict;
  if (verdict.items.empty())
    return section_html("limits", "Limits of the customer",
                        "<p>The case gives none, so nothing is accepted or refused here.</p>\n");
  Table table{"Every limit, edge by edge",
              {"edge and quantity", "state", "predicted", "limit", "margin"},
              {}};
  // What decides comes first, then what fails, then what is not known.
  std::vector<sim::VerdictItem> items = verdict.items;
  const auto rank = [&](const sim::VerdictItem& item) {
    if (item.name == verdict.decided_by) return 0;
    return !item.accepted ? 2 : *item.accepted ? 3 : 1;
  };
  std::stable_sort(items.begin(), items.end(),
                   [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
  for (const sim::VerdictItem& item : items) {
    const bool decides = item.name == verdict.decided_by;
    table.rows.push_back(
        {{spoken(item.name), decides ? "decides" : "", ""},
         {sim::state_of(item),
          sample_decides(item) ? "by its value; the band reaches past the limit" : "",
          kind_of_state(sim::state_of(item))},
         quantity_cell(item.value, as_is, item.unit),
         {item.limit, "", ""},
         item.margin ? Cell{with_unit(*item.margin, item.unit), "", ""}
                     : Cell{"not known", "", "absent"}});
  }
  return section_html("limits", "Limits of the customer", table_html(table));
}

std::string report_cautions(const sim::Result& result) {
  std::vector<std::string> cautions = result.cautions;
  if (std::none_of(cautions.begin(), cautions.end(), [](const std::string& caution) {
        return caution.find("not a safety assessment") != std::string::npos;
      }))
    cautions.insert(cautions.begin(), standing);
  return section_html("cautions", "Cautions", caution_box("For people's safety", cautions));
}

}  // namespace drumlin::viz
