#include "sim/app/computed.hpp"

#include "sim/numerics/error.hpp"
#include "sim/run.hpp"

namespace drumlin::app {

sim::Result computed(const sim::Setup& setup, ProgressLine& line, const std::stop_token& stop,
                     ProgressPart part) {
  sim::Result result = sim::run(
      setup,
      [&](double share, std::string_view what) {
        line.show(part.from + (part.to - part.from) * share, what);
      },
      stop);
  if (stop.stop_requested()) throw sim::Stopped();
  return result;
}

}  // namespace drumlin::app
