#include "viz/cells.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace drumlin::viz {
namespace {

/// Unit as the keys write it: "N/mm" as "N_per_mm".
std::string key_ending(std::string_view unit) {
  if (unit == "degC") return "C";
  std::string ending;
  for (const char c : unit) {
    if (c == '/')
      ending += ending.empty() || ending == "1" ? "per_" : "_per_";
    else if (c != '^')
      ending += c;
  }
  return ending.starts_with("1per_") ? ending.substr(1) : ending;
}

}  // namespace

std::string number_text(double value) {
  const double size = std::abs(value);
  if (size >= 1000 && size < 1e7) return fmt::format("{:.0f}", value);
  if (size > 0 && size < 1e-3) return fmt::format("{:.2e}", value);
  return fmt::format("{:.3g}", value == 0 ? 0.0 : value);
}

std::string shown_unit(std::string_view unit) {
  if (unit == "1") return "";
  if (unit == "degC") return "°C";
  if (unit == "N/mm^2") return "N/mm²";
  std::string out(unit);
  if (out.starts_with("um")) out.replace(0, 2, "µm");
  return out;
}

std::string with_unit(double value, std::string_view unit) {
  const std::string shown = shown_unit(unit);
  return number_text(value) + (shown.empty() ? "" : " " + shown);
}

std::string kind_of_state(std::string_view state) {
  return state == "accepted" ? "good" : state == "not accepted" ? "bad" : "open";
}

std::string spoken(std::string_view key) {
  std::string words(key);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

std::string spoken_key(std::string_view key, std::string_view unit) {
  const std::string ending = "_" + key_ending(unit);
  if (unit != "1" && key.ends_with(ending)) key.remove_suffix(ending.size());
  return spoken(key);
}

Cell quantity_cell(const sim::Quantity& value, const Scale& scale, std::string_view unit) {
  if (!value || !std::isfinite(value->value)) return {"not given by the model", "", "absent"};
  Cell cell{with_unit(scale(value->value), unit), "", ""};
  if (value->low && value->high) {
    const double one = scale(*value->low);
    const double other = scale(*value->high);
    const auto [low, high] = std::minmax(one, other);
    cell.note = fmt::format("band {} to {}", number_text(low), number_text(high));
  }
  return cell;
}

Cell quantity_cell(const std::optional<double>& value, const Scale& scale, std::string_view unit) {
  return quantity_cell(value ? sim::Quantity({*value, {}, {}}) : sim::Quantity(), scale, unit);
}

}  // namespace drumlin::viz
