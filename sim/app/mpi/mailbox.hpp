#pragma once

#include <chrono>
#include <condition_variable>
#include <deque>
#include <mutex>
#include <optional>
#include <stop_token>

#include "sim/app/chunk_desk.hpp"

namespace drumlin::app {

/// The desk of threads that compute while another thread of their process talks to the other ranks:
/// numbers come in and chunks go out by the talking thread alone. One number is asked for ahead, so
/// that computing does not wait for an answer.
class Mailbox : public ChunkDesk {
 public:
  /// @param stop  ends waiting for a number.
  explicit Mailbox(std::stop_token stop) : stop_(std::move(stop)) {}

  [[nodiscard]] std::optional<std::uint64_t> next() override;
  /// Waits while others wait to be collected: who holds the folder may be slower than all who
  /// compute.
  void take(DoneChunk chunk) override;
  /// Nothing more will be asked for or handed in.
  void close();

  /// For the talking thread: whether a number would be welcome, and the answer; none: no more.
  [[nodiscard]] bool wants();
  void give(std::optional<std::uint64_t> number);
  /// A chunk that was handed in.
  [[nodiscard]] std::optional<DoneChunk> collect();
  /// Whether it is closed and empty.
  [[nodiscard]] bool over();
  /// Until something may have changed here, or a moment has passed.
  void wait(std::chrono::microseconds moment);

 private:
  std::stop_token stop_;
  std::mutex lock_;
  std::condition_variable_any changed_;
  std::optional<std::uint64_t> number_;
  std::deque<DoneChunk> chunks_;
  bool changed_here_ = false;
  bool no_more_ = false;
  bool closed_ = false;
};

}  // namespace drumlin::app
