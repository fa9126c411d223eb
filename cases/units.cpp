#include "cases/units.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "cases/currencies.hpp"
#include "cases/suggest.hpp"
#include "cases/unit_table.hpp"

namespace drumlin::cases::units {
namespace {

constexpr std::size_t longest_text = 100;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_space(char c) {
  return c == ' ' || c == '\t';
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front()))
    text.remove_prefix(1);
  while (!text.empty() && is_space(text.back()))
    text.remove_suffix(1);
  return text;
}

/// Other ways to write the same signs, brought to plain ASCII.
std::string plain(std::string_view text) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 13> signs{{
      {"\u00b5", "u"},      // micro sign
      {"\u03bc", "u"},      // Greek mu
      {"\u00b0C", "degC"},  // degree sign
      {"\u00b0", "deg"},
      {"\u00b7", "*"},  // raised dots
      {"\u22c5", "*"},
      {"\u00b2", "^2"},
      {"\u00b3", "^3"},
      {"\u20ac", "EUR"},
      {"\u00a0", " "},  // no-break spaces
      {"\u202f", " "},
      {"$", "USD"},
      {"\u00a3", "GBP"},
  }};
  std::string result;
  while (!text.empty()) {
    bool replaced = false;
    for (const auto& [sign, ascii] : signs) {
      if (!text.starts_with(sign)) continue;
      result += ascii;
      text.remove_prefix(sign.size());
      replaced = true;
      break;
    }
    if (replaced) continue;
    result += text.front();
    text.remove_prefix(1);
  }
  return result;
}

models::Dimension times_power(models::Dimension a, const models::Dimension& b, int n) {
  a.length += n * b.length;
  a.mass += n * b.mass;
  a.time += n * b.time;
  a.temperature += n * b.temperature;
  a.angle += n * b.angle;
  a.money += n * b.money;
  a.shore_a += n * b.shore_a;
  a.parts += n * b.parts;
  return a;
}

const TableRow& row_of(std::string_view symbol, std::string_view whole) {
  for (const TableRow& row : table)
    if (row.symbol == symbol) return row;
  if (symbol == "ShA" || symbol == "Sh A" || symbol == "ShoreA") return row_of("Shore A", whole);
  if (symbol == "Shore D")
    throw UnitError("Shore D is another scale; give Shore A, or the modulus", true);
  const auto known = symbols();
  const auto near = nearest(symbol, known);
  throw UnitError(near ? fmt::format(R"(unknown unit "{}"; nearest is "{}")", symbol, *near)
                       : fmt::format("unknown unit \"{}\"", symbol));
}

/// Reads one compound unit from left to right.
class UnitReader {
 public:
  UnitReader(std::string_view symbol, std::string_view rest) : symbol_(symbol), rest_(rest) {}

  Unit read() {
    Unit unit{std::string(symbol_), 1, 0, {}, {}};
    int factors = 0;
    int sign = 1;
    while (true) {
      skip_spaces();
      factor(unit, sign, factors == 0);
      ++factors;
      skip_spaces();
      if (rest_.empty()) return unit;
      if (rest_.front() == '/') {
        sign = -1;
        rest_.remove_prefix(1);
        continue;
      }
      if (sign < 0)
        throw UnitError(
            fmt::format("\"{}\" can be read in two ways; write every divisor after its own \"/\", "
                        "such as \"J/mm3/K\"",
                        symbol_),
            true);
      if (rest_.front() == '*') rest_.remove_prefix(1);
    }
  }

 private:
  void skip_spaces() {
    while (!rest_.empty() && is_space(rest_.front()))
      rest_.remove_prefix(1);
  }

  std::string_view word() {
    for (const std::string_view two : {"Shore A", "Shore D", "Sh A"})
      if (rest_.starts_with(two)) return take(two.size());
    std::size_t n = 0;
    while (n < rest_.size() && !is_space(rest_[n]) && !is_digit(rest_[n]) && rest_[n] != '/' &&
           rest_[n] != '*' && rest_[n] != '^')
      ++n;
    return take(n);
  }

  std::string_view take(std::size_t n) {
    const std::string_view result = rest_.substr(0, n);
    rest_.remove_prefix(n);
    return result;
  }

  /// Power after a symbol: "^-2", "^2" or a trailing digit; 1 without.
  int power() {
    const bool caret = !rest_.empty() && rest_.front() == '^';
    if (caret) rest_.remove_prefix(1);
    int sign = 1;
    if (caret && !rest_.empty() && rest_.front() == '-') {
      sign = -1;
      rest_.remove_prefix(1);
    }
    if (rest_.empty() || !is_digit(rest_.front())) {
      if (caret) throw malformed();
      return 1;
    }
    const int n = take(1).front() - '0';
    if (n == 0 || (!rest_.empty() && is_digit(rest_.front()))) throw malformed();
    return sign * n;
  }

  void name_currency(Unit& unit, std::string_view code) const {
    if (!unit.currency.empty() && unit.currency != code)
      throw UnitError(
          fmt::format(R"("{}" holds two currencies, {} and {})", symbol_, unit.currency, code),
          true);
    unit.currency = code;
  }

  void factor(Unit& unit, int sign, bool first) {
    if (first && rest_.starts_with("1")) {
      rest_.remove_prefix(1);
      skip_spaces();
      if (!rest_.starts_with("/")) throw malformed();
      return;
    }
    const std::string_view symbol = word();
    if (symbol.empty()) throw malformed();
    const bool code = is_currency(symbol);
    if (code) name_currency(unit, symbol);
    // Money of every currency is counted alike; who adds sums up sees to it that they are of one.
    const TableRow& row = row_of(code ? "EUR" : symbol, symbol_);
    const int n = sign * power();
    unit.dimension = times_power(unit.dimension, row.dimension, n);
    unit.factor *= std::pow(row.factor, n);
    if (row.symbol != "degC") return;
    if (!first || n != 1 || !trimmed(rest_).empty())
      throw UnitError(
          fmt::format("\"{}\": degC stands only alone; in a compound unit write K", symbol_), true);
    unit.offset = celsius_zero;
  }

  [[nodiscard]] UnitError malformed() const {
    return UnitError(fmt::format("\"{}\" cannot be read as a unit", symbol_));
  }

  std::string_view symbol_;
  std::string_view rest_;
};

/// The text with its first comma as a point, if that looks like a decimal comma.
std::optional<std::string> with_point(std::string_view text) {
  const std::size_t comma = text.find(',');
  if (comma == std::string_view::npos || comma == 0 || comma + 1 >= text.size()) return {};
  if (!is_digit(text[comma - 1]) || !is_digit(text[comma + 1])) return {};
  std::string result(text);
  result[comma] = '.';
  return result;
}

[[noreturn]] void refuse_number(std::string_view text) {
  if (const auto better = with_point(text))
    throw UnitError(
        fmt::format(R"("{}" has a comma in its number; decimals take a point: write "{}")", text,
                    *better),
        true);
  std::string_view rest = text;
  if (rest.starts_with("-") || rest.starts_with("+")) rest.remove_prefix(1);
  const std::string start = [&] {
    std::string s(rest.substr(0, 3));
    for (char& c : s)
      c = (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
    return s;
  }();
  if (start == "nan" || start == "inf")
    throw UnitError(fmt::format("\"{}\" is not a finite number", text));
  throw UnitError(fmt::format("\"{}\" does not start with a number", text));
}

/// Takes the number off the front of `rest`.
double take_number(std::string_view text, std::string_view& rest) {
  std::string_view digits = rest;
  if (digits.starts_with("+")) digits.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (error == std::errc::result_out_of_range)
    throw UnitError(fmt::format("\"{}\" is not a number that can be computed with", text));
  if (error != std::errc() || rest.starts_with("+-") || digits.starts_with("+") ||
      !std::isfinite(value))
    refuse_number(text);
  rest = digits.substr(static_cast<std::size_t>(end - digits.data()));
  if (rest.starts_with(",") || rest.starts_with(".")) refuse_number(text);
  return value;
}

}  // namespace

Unit parse_unit(std::string_view symbol) {
  if (symbol.size() > longest_text) throw UnitError("the unit is too long to be one");
  const std::string ascii = plain(symbol);
  return UnitReader(symbol, trimmed(ascii)).read();
}

Quantity parse(std::string_view text) {
  if (text.size() > longest_text)
    throw UnitError("the text is too long for a number with its unit");
  const std::string ascii = plain(text);
  std::string_view rest = trimmed(ascii);
  if (rest.empty()) throw UnitError("the text is empty");
  const double number = take_number(text, rest);
  const bool gap = !rest.empty() && is_space(rest.front());
  rest = trimmed(rest);
  if (rest.empty()) return {number, {}};
  if (gap && is_digit(rest.front()) && !rest.starts_with("1/") && !rest.starts_with("1 /"))
    throw UnitError(
        fmt::format("\"{}\" has a gap in its number; write its digits without one", text), true);
  Unit unit = parse_unit(rest);
  const double value = (number + unit.offset) * unit.factor;
  if (!std::isfinite(value))
    throw UnitError(fmt::format("\"{}\" is not a number that can be computed with", text));
  return {value, std::move(unit)};
}

Quantity parse_as(std::string_view text, const models::Dimension& expected,
                  std::string_view own_example, std::string_view called) {
  const std::string such_as = own_example.empty() ? example(expected) : std::string(own_example);
  const std::string wanted = called.empty() ? name(expected) : std::string(called);
  Quantity quantity;
  try {
    quantity = parse(text);
  } catch (const UnitError& error) {
    if (error.says_all()) throw;
    throw UnitError(fmt::format("{}; expected {}, such as \"{}\"", error.what(), wanted, such_as));
  }
  if (quantity.unit.symbol.empty() && expected != models::dimension::number)
    throw UnitError(fmt::format(R"("{}" has no unit; expected {} with its unit, such as "{}")",
                                text, wanted, such_as));
  if (quantity.unit.dimension != expected)
    throw UnitError(fmt::format(R"("{}" is {}; expected {}, such as "{}")", text,
                                name(quantity.unit.dimension), wanted, such_as));
  return quantity;
}

}  // namespace drumlin::cases::units
