#pragma once

#include <exception>
#include <string>
#include <utility>
#include <vector>

/// What is wrong with a case file and where: for the reader, and for whoever finds out later that a
/// case asks for what physics does not give. Header only, so that the simulator needs no reader.
namespace drumlin::cases {

/// Where a word stands in its file, both from 1; line 0 where no place can be named.
struct Place {
  int line = 0;
  int column = 0;

  [[nodiscard]] bool operator==(const Place&) const = default;
};

/// One thing wrong with a case file, at the word that is wrong.
struct Problem {
  std::string file;
  int line = 0;      ///< from 1; 0 where no place in the file can be named
  int column = 0;    ///< from 1
  std::string key;   ///< dotted path, such as "station[0].drum.hardness"; empty for syntax errors
  std::string text;  ///< what was found, what was expected, the nearest valid choice
};

/// "file:line:column: error: key: text".
[[nodiscard]] inline std::string to_string(const Problem& problem) {
  std::string result = problem.file;
  if (problem.line > 0)
    result += ':' + std::to_string(problem.line) + ':' + std::to_string(problem.column);
  result += ": error: ";
  if (!problem.key.empty()) result += problem.key + ": ";
  return result + problem.text;
}

/// Everything that is wrong with a case file, in the order of its lines.
class CaseError : public std::exception {
 public:
  explicit CaseError(std::vector<Problem> problems) : problems_(std::move(problems)) {
    for (const Problem& problem : problems_) {
      if (!text_.empty()) text_ += '\n';
      text_ += to_string(problem);
    }
  }
  [[nodiscard]] const std::vector<Problem>& problems() const noexcept { return problems_; }
  /// All problems, one a line.
  [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }

 private:
  std::vector<Problem> problems_;
  std::string text_;
};

}  // namespace drumlin::cases
