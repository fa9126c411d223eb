#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "cases/reader.hpp"

/// Whatever the bytes, a case comes back whole or a CaseError with at least one problem does.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  // The bytes of a file are what a string_view of char is made for.
  const std::string_view text(reinterpret_cast<const char*>(data), size);  // NOLINT
  try {
    const auto scenario = drumlin::cases::parse(text, "fuzz.toml");
    if (scenario.stations.empty()) std::abort();
  } catch (const drumlin::cases::CaseError& error) {
    if (error.problems().empty()) std::abort();
  }
  return 0;
}
