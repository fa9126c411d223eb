#pragma once

#include <csignal>
#include <stop_token>
#include <thread>

namespace drumlin::app {

/// Turns Ctrl-C (SIGINT) and SIGTERM into a stop request for as long as it lives.
///
/// A thread waits for the signals, so that nothing runs inside a signal handler. Who presses Ctrl-C
/// a second time leaves at once with exit code 130; the output folder is then still the old one.
/// One at a time, made by the thread that starts all others.
class StopOnSignal {
 public:
  StopOnSignal();
  ~StopOnSignal();
  StopOnSignal(const StopOnSignal&) = delete;
  StopOnSignal& operator=(const StopOnSignal&) = delete;
  StopOnSignal(StopOnSignal&&) = delete;
  StopOnSignal& operator=(StopOnSignal&&) = delete;

  [[nodiscard]] std::stop_token token() const noexcept { return source_.get_token(); }

 private:
  sigset_t signals_{};
  sigset_t before_{};
  std::stop_source source_;
  std::jthread waiter_;
};

}  // namespace drumlin::app
