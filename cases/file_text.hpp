#pragma once

#include <filesystem>
#include <string>

namespace drumlin::cases {

/// Bytes of a file that a person wrote.
/// @param kind  what it is called in the message, such as "a case file".
/// @throws CaseError if it cannot be read or is larger than 1 MB.
[[nodiscard]] std::string file_text(const std::filesystem::path& file, const std::string& kind);

/// SHA-256 of a text, hexadecimal.
[[nodiscard]] std::string sha256(const std::string& text);

}  // namespace drumlin::cases
