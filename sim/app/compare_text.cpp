#include "sim/app/compare_text.hpp"

#include <set>

#include <fmt/format.h>

#include "viz/compare_table.hpp"

namespace drumlin::app {
namespace {

std::string outcome_table(const viz::ComparedCases& cases, const Style& style) {
  Table table{{{"quantity", "unit"}}, {}};
  for (const sim::CaseFacts& facts : cases.comparison.cases)
    table.head.front().push_back(facts.short_name());
  table.head.front().emplace_back("");
  for (const viz::ComparedQuantity& quantity : viz::compared_quantities(cases.results)) {
    if (!quantity.differs) continue;
    std::vector<std::string> row{quantity.place + " " + quantity.name,
                                 quantity.unit == "1" ? "" : quantity.unit};
    for (const sim::Quantity& value : quantity.values)
      row.push_back(value ? significant(value->value, 3) : "-");
    row.emplace_back(quantity.bands_overlap ? "bands overlap" : "");
    table.rows.push_back(std::move(row));
  }
  if (table.rows.empty())
    return wrapped("Nothing differs by more than half a per cent.", "", style);
  return to_text(table, style);
}

}  // namespace

std::string compare_text(const viz::ComparedCases& cases, const Style& style) {
  std::string out;
  std::set<std::string> said;
  for (const sim::Result& result : cases.results)
    for (const std::string& caution : result.pressing_cautions)
      if (said.insert(caution).second) out += pressing_text({caution}, style);
  for (const sim::CaseFacts& facts : cases.comparison.cases)
    out += wrapped(fmt::format("{}: {}{}", facts.title, facts.state,
                               facts.decided_by.empty() ? "" : ", limited by " + facts.decided_by),
                   facts.letter + "  ", style);
  out += list("Held equal", cases.comparison.held, Paint::plain, style);
  std::vector<std::string> inputs;
  for (const viz::InputDifference& difference : cases.inputs) {
    std::string line = difference.key + ":";
    for (std::size_t i = 0; i < difference.values.size(); ++i)
      line += fmt::format("{} {} {}", i == 0 ? "" : ",", cases.comparison.cases[i].letter,
                          difference.values[i].empty() ? "left out" : difference.values[i]);
    inputs.push_back(std::move(line));
  }
  out += list("What differs in the cases", inputs, Paint::plain, style);
  out += heading("What differs in the outcome (uncalibrated bands in the page)", style);
  out += outcome_table(cases, style);
  out += list("Why", cases.comparison.why, Paint::plain, style);
  if (!cases.comparison.usual_story.empty())
    out += '\n' + wrapped(cases.comparison.usual_story, "", style);
  out += list("Cautions", cases.results.front().cautions, Paint::caution, style);
  return out;
}

}  // namespace drumlin::app
