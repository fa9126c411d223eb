#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "models/dimension.hpp"

/// The only unit table: text with a unit in, numbers in mm, N, MPa, s, K out, and back.
///
/// A unit is a product of symbols, written with a space, "*" or a raised dot, quotients with "/",
/// powers with "^n", a trailing digit or a raised digit: "N mm", "kg/m^3", "g/cm3", "1/MPa".
/// Inch, foot, pound and psi are known. Temperatures in degC exist only here and in the writers.
namespace drumlin::cases::units {

/// Text that is no quantity, or not the one that is expected.
class UnitError : public std::runtime_error {
 public:
  /// @param says_all  the message already tells what to write instead.
  explicit UnitError(const std::string& text, bool says_all = false)
      : std::runtime_error(text), says_all_(says_all) {}
  [[nodiscard]] bool says_all() const noexcept { return says_all_; }

 private:
  bool says_all_;
};

/// A unit and how it turns into the inner set: inner = (value + offset) * factor.
struct Unit {
  std::string symbol;  ///< as written
  double factor = 1;
  double offset = 0;  ///< only degC has one
  models::Dimension dimension;
  /// ISO 4217 code of the money in it, such as "EUR"; empty where there is none, or only "ct".
  std::string currency{};
};

/// A number that was given with its unit. Currencies have a code of three letters (ISO 4217) and
/// are never converted into each other.
struct Quantity {
  double value = 0;  ///< in the inner unit set, finite
  Unit unit;         ///< as written; symbol empty where none was
};

/// @throws UnitError naming the nearest known symbol.
[[nodiscard]] Unit parse_unit(std::string_view symbol);

/// "0.5 mm" to 0.5 and mm. A number alone gives a pure number without a unit.
/// @throws UnitError for a decimal comma, a number that is not finite, anything else around it.
[[nodiscard]] Quantity parse(std::string_view text);

/// The value of a quantity that must have the dimension `expected`, in the inner unit set.
/// @param example  of what is expected, such as "100 mm"; empty: the dimension's own.
/// @param called   what is expected, in words; empty: the dimension's name.
/// @throws UnitError that says what was found, what was expected and gives the example.
[[nodiscard]] Quantity parse_as(std::string_view text, const models::Dimension& expected,
                                std::string_view example = {}, std::string_view called = {});

/// Value of an inner number in a unit.
[[nodiscard]] double in_unit(double inner, const Unit& unit) noexcept;

/// An inner number in a unit, such as "0.5 mm"; up to `digits` significant digits, none in vain.
/// @throws UnitError if the unit is unknown.
[[nodiscard]] std::string format(double inner, std::string_view unit, int digits = 12);

/// A plain number, up to `digits` significant digits: "0.5", "4e-5".
[[nodiscard]] std::string format_number(double value, int digits = 12);

/// The unit of a dimension in the inner set, such as "t/mm^2"; empty for a pure number.
[[nodiscard]] std::string inner_symbol(const models::Dimension& dimension);

/// What a dimension is called: "a length", "a hardness", "a quantity in mm^2 s^-1".
[[nodiscard]] std::string name(const models::Dimension& dimension);

/// A quantity of that dimension as one would write it: "1.5 mm", "40 Shore A".
[[nodiscard]] std::string example(const models::Dimension& dimension);

/// Every unit symbol known, in the order of the table.
[[nodiscard]] std::vector<std::string> symbols();

}  // namespace drumlin::cases::units
