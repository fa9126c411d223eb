#pragma once

#include <string>
#include <string_view>

namespace drumlin::support {

/// A case that is right, with every section opened by its own header and a line
/// "#@ <section path>" at the end of each, where tests put one more key.
[[nodiscard]] std::string whole_case();

/// The same text with one line replaced; stops the test program if the line is not there once.
[[nodiscard]] std::string with(std::string_view line, std::string_view instead);

/// whole_case() with one more line at the end of a section.
[[nodiscard]] std::string with_added(std::string_view section, std::string_view line);

/// A text of this kind without the drum's own relaxation, which stands beside no loss factor and no
/// cover of the library.
[[nodiscard]] std::string without_relaxation(std::string text);

/// A text in which "^" marked a place, without the mark, and that place.
struct Marked {
  std::string text;
  int line = 0;
  int column = 0;
};
[[nodiscard]] Marked take_mark(std::string text);

}  // namespace drumlin::support
