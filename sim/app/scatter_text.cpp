#include "sim/app/scatter_text.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "sim/app/result_table.hpp"
#include "viz/scatter_words.hpp"

namespace drumlin::app {
namespace {

std::string spread_text(const std::optional<sim::Spread>& spread) {
  if (!spread) return "-";
  return fmt::format("{} / {} / {}", significant(spread->p5, 3), significant(spread->p50, 3),
                     significant(spread->p95, 3));
}

std::vector<std::string> row_of(const sim::ScatterOutput& limit) {
  if (!limit.met) return {limit.name, limit.limit, "not known", "", "", "", ""};
  return {
      limit.name,
      limit.limit,
      viz::met_percent(*limit.met),
      fmt::format("{}..{}", viz::percent_text(limit.met->low), viz::percent_text(limit.met->high)),
      spread_text(limit.value),
      limit.unit,
      limit.margin_deviations ? fixed(*limit.margin_deviations, 1) : "-"};
}

}  // namespace

std::string scatter_text(const sim::ScatterStudy& scatter, const Style& style) {
  std::string out =
      heading(fmt::format("Over the scatter that the case states: {} draws, {} model, seed {}",
                          scatter.draws, scatter.model, scatter.seed),
              style);
  if (scatter.all_met) {
    const sim::Probability& all = *scatter.all_met;
    out +=
        wrapped(fmt::format("all limits that are judged at once: {} % ({}..{} %), {} of {} draws",
                            viz::met_percent(all), viz::percent_text(all.low),
                            viz::percent_text(all.high), all.met, all.of),
                "  ", style);
  }
  if (!scatter.decides.empty()) out += wrapped(scatter.decides, "  ", style);
  Table table{{{"limit", "", "met", "95 %", "5 / 50 / 95 %", "", "margin"},
               {"", "", "%", "%", "of the draws", "", "deviations"}},
              {}};
  for (const sim::ScatterOutput& limit : scatter.limits)
    table.rows.push_back(row_of(limit));
  if (!table.rows.empty()) out += to_text(table, style);
  for (const sim::ScatterOutput& limit : scatter.limits)
    if (!limit.why_not.empty())
      out += wrapped(fmt::format("{}: {}", limit.name, limit.why_not), "  ", style);
  for (const std::string& note : scatter.notes)
    out += wrapped(note, "  ", style);
  return out;
}

}  // namespace drumlin::app
