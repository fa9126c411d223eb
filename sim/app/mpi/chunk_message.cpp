#include "sim/app/mpi/chunk_message.hpp"

#include <cstring>
#include <stdexcept>

namespace drumlin::app {
namespace {

/// Before the name of who computed the chunk, and its file.
struct Head {
  std::uint64_t number;
  std::uint64_t first_row;
  std::uint64_t rows;
  std::uint64_t slowest_row;
  double rows_s;
  double slowest_s;
  std::uint64_t threads;
  std::uint64_t name_bytes;
};

template <class Value>
std::string bytes_of(const Value& value) {
  std::string bytes(sizeof value, '\0');
  std::memcpy(bytes.data(), &value, sizeof value);
  return bytes;
}

template <class Value>
Value value_in(const std::string& bytes) {
  if (bytes.size() < sizeof(Value)) throw std::logic_error("a message is cut short");
  Value value;
  std::memcpy(&value, bytes.data(), sizeof value);
  return value;
}

}  // namespace

std::string to_message(const DoneChunk& chunk) {
  const viz::RowTimes& times = chunk.times;
  const Head head{chunk.number, times.first_row, times.rows,    times.slowest_row,
                  times.rows_s, times.slowest_s, times.threads, times.computed_by.size()};
  return bytes_of(head) + times.computed_by + chunk.file;
}

DoneChunk chunk_in(const std::string& message) {
  const auto head = value_in<Head>(message);
  if (message.size() < sizeof head + head.name_bytes)
    throw std::logic_error("a message is cut short");
  return {.number = head.number,
          .file = message.substr(sizeof head + head.name_bytes),
          .times = {.chunk = head.number,
                    .first_row = head.first_row,
                    .rows = head.rows,
                    .rows_s = head.rows_s,
                    .slowest_row = head.slowest_row,
                    .slowest_s = head.slowest_s,
                    .computed_by = message.substr(sizeof head, head.name_bytes),
                    .threads = static_cast<unsigned>(head.threads)}};
}

std::string to_message(std::optional<std::uint64_t> number) {
  return number ? bytes_of(*number) : std::string();
}

std::optional<std::uint64_t> number_in(const std::string& message) {
  if (message.empty()) return std::nullopt;
  return value_in<std::uint64_t>(message);
}

}  // namespace drumlin::app
