#pragma once

#include <chrono>
#include <cstdio>
#include <string>
#include <string_view>

namespace drumlin::app {

/// The progress line without its line end: a bar, per cent, what is being done.
///
/// @param share  of the work done [0..1]; beyond is cut off.
/// @param width  [columns] that the line may take.
[[nodiscard]] std::string progress_line(double share, std::string_view what, std::size_t width);

/// One line on a terminal that says how far a run is: first after a second, then at most ten times
/// a second; wiped at the end. Without a terminal nothing is written.
class ProgressLine {
 public:
  /// @param shown  whether anything is written at all.
  explicit ProgressLine(std::FILE* stream, bool shown);
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  ProgressLine(ProgressLine&&) = delete;
  ProgressLine& operator=(ProgressLine&&) = delete;

  void show(double share, std::string_view what);
  void wipe() noexcept;

 private:
  using Clock = std::chrono::steady_clock;

  std::FILE* stream_;
  bool shown_;
  bool on_screen_ = false;
  Clock::time_point next_;
};

}  // namespace drumlin::app
