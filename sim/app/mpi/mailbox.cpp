#include "sim/app/mpi/mailbox.hpp"

#include <utility>

namespace drumlin::app {

std::optional<std::uint64_t> Mailbox::next() {
  std::unique_lock lock(lock_);
  changed_.wait(lock, stop_, [&] { return number_ || no_more_; });
  changed_here_ = true;
  changed_.notify_all();
  return std::exchange(number_, std::nullopt);
}

void Mailbox::take(DoneChunk chunk) {
  constexpr std::size_t most_waiting = 2;
  std::unique_lock lock(lock_);
  changed_.wait(lock, stop_, [&] { return chunks_.size() < most_waiting; });
  chunks_.push_back(std::move(chunk));
  changed_here_ = true;
  changed_.notify_all();
}

void Mailbox::close() {
  const std::lock_guard lock(lock_);
  closed_ = true;
  changed_here_ = true;
  changed_.notify_all();
}

bool Mailbox::wants() {
  const std::lock_guard lock(lock_);
  return !number_ && !no_more_ && !closed_;
}

void Mailbox::give(std::optional<std::uint64_t> number) {
  const std::lock_guard lock(lock_);
  number_ = number;
  no_more_ = !number;
  changed_.notify_all();
}

std::optional<DoneChunk> Mailbox::collect() {
  const std::lock_guard lock(lock_);
  if (chunks_.empty()) return std::nullopt;
  DoneChunk chunk = std::move(chunks_.front());
  chunks_.pop_front();
  changed_.notify_all();
  return chunk;
}

bool Mailbox::over() {
  const std::lock_guard lock(lock_);
  return closed_ && chunks_.empty();
}

void Mailbox::wait(std::chrono::microseconds moment) {
  std::unique_lock lock(lock_);
  changed_.wait_for(lock, moment, [&] { return changed_here_; });
  changed_here_ = false;
}

}  // namespace drumlin::app
