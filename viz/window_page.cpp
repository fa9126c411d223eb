#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/page.hpp"
#include "viz/svg_canvas.hpp"
#include "viz/window_drawing.hpp"
#include "viz/window_parts.hpp"

namespace drumlin::viz {
namespace {

/// A value of an axis to a thousandth of its range or so.
std::string on_axis(const sim::WindowAxis& axis, double value) {
  const double step = std::abs(axis.to - axis.from) / 300;
  const int decimals =
      step > 0 ? std::clamp(static_cast<int>(std::ceil(-std::log10(step))), 0, 9) : 0;
  const std::string unit = shown_unit(axis.unit);
  return fmt::format("{:.{}f}{}{}", value, decimals, unit.empty() ? "" : " ", unit);
}

std::string percent(double share) {
  return share > 0 && share < 0.005 ? "< 1 %" : fmt::format("{:.0f} %", 100 * share);
}

/// Border towards one side of a place.
Cell border_cell(const sim::Window& window, std::size_t axis, const sim::BorderDistance& distance,
                 double from, int sign) {
  const sim::WindowAxis& of = window.axes[axis];
  if (!distance.share) return {"none on the map", "", "absent"};
  const double at = of.at(from + sign * *distance.share);
  return {on_axis(of, at), spoken(window.kind_name(distance.beyond)), ""};
}

std::string robust_html(const sim::Window& window) {
  if (!window.robust) return "";
  const sim::RobustBox& box = *window.robust;
  Table table{"The widest box that is accepted all over",
              {"setting", "middle", "box", "border below, and what lies beyond",
               "border above, and what lies beyond", "held by"},
              {}};
  for (std::size_t k = 0; k < 2; ++k) {
    const sim::WindowAxis& axis = window.axes[k];
    std::vector<std::string> held;
    for (std::size_t side = 0; side < 2; ++side)
      if (const auto by = box.held_by[k][side])
        held.push_back(
            fmt::format("{}: {}", side == 0 ? "below" : "above", spoken(window.kind_name(*by))));
    table.rows.push_back(
        {{axis.name, "", ""},
         {on_axis(axis, axis.at(box.middle[k])),
          "\u00b1 " + on_axis(axis, box.reach * (axis.to - axis.from)), ""},
         {on_axis(axis, axis.at(box.middle[k] - box.reach)) + " to " +
              on_axis(axis, axis.at(box.middle[k] + box.reach)),
          "", ""},
         border_cell(window, k, box.distances[k][0], box.middle[k], -1),
         border_cell(window, k, box.distances[k][1], box.middle[k], 1),
         {held.empty() ? "the other setting" : fmt::format("{}", fmt::join(held, "; ")), "", ""}});
  }
  std::string html = table_html(table);
  if (box.least_margin)
    html +=
        fmt::format("<p>In its middle the smallest margin is {:.0f} % of its limit: {}.</p>\n",
                    100 * *box.least_margin, escaped(spoken(window.kind_name(box.least_limit))));
  return html;
}

std::string own_html(const sim::Window& window) {
  const sim::OwnPoint& own = window.own;
  if (!own.distances) return "";
  Table table{
      fmt::format("The case itself: {}",
                  own.kind > 0 ? "not accepted, " + spoken(window.kind_name(own.kind)) + " fails"
                               : window.kind_name(own.kind)),
      {"setting", "value", "border below, and what lies beyond",
       "border above, and what lies beyond"},
      {}};
  for (std::size_t k = 0; k < 2; ++k) {
    const sim::WindowAxis& axis = window.axes[k];
    table.rows.push_back({{axis.name, "", ""},
                          {on_axis(axis, *own.values[k]), "", ""},
                          border_cell(window, k, (*own.distances)[k][0], (*own.place)[k], -1),
                          border_cell(window, k, (*own.distances)[k][1], (*own.place)[k], 1)});
  }
  return table_html(table);
}

std::string limits_html(const sim::Window& window) {
  Table table{"", {"limit", "asked for", "fails first in", "border"}, {}};
  for (const sim::WindowLimit& limit : window.limits)
    table.rows.push_back({{spoken(limit.name), "", ""},
                          {limit.limit, "", ""},
                          {percent(limit.share) + " of the map", "", ""},
                          {limit.share <= 0 ? "never first"
                           : limit.leaps    ? "leaps: known to a finest cell"
                                            : "between evaluated points",
                           "", limit.share <= 0 ? "absent" : ""}});
  std::string html = table_html(table);
  html += fmt::format("<p>Accepted: {} of the map.", percent(window.accepted_share));
  if (window.not_known_share > 0)
    html += fmt::format(" Not known: {}.", percent(window.not_known_share));
  if (window.not_computed_share > 0)
    html += fmt::format(" Cannot be computed: {}.", percent(window.not_computed_share));
  return html + "</p>\n";
}

std::string probability_html(const sim::Window& window) {
  if (!window.probability) return "";
  const sim::WindowProbability& of = *window.probability;
  Table scatter{"What scatters", {"key", "distribution"}, {}};
  for (const sim::WindowScatter& one : of.scatter)
    scatter.rows.push_back({{one.key, one.meaning, ""}, {one.distribution, "", ""}});
  Table shares{fmt::format("Share of {} draws that keep all limits", of.draws),
               {"where", "share", "interval, 95 % confidence"},
               {}};
  const auto row = [&](const std::string& where, const std::string& note,
                       const sim::Proportion& share) {
    shares.rows.push_back({{where, note, ""},
                           {fmt::format("{:.3f}", share.value), "", ""},
                           {fmt::format("{:.3f} to {:.3f}", share.low, share.high), "", ""}});
  };
  const auto& [a, b] = window.axes;
  row("highest",
      fmt::format("{} {}, {} {}", a.name, on_axis(a, a.at(of.best_place[0])), b.name,
                  on_axis(b, b.at(of.best_place[1]))),
      of.best.met);
  if (of.at_robust) row("most robust setting", "", *of.at_robust);
  if (of.at_own) row("the case itself", "", *of.at_own);
  return table_html(scatter) + table_html(shares);
}

std::string paragraphs(const std::vector<std::string>& sentences) {
  std::string html;
  for (const std::string& sentence : sentences)
    html += fmt::format("<p>{}</p>\n", escaped(sentence));
  return html;
}

std::string section_of(std::string_view id, std::string_view heading, const std::string& body) {
  return body.empty() ? std::string() : section_html(id, heading, body);
}

}  // namespace

std::string window_page(const sim::Window& window) {
  Page page;
  page.title = window.title;
  page.header = fmt::format(
      "<p class=\"quiet\">Process window of {}</p>\n<h1>{}</h1>\n<p>{} over {}</p>\n"
      "<p><strong>{}</strong></p>\n",
      escaped(window.case_title), escaped(window.title), escaped(window.axes[1].name),
      escaped(window.axes[0].name),
      window.calibrated ? "Calibrated" : "Uncalibrated: the border may lie elsewhere");
  std::string pressing;
  for (const std::string& caution : window.pressing_cautions)
    pressing += fmt::format("<p class=\"caution\" role=\"note\">{}</p>\n", escaped(caution));
  const Drawing drawing = window_drawing(window);
  std::vector<std::string> below_the_map;  // the drawing says one of them itself
  std::copy_if(window.words.begin(), window.words.end(), std::back_inserter(below_the_map),
               [&](const std::string& words) { return words != drawing.why; });
  const std::string tables = robust_html(window) + own_html(window);
  page.body =
      pressing + section_html("map", "The map", figure_html(drawing) + paragraphs(below_the_map)) +
      section_of("room", "How much room", tables) +
      section_html("limits", "Which limit fails where", limits_html(window)) +
      section_of("scatter", "With what scatters", probability_html(window)) +
      section_html("sure", "How sure",
                   list_html(window.notes) +
                       fmt::format("<p>Evaluations: {} of the map, {} to check the box and the "
                                   "case, {} for the probability.</p>\n",
                                   window.evaluations.map, window.evaluations.checks,
                                   window.evaluations.probability)) +
      section_of("samples", "Samples to run next", list_html(window.samples)) +
      section_of("unused", "Not used", list_html(window.unused_keys)) +
      section_of("cautions", "Cautions", list_html(window.cautions)) +
      section_html(
          "study", "The study",
          fold_html("Study file", fmt::format("<pre>{}</pre>\n", escaped(window.study_text))));
  page.style = "pre{overflow-x:auto;white-space:pre-wrap;font-size:.85rem}";
  page.footer = fmt::format(
      "<p>A process estimate, not a safety assessment. drumlin {}, case {}, SHA-256 {}; study {}, "
      "SHA-256 {}, seed {}.</p>\n",
      escaped(window.provenance.version), escaped(window.provenance.case_file),
      escaped(window.provenance.case_sha256), escaped(window.study_file),
      escaped(window.study_sha256), window.seed);
  return page_html(page);
}

}  // namespace drumlin::viz
