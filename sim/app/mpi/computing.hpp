#pragma once

#include <exception>
#include <functional>
#include <stop_token>
#include <string>
#include <thread>

#include "sim/app/mpi/mailbox.hpp"

namespace drumlin::app {

/// What a piece of work throws; none if it does not.
[[nodiscard]] std::exception_ptr problem_of(const std::function<void()>& work);

/// The threads of this rank that compute, and how they are stopped.
class Computing {
 public:
  /// @param stop  of the process; request_stop() here stops this rank's rows only.
  Computing(const cases::Study& study, const sim::StudyHeader& header, sim::RowRunner& runner,
            const std::string& name, const std::stop_token& stop);
  ~Computing();
  Computing(const Computing&) = delete;
  Computing& operator=(const Computing&) = delete;
  Computing(Computing&&) = delete;
  Computing& operator=(Computing&&) = delete;

  [[nodiscard]] Mailbox& mailbox() { return mailbox_; }
  void request_stop() { stop_.request_stop(); }
  [[nodiscard]] bool stop_requested() const { return stop_.stop_requested(); }
  /// Once the mailbox is over: whether computing ended before there were no more chunks.
  [[nodiscard]] bool ended_early() const { return static_cast<bool>(problem_); }
  /// What ended it, unless it was a stop: that is told by who holds the folder and knows what is
  /// kept.
  [[nodiscard]] std::exception_ptr failure() const;

 private:
  std::stop_source stop_;
  Mailbox mailbox_{stop_.get_token()};
  std::exception_ptr problem_;
  std::stop_callback<std::function<void()>> passed_on_;
  std::jthread thread_;
};

}  // namespace drumlin::app
