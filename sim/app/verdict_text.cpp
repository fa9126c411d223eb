#include "sim/app/verdict_text.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace drumlin::app {

namespace {

// As fine as the quantity can be measured on a part.
std::string in_unit(double value, const std::string& unit) {
  std::string number;
  if (unit == "mm")
    number = fixed(value, 3);
  else if (unit == "um" || unit == "µm")
    number = fixed(value, 1);
  else if (unit == "degC" || unit == "K" || unit == "%")
    number = fixed(value, 0);
  else
    number = significant(value, 3);
  return unit.empty() ? number : number + ' ' + unit;
}

// Under its value, which names the unit.
std::string band_in_unit(const sim::Quantity& quantity, const std::string& unit) {
  if (!quantity || !quantity->low || !quantity->high) return "";
  const auto number = [&](double end) {
    const std::string text = in_unit(end, unit);
    return text.substr(0, text.find(' '));
  };
  return number(*quantity->low) + ".." + number(*quantity->high);
}

Paint paint_of(const std::string& state) {
  if (state == "accepted") return Paint::good;
  return state == "not accepted" ? Paint::bad : Paint::caution;
}

std::string limited_by(const sim::Verdict& verdict) {
  std::string out = "limited by " + verdict.decided_by;
  const sim::VerdictItem* item = verdict.deciding();
  if (item == nullptr) return out;
  out += ": " + (item->value ? in_unit(item->value->value, item->unit) : std::string("no value"));
  out += ", limit " + item->limit;
  if (item->margin) out += ", margin " + in_unit(*item->margin, item->unit);
  return out;
}

}  // namespace

std::string verdict_line(const sim::Result& result, const Style& style) {
  const sim::Verdict& verdict = result.verdict;
  const std::string state =
      "verdict: " + verdict.state + (result.calibrated ? "" : " (uncalibrated)");
  std::string out = painted(state, paint_of(verdict.state), style) + '\n';
  if (!verdict.decided_by.empty()) out += wrapped(limited_by(verdict), "  ", style);
  return out;
}

std::string verdict_table(const sim::Verdict& verdict, const Style& style) {
  if (verdict.items.empty()) return "";
  Table table{{{"item", "", "value", "limit", "margin"}}, {}};
  for (const sim::VerdictItem& item : verdict.items) {
    table.rows.push_back({item.name,
                          painted(sim::state_of(item), paint_of(sim::state_of(item)), style),
                          item.value ? in_unit(item.value->value, item.unit) : "-", item.limit,
                          item.margin ? in_unit(*item.margin, item.unit) : "-"});
    const std::string band = band_in_unit(item.value, item.unit);
    if (!band.empty()) table.rows.push_back({"", "", band});
  }
  return heading("Limits of the customer", style) + to_text(table, style);
}

}  // namespace drumlin::app
