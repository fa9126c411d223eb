#include "sim/app/progress.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/app/text.hpp"

namespace drumlin::app {

using namespace std::chrono_literals;

std::string progress_line(double share, std::string_view what, std::size_t width) {
  constexpr std::size_t bar_width = 24;
  const double part = std::isfinite(share) ? std::clamp(share, 0.0, 1.0) : 0.0;
  const auto filled = static_cast<std::size_t>(std::floor(part * bar_width));
  std::string line =
      fmt::format("[{}{}] {:3.0f} %  {}", std::string(filled, '='),
                  std::string(bar_width - filled, ' '), std::floor(100 * part), what);
  while (!line.empty() && columns(line) > width)
    line.pop_back();
  return line;
}

// A second of silence: most runs are over by then.
ProgressLine::ProgressLine(std::FILE* stream, bool shown)
    : stream_(stream), shown_(shown), next_(Clock::now() + 1s) {}

ProgressLine::~ProgressLine() {
  wipe();
}

void ProgressLine::show(double share, std::string_view what) {
  if (!shown_) return;
  const Clock::time_point now = Clock::now();
  if (now < next_) return;
  next_ = now + 100ms;
  const std::string line = progress_line(share, what, 79);
  std::fputs(("\r\x1b[K" + line).c_str(), stream_);
  std::fflush(stream_);
  on_screen_ = true;
}

void ProgressLine::wipe() noexcept {
  if (!on_screen_) return;
  std::fputs("\r\x1b[K", stream_);
  std::fflush(stream_);
  on_screen_ = false;
}

}  // namespace drumlin::app
