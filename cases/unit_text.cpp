#include <array>
#include <cstdlib>
#include <utility>

#include <fmt/format.h>

#include "cases/unit_table.hpp"
#include "cases/units.hpp"

namespace drumlin::cases::units {

namespace {

using Bases = std::array<std::pair<std::string_view, int>, 8>;

/// The inner units of a dimension with their powers.
Bases bases_of(const models::Dimension& dimension) {
  return {{{"mm", dimension.length},
           {"t", dimension.mass},
           {"s", dimension.time},
           {"K", dimension.temperature},
           {"rad", dimension.angle},
           {"EUR", dimension.money},
           {"Shore A", dimension.shore_a},
           {"parts", dimension.parts}}};
}

}  // namespace

double in_unit(double inner, const Unit& unit) noexcept {
  return inner / unit.factor - unit.offset;
}

std::string format_number(double value, int digits) {
  std::string text = fmt::format("{:.{}g}", value, digits);
  // "4e-05" to "4e-5": a leading zero in the exponent is of no use to anyone.
  if (const std::size_t e = text.find('e');
      e != std::string::npos && text.size() == e + 4 && text[e + 2] == '0')
    text.erase(e + 2, 1);
  if (const std::size_t plus = text.find("e+"); plus != std::string::npos) text.erase(plus + 1, 1);
  return text;
}

std::string format(double inner, std::string_view unit, int digits) {
  const double value = in_unit(inner, parse_unit(unit));
  return fmt::format("{} {}", format_number(value, digits), unit);
}

std::string inner_symbol(const models::Dimension& dimension) {
  std::string above;
  std::string below;
  for (const auto& [symbol, n] : bases_of(dimension)) {
    if (n == 0) continue;
    const std::string raised = std::abs(n) == 1 ? "" : fmt::format("^{}", std::abs(n));
    if (n > 0) above += fmt::format("{}{}{}", above.empty() ? "" : " ", symbol, raised);
    if (n < 0) below += fmt::format("/{}{}", symbol, raised);
  }
  return above.empty() && !below.empty() ? "1" + below : above + below;
}

std::string name(const models::Dimension& dimension) {
  for (const NamedDimension& row : named)
    if (row.dimension == dimension) return std::string(row.name);
  const auto bases = bases_of(dimension);
  std::string result = "a quantity in";
  for (const auto& [symbol, n] : bases) {
    if (n == 0) continue;
    result += n == 1 ? fmt::format(" {}", symbol) : fmt::format(" {}^{}", symbol, n);
  }
  return result;
}

std::string example(const models::Dimension& dimension) {
  for (const NamedDimension& row : named)
    if (row.dimension == dimension) return std::string(row.example);
  return {};
}

std::vector<std::string> symbols() {
  std::vector<std::string> result;
  result.reserve(table.size());
  for (const TableRow& row : table)
    result.emplace_back(row.symbol);
  return result;
}

}  // namespace drumlin::cases::units
