#include "cases/file_text.hpp"

#include <array>
#include <cerrno>
#include <fstream>
#include <stdexcept>
#include <system_error>

#include <fmt/format.h>
#include <openssl/evp.h>

#include "cases/reader.hpp"

namespace drumlin::cases {
namespace {

[[noreturn]] void refuse(const std::filesystem::path& file, const std::string& why) {
  throw CaseError({{file.string(), 0, 0, "", why}});
}

}  // namespace

std::string file_text(const std::filesystem::path& file, const std::string& kind,
                      std::uintmax_t most_bytes) {
  std::error_code error;
  const auto status = std::filesystem::status(file, error);
  if (!std::filesystem::exists(status)) refuse(file, "no such file");
  if (std::filesystem::is_directory(status))
    refuse(file, fmt::format("is a folder; expected {}", kind));
  if (!std::filesystem::is_regular_file(status))
    refuse(file, fmt::format("is not a plain file; expected {}", kind));
  const std::uintmax_t size = std::filesystem::file_size(file, error);
  if (!error && size > most_bytes)
    refuse(file, fmt::format("has {} bytes; {} has at most {}", size, kind, most_bytes));
  errno = 0;
  std::ifstream stream(file, std::ios::binary);
  if (!stream)
    refuse(file, fmt::format("cannot be read: {}", std::generic_category().message(errno)));
  std::string text(error ? 0 : static_cast<std::size_t>(size), '\0');
  stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (error || static_cast<std::size_t>(stream.gcount()) != text.size())
    refuse(file, "cannot be read to its end");
  return text;
}

std::string sha256(const std::string& text) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int length = 0;
  if (EVP_Digest(text.data(), text.size(), digest.data(), &length, EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("SHA-256 is not available from the OpenSSL library");
  std::string result;
  for (unsigned int i = 0; i < length; ++i)
    result += fmt::format("{:02x}", digest.at(i));
  return result;
}

}  // namespace drumlin::cases
