#pragma once

#include <optional>
#include <string>

#include <fmt/format.h>

#include "cases/document.hpp"
#include "cases/key_path.hpp"
#include "cases/reader.hpp"
#include "sim/remedy/remedies.hpp"
#include "sim/setup.hpp"
#include "sim/sweep/row_answer.hpp"

namespace drumlin::support {

/// A case file's text with another value written under a key, where the key stands in it; none
/// where it does not.
inline std::optional<std::string> rewritten(const std::string& text, const std::string& key,
                                            const std::string& value) {
  if (key.find('*') != std::string::npos) return std::nullopt;  // several keys at once
  const cases::Node root = cases::parse_toml(text, "case.toml");
  const cases::Node* node = cases::find(root, cases::parse_path(key));
  if (node == nullptr) return std::nullopt;
  std::size_t at = 0;
  for (int line = 1; line < node->place.line; ++line)
    at = text.find('\n', at) + 1;
  at += static_cast<std::size_t>(node->place.column) - 1;
  const bool quoted = text[at] == '"';
  const std::size_t end = quoted ? text.find('"', at + 1) + 1 : text.find_first_of(" ,}\n#", at);
  return text.substr(0, at) + value + text.substr(end);
}

/// A number of a knob as a case file has it, all digits.
inline std::string written_number(const sim::RemedyKnob& knob, double value) {
  if (knob.key == "conveyor.passes") return fmt::format("{:.0f}", value);
  return knob.unit == "1" ? fmt::format("{:.17g}", value)
                          : fmt::format("\"{:.17g} {}\"", value, knob.unit);
}

/// What the model of a case file's text says of it, read as any file is.
inline sim::RowAnswer answer_to(const std::string& text, const std::string& file) {
  sim::fast::Drums drums;
  return sim::row_answer(sim::set_up(cases::parse(text, file)), drums, {});
}

/// The study of a case file's text, from an answer without bands.
inline sim::RemedyStudy studied(const std::string& text, const std::string& file) {
  const cases::OpenCase open(text, file);
  const sim::RowAnswer answer = answer_to(text, file);
  sim::Result result;
  result.model = open.as_read().numerics.model;
  result.verdict = answer.verdict;
  return sim::seek_remedies(open, result);
}

}  // namespace drumlin::support
