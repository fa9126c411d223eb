#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "tests/support/places.hpp"
#include "tests/support/run_program.hpp"

namespace drumlin::support {

/// A study file that the program is to sweep: chunks of 512 rows of the fast model, a tenth of a
/// millisecond each.
inline std::string study_text(int rows, const std::string& factors = "") {
  const std::string some = R"(
[[factor]]
key = "station[0].belt.removal_coefficient"
distribution = { kind = "lognormal", median = "4e-5 1/MPa", factor = 1.3 }

[[factor]]
key = "conveyor.speed"
from = "2 m/min"
to = "8 m/min"
)";
  return "title = \"rows to be swept\"\ncase = \"" + examples() +
         "first-look.toml\"\nmodel = \"fast\"\n[design]\nkind = \"sobol\"\nsize "
         "= " +
         std::to_string(rows) + "\nseed = 7\n" + (factors.empty() ? some : factors);
}

/// Arguments of a sweep that goes on with what is there.
inline std::vector<std::string> sweep(const std::string& study, const std::string& out,
                                      const std::vector<std::string>& more = {}) {
  std::vector<std::string> words{"sweep", study, "--out", out, "--resume", "--quiet"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

/// Chunks that a folder keeps.
inline std::size_t chunks_in(const std::filesystem::path& out) {
  std::error_code none;
  std::size_t count = 0;
  for (const auto& file : std::filesystem::directory_iterator(out / "chunks", none))
    if (file.path().extension() == ".h5") ++count;
  return count;
}

}  // namespace drumlin::support
