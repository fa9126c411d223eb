#pragma once

#include <fstream>
#include <string>

#include "cases/study_reader.hpp"
#include "tests/support/places.hpp"

namespace drumlin::support {

/// A study of a shipped case, by the fast model: what stands after `case` and `model`.
inline cases::Study study_of(const std::string& case_file, const std::string& rest) {
  return cases::parse_study("case = \"" + case_file + "\"\nmodel = \"fast\"\n" + rest,
                            examples() + "study.toml");
}

/// A grid over one factor after another: "key" and its further lines.
inline std::string factor(const std::string& key, const std::string& lines) {
  return "[[factor]]\nkey = \"" + key + "\"\n" + lines + "\n";
}

}  // namespace drumlin::support
