#include "sim/study_analysis/reason_kind.hpp"

#include <string_view>

namespace drumlin::sim {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Length of the number that a text begins with, such as "-4.2e-05"; 0 where it begins with none.
std::size_t number_length(std::string_view text) {
  std::size_t at = 0;
  const auto sign = [&] {
    if (at < text.size() && (text[at] == '-' || text[at] == '+')) ++at;
  };
  const auto digits = [&] {
    const std::size_t from = at;
    while (at < text.size() && is_digit(text[at]))
      ++at;
    return at > from;
  };
  sign();
  if (!digits()) return 0;
  if (at + 1 < text.size() && text[at] == '.' && is_digit(text[at + 1])) {
    ++at;
    digits();
  }
  const std::size_t mantissa = at;
  if (at < text.size() && text[at] == 'e') {
    ++at;
    sign();
    if (!digits()) at = mantissa;
  }
  return at;
}

}  // namespace

std::string reason_kind(const std::string& reason) {
  std::string_view line = std::string_view(reason).substr(0, reason.find('\n'));
  // A message begins with its file: where that lies is not what went wrong.
  const std::string_view first = line.substr(0, line.find(' '));
  if (const std::size_t slash = first.find_last_of('/'); slash != std::string_view::npos)
    line.remove_prefix(slash + 1);
  std::string kind;
  for (std::size_t at = 0; at < line.size();) {
    const bool begins = at == 0 || line[at - 1] == ' ' || line[at - 1] == '"';
    const std::size_t length = begins ? number_length(line.substr(at)) : 0;
    const std::size_t end = at + length;
    const bool ends = end == line.size() ||
                      std::string_view(" ,;:\".)").find(line[end]) != std::string_view::npos;
    if (length > 0 && ends) {
      kind += "...";
      at = end;
    } else {
      kind += line[at++];
    }
  }
  return kind;
}

}  // namespace drumlin::sim
