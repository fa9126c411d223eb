#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

namespace drumlin::cases {

/// Bytes of a file that a person wrote.
/// @param kind        what it is called in the message, such as "a case file".
/// @param most_bytes  a case is some hundred lines; more than this is another kind of file.
/// @throws CaseError if it cannot be read or is larger.
[[nodiscard]] std::string file_text(const std::filesystem::path& file, const std::string& kind,
                                    std::uintmax_t most_bytes = 1'000'000);

/// SHA-256 of a text, hexadecimal.
[[nodiscard]] std::string sha256(const std::string& text);

}  // namespace drumlin::cases
