#include "viz/study/block.hpp"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <stdexcept>
#include <string>
#include <variant>

#include <zlib.h>

namespace drumlin::viz {
namespace {

constexpr std::size_t checksum_bytes = 4;

std::size_t longest(const std::vector<std::string>& words) {
  std::size_t bytes = 1;
  for (const std::string& word : words)
    bytes = std::max(bytes, word.size());
  return bytes;
}

/// Byte j of value i at place j * rows + i: neighbouring numbers share their leading bytes.
std::vector<char> shuffled(const std::vector<char>& bytes, std::size_t width) {
  std::vector<char> out(bytes.size());
  const std::size_t rows = bytes.size() / width;
  for (std::size_t j = 0; j < width; ++j)
    for (std::size_t i = 0; i < rows; ++i)
      out[j * rows + i] = bytes[i * width + j];
  return out;
}

/// Sums modulo 65535 in which 0 is written as 65535 unless all is 0.
std::uint64_t folded(std::uint64_t sum) noexcept {
  return sum == 0 ? 0 : (sum - 1) % 65535 + 1;
}

/// Over 16-bit words, the first byte of each the higher one; an odd byte at the end is one more.
std::uint32_t fletcher(std::span<const char> bytes) noexcept {
  constexpr std::size_t words_at_a_time = std::size_t{1} << 18U;  // sums stay below 2^54
  std::uint64_t first = 0;
  std::uint64_t second = 0;
  const auto byte = [&](std::size_t at) {
    return static_cast<std::uint64_t>(static_cast<unsigned char>(bytes[at]));
  };
  const std::size_t words = (bytes.size() + 1) / 2;
  for (std::size_t from = 0; from < words; from += words_at_a_time) {
    const std::size_t to = std::min(from + words_at_a_time, words);
    for (std::size_t i = from; i < to; ++i) {
      first += byte(2 * i) << 8U | (2 * i + 1 < bytes.size() ? byte(2 * i + 1) : 0);
      second += first;
    }
    first = folded(first);
    second = folded(second);
  }
  return static_cast<std::uint32_t>(second << 16U | first);
}

/// A stream of zlib's that is used for one block after the other: most columns of a chunk hold so
/// little that making a new one for each would take longest.
class Deflater {
 public:
  Deflater() {
    if (deflateInit(&stream_, deflate_level) != Z_OK)
      throw std::runtime_error("no memory to compress a block");
  }
  ~Deflater() { deflateEnd(&stream_); }
  Deflater(const Deflater&) = delete;
  Deflater& operator=(const Deflater&) = delete;
  Deflater(Deflater&&) = delete;
  Deflater& operator=(Deflater&&) = delete;

  /// The bytes, deflated, with room behind them.
  std::vector<char> deflated(std::vector<char> plain, std::size_t room) {
    deflateReset(&stream_);
    std::vector<char> out(deflateBound(&stream_, plain.size()) + room);
    // NOLINTBEGIN(cppcoreguidelines-pro-type-reinterpret-cast): zlib's bytes are unsigned
    stream_.next_in = reinterpret_cast<Bytef*>(plain.data());
    stream_.next_out = reinterpret_cast<Bytef*>(out.data());
    // NOLINTEND(cppcoreguidelines-pro-type-reinterpret-cast)
    stream_.avail_in = static_cast<uInt>(plain.size());
    stream_.avail_out = static_cast<uInt>(out.size());
    if (deflate(&stream_, Z_FINISH) != Z_STREAM_END)
      throw std::runtime_error("a block could not be compressed");
    out.resize(stream_.total_out + room);
    return out;
  }

 private:
  z_stream stream_{};
};

std::vector<char> filtered(const std::vector<char>& bytes, std::size_t width) {
  thread_local Deflater deflater;
  std::vector<char> out = deflater.deflated(shuffled(bytes, width), checksum_bytes);
  const std::size_t size = out.size() - checksum_bytes;
  const std::uint32_t sum = fletcher({out.data(), size});
  for (std::size_t i = 0; i < checksum_bytes; ++i)
    out[size + i] = static_cast<char>(sum >> (8U * i) & 0xffU);
  return out;
}

}  // namespace

Block packed(const sim::StudyValues& values, std::size_t rows, std::size_t width) {
  if (const auto* numbers = std::get_if<std::vector<double>>(&values)) {
    std::vector<char> bytes(rows * sizeof(double), '\0');
    std::memcpy(bytes.data(), numbers->data(), std::min(rows, numbers->size()) * sizeof(double));
    return {filtered(bytes, sizeof(double)), sizeof(double)};
  }
  const auto& words = std::get<std::vector<std::string>>(values);
  if (width == 0) width = longest(words);
  std::vector<char> bytes(rows * width, '\0');
  for (std::size_t i = 0; i < std::min(rows, words.size()); ++i)
    std::copy_n(words[i].begin(), std::min(width, words[i].size()),
                bytes.begin() + static_cast<std::ptrdiff_t>(i * width));
  return {filtered(bytes, width), width};
}

bool is_whole(std::span<const char> block) noexcept {
  if (block.size() < checksum_bytes) return false;
  const std::size_t size = block.size() - checksum_bytes;
  const std::uint32_t sum = fletcher(block.first(size));
  for (std::size_t i = 0; i < checksum_bytes; ++i)
    if (static_cast<unsigned char>(block[size + i]) != (sum >> (8U * i) & 0xffU)) return false;
  return true;
}

}  // namespace drumlin::viz
