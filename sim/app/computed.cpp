#include "sim/app/computed.hpp"

#include "cases/scatter.hpp"
#include "sim/numerics/error.hpp"
#include "sim/remedy/remedies.hpp"
#include "sim/run.hpp"
#include "sim/scatter/scatter_study.hpp"

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

sim::Result explained(const sim::Setup& setup, ProgressLine& line, const std::stop_token& stop) {
  sim::Result result = computed(setup, line, stop);
  const cases::Case& scenario = setup.scenario;
  sim::explain(scenario, result, stop);
  if (scenario.uncertainty)
    result.scatter = sim::scatter_study(
        cases::scatter_of(scenario), result.part, result.verdict,
        {.threads = 0, .progress = [&](double share) { line.show(share, "draws"); }, .stop = stop});
  return result;
}

}  // namespace drumlin::app
