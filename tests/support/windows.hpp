#pragma once

#include <string>

#include "cases/window_reader.hpp"
#include "tests/support/studies.hpp"

namespace drumlin::support {

/// The study of a window of a shipped case, by the fast model: what stands after `case` and
/// `model`.
inline cases::WindowStudy window_of(const std::string& case_file, const std::string& rest,
                                    const std::string& model = "fast") {
  return cases::parse_window("case = \"" + case_file + "\"\nmodel = \"" + model + "\"\n" + rest,
                             examples() + "study.toml");
}

/// Both axes over their ranges.
inline std::string axis(const std::string& key, const std::string& from, const std::string& to) {
  return factor(key, "from = \"" + from + "\"\nto = \"" + to + "\"");
}

}  // namespace drumlin::support
