#pragma once

#include <string>
#include <vector>

#include "cases/reader.hpp"

namespace drumlin::support {

/// What is wrong with a case's text, as the reader says it; empty where nothing is.
inline std::vector<cases::Problem> problems_of(const std::string& text) {
  try {
    static_cast<void>(cases::parse(text, "panel.toml"));
  } catch (const cases::CaseError& error) {
    return error.problems();
  }
  return {};
}

}  // namespace drumlin::support
