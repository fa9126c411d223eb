#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/report_parts.hpp"
#include "viz/scatter_words.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

std::string interval_text(const sim::Probability& met) {
  return fmt::format("{} to {} %; {} of {} draws", percent_text(met.low), percent_text(met.high),
                     met.met, met.of);
}

/// A share of variance; an estimate may come out a little below nothing.
std::string share_text(double share, double error) {
  const double shown = std::abs(share) < 0.005 ? 0.0 : share;
  return fmt::format("{:.2f} ± {:.2f}", shown, 1.96 * error);
}

Cell spread_cell(const std::optional<sim::Spread>& spread, std::string_view unit) {
  if (!spread) return {"not given by the model", "", "absent"};
  return {
      with_unit(spread->p50, unit),
      fmt::format("5 % below {}, 5 % above {}", number_text(spread->p5), number_text(spread->p95)),
      ""};
}

std::string limits_table(const sim::ScatterStudy& scatter) {
  Table table{"Every limit over the draws",
              {"edge and quantity", "limit", "met", "middle of the draws", "mean margin"},
              {}};
  // What is met least comes first, what is not judged last.
  std::vector<const sim::ScatterOutput*> order;
  for (const sim::ScatterOutput& limit : scatter.limits)
    order.push_back(&limit);
  std::stable_sort(order.begin(), order.end(), [](const auto* a, const auto* b) {
    return (a->met ? a->met->value : 2) < (b->met ? b->met->value : 2);
  });
  for (const sim::ScatterOutput* one : order) {
    const sim::ScatterOutput& limit = *one;
    const Cell met = limit.met ? Cell{met_percent(*limit.met) + " %", interval_text(*limit.met), ""}
                               : Cell{"not known", limit.why_not, "open"};
    const Cell margin =
        limit.margin_deviations ? Cell{fmt::format("{:.1f} deviations", *limit.margin_deviations),
                                       with_unit(limit.margin->mean, limit.unit), ""}
        : limit.margin ? Cell{with_unit(limit.margin->mean, limit.unit), "does not vary", ""}
                       : Cell{"not known", "", "absent"};
    table.rows.push_back({{spoken(limit.name), "", ""},
                          {limit.limit, "", ""},
                          met,
                          spread_cell(limit.value, limit.unit),
                          margin});
  }
  return table_html(table);
}

std::string shares_table(const sim::ScatterStudy& scatter,
                         const std::vector<sim::ScatterOutput>& outputs, const char* caption) {
  Table table{caption, {"number"}, {}};
  for (const sim::ScatterInput& input : scatter.inputs)
    table.head.push_back(input.key);
  for (const sim::ScatterOutput& output : outputs) {
    if (output.shares.empty()) continue;
    std::vector<Cell> row{{spoken(output.name), "", ""}};
    for (const sim::ScatterShare& share : output.shares)
      row.push_back({share_text(share.total, share.total_error),
                     "alone " + share_text(share.first, share.first_error), ""});
    table.rows.push_back(std::move(row));
  }
  return table.rows.empty() ? "" : table_html(table);
}

std::string others_table(const sim::ScatterStudy& scatter) {
  Table table{"Numbers without a limit, over the draws",
              {"edge and quantity", "middle", "standard deviation"},
              {}};
  for (const sim::ScatterOutput& output : scatter.others)
    table.rows.push_back({{spoken(output.name), "", ""},
                          spread_cell(output.value, output.unit),
                          {with_unit(output.value->deviation, output.unit), "", ""}});
  return table.rows.empty() ? "" : table_html(table);
}

std::string inputs_table(const sim::ScatterStudy& scatter) {
  Table table{"What scatters, as the case states it", {"key", "meaning", "distribution"}, {}};
  for (const sim::ScatterInput& input : scatter.inputs)
    table.rows.push_back(
        {{input.key, "", ""}, {input.meaning, "", ""}, {input.distribution, "", ""}});
  return table_html(table);
}

}  // namespace

std::string report_scatter(const sim::Result& result) {
  if (!result.scatter) return "";
  const sim::ScatterStudy& scatter = *result.scatter;
  std::string body;
  if (scatter.all_met)
    body += fmt::format("<p>All limits that are judged, at once: {} ({}).</p>\n",
                        met_percent(*scatter.all_met) + " %", interval_text(*scatter.all_met));
  if (!scatter.decides.empty())
    body += fmt::format("<p>Where it is tightest, {}.</p>\n", escaped(scatter.decides));
  if (!scatter.limits.empty()) body += limits_table(scatter);
  for (const auto drawings : {scatter_limits_drawings, scatter_shares_drawings})
    for (const Drawing& drawing : drawings(result))
      body += figure_html(drawing);
  body += inputs_table(scatter);
  body += fold_html("Shares of variance: which scatter decides, number by number",
                    "<p>Total share: alone and together with other keys; ± 1.96 standard "
                    "deviations of the estimate.</p>\n" +
                        shares_table(scatter, scatter.limits, "Numbers with a limit") +
                        shares_table(scatter, scatter.others, "Numbers without one"));
  const std::string others = others_table(scatter);
  if (!others.empty()) body += fold_html("Numbers without a limit", others);
  body += "<h3>What was drawn, and what is not in it</h3>\n" + list_html(scatter.notes);
  return section_html("scatter", "Scatter: how often the limits are met", body);
}

}  // namespace drumlin::viz
