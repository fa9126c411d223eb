#pragma once

#include <exception>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "cases/case.hpp"

namespace drumlin::cases {

/// One thing wrong with a case file, at the word that is wrong.
struct Problem {
  std::string file;
  int line = 0;      ///< from 1; 0 where no place in the file can be named
  int column = 0;    ///< from 1
  std::string key;   ///< dotted path, such as "station[0].drum.hardness"; empty for syntax errors
  std::string text;  ///< what was found, what was expected, the nearest valid choice
};

/// "file:line:column: error: key: text".
[[nodiscard]] std::string to_string(const Problem& problem);

/// Everything that is wrong with a case file, in the order of its lines.
class CaseError : public std::exception {
 public:
  explicit CaseError(std::vector<Problem> problems);
  [[nodiscard]] const std::vector<Problem>& problems() const noexcept { return problems_; }
  /// All problems, one a line.
  [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }

 private:
  std::vector<Problem> problems_;
  std::string text_;
};

/// Reads and checks a case file.
///
/// @return  the case in the inner unit set, defaults filled in, every range checked.
/// @throws  CaseError with every problem of the file (not only the first).
[[nodiscard]] Case read(const std::filesystem::path& file);

/// The same from text; `file` names it in messages and says where the user's own materials lie.
[[nodiscard]] Case parse(std::string_view text, const std::filesystem::path& file);

}  // namespace drumlin::cases
