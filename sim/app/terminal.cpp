#include "sim/app/terminal.hpp"

#include <cstdlib>
#include <string_view>

#include <unistd.h>

namespace drumlin::app {

namespace {

std::string_view environment(const char* name) {
  const char* value =
      std::getenv(name);  // NOLINT(concurrency-mt-unsafe): read before threads start
  return value == nullptr ? std::string_view() : std::string_view(value);
}

}  // namespace

// By its convention NO_COLOR counts when present and not empty.
Style stdout_style() {
  Style style;
  style.colour = isatty(STDOUT_FILENO) != 0 && environment("NO_COLOR").empty() &&
                 environment("TERM") != "dumb";
  return style;
}

bool stderr_is_terminal() {
  return isatty(STDERR_FILENO) != 0 && environment("TERM") != "dumb";
}

}  // namespace drumlin::app
