#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "sim/result.hpp"

/// The program around the simulator: command line, exit codes, what a person reads.
namespace drumlin::app {

/// How text for people is laid out.
struct Style {
  bool colour = false;      ///< escape sequences for colour; only where a terminal reads along
  std::size_t width = 100;  ///< [columns] longest line, as far as words allow
};

/// What a piece of text says by its colour, where colour is on.
enum class Paint { plain, heading, quiet, good, bad, caution };

/// The text in the colour of `paint`, or unchanged where the style has no colour.
[[nodiscard]] std::string painted(std::string_view text, Paint paint, const Style& style);

/// Columns that UTF-8 text takes on a terminal: one per code point, none for colour.
[[nodiscard]] std::size_t columns(std::string_view text);

/// Breaks text at blanks so that no line is longer than the style's width, ends it with a newline.
///
/// @param first  what the first line begins with; all others begin with as many blanks.
[[nodiscard]] std::string wrapped(std::string_view text, std::string_view first,
                                  const Style& style);

/// Rows of cells under a heading. The first column is flush left, the others flush right.
struct Table {
  std::vector<std::vector<std::string>> head;  ///< lines of the heading, such as names and units
  std::vector<std::vector<std::string>> rows;
};

/// The table with two blanks of indent and two between columns. Columns that do not fit into the
/// width follow below, each part again with the first column.
[[nodiscard]] std::string to_text(const Table& table, const Style& style);

/// An empty line and a heading.
[[nodiscard]] std::string heading(std::string_view text, const Style& style);

/// An empty line, a title and one point per line; nothing where there are no lines.
[[nodiscard]] std::string list(std::string_view title, const std::vector<std::string>& lines,
                               Paint paint, const Style& style);

/// Cautions that come before anything else; nothing where there are none.
[[nodiscard]] std::string pressing_text(const std::vector<std::string>& cautions,
                                        const Style& style);

/// A number with fixed decimals; what rounds to zero has no minus sign.
[[nodiscard]] std::string fixed(double value, int decimals);

/// A number with so many significant digits, without an exponent from 1e-4 up to 1e6.
[[nodiscard]] std::string significant(double value, int digits);

/// The same without zeros at the end of the decimals: for what a user gave, "1.5" and not "1.500".
[[nodiscard]] std::string brief(double value, int digits);

/// Value times `factor`, or "-" where there is none.
[[nodiscard]] std::string value_text(const sim::Quantity& quantity, double factor, int decimals);

/// "low..high" times `factor`, or an empty text where there is no band.
[[nodiscard]] std::string band_text(const sim::Quantity& quantity, double factor, int decimals);

}  // namespace drumlin::app
