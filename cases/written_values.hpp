#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace drumlin::cases {

/// A value as a case file has it.
struct WrittenValue {
  std::string key;   ///< with all its sections, such as "station[0].drum.hardness"
  std::string text;  ///< the value in TOML's own spelling, texts without quotes
};

/// Every value that a case's text states, in the order of the keys; features are named in place of
/// counted where they have a name, so that cases with other features between them still match.
/// @throws CaseError if the text is not TOML.
[[nodiscard]] std::vector<WrittenValue> written_values(std::string_view text,
                                                       const std::string& file);

}  // namespace drumlin::cases
