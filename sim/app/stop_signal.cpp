#include "sim/app/stop_signal.hpp"

#include <ctime>

#include <unistd.h>

#include "sim/app/exit_codes.hpp"

namespace drumlin::app {

namespace {

// Signals are looked for ten times a second so that the thread also sees that the run is over.
void wait_for_signals(const std::stop_token& over, const sigset_t& signals,
                      std::stop_source& source) {
  constexpr std::timespec tenth{.tv_sec = 0, .tv_nsec = 100'000'000};
  while (!over.stop_requested()) {
    if (sigtimedwait(&signals, nullptr, &tenth) < 0) continue;
    if (!source.request_stop()) _exit(stopped);
  }
}

}  // namespace

StopOnSignal::StopOnSignal() {
  sigemptyset(&signals_);
  sigaddset(&signals_, SIGINT);
  sigaddset(&signals_, SIGTERM);
  pthread_sigmask(SIG_BLOCK, &signals_, &before_);
  waiter_ = std::jthread(
      [this](const std::stop_token& over) { wait_for_signals(over, signals_, source_); });
}

StopOnSignal::~StopOnSignal() {
  waiter_.request_stop();
  waiter_.join();
  pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

}  // namespace drumlin::app
