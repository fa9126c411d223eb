#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "sim/app/chunk_desk.hpp"

/// Chunks and their numbers as messages between ranks of one kind of machine.
namespace drumlin::app {

[[nodiscard]] std::string to_message(const DoneChunk& chunk);
[[nodiscard]] DoneChunk chunk_in(const std::string& message);

/// No number: there are no more chunks.
[[nodiscard]] std::string to_message(std::optional<std::uint64_t> number);
[[nodiscard]] std::optional<std::uint64_t> number_in(const std::string& message);

}  // namespace drumlin::app
