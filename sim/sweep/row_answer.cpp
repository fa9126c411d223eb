#include "sim/sweep/row_answer.hpp"

#include <algorithm>
#include <utility>

#include "sim/belt_life.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/line/line_result.hpp"
#include "sim/line_economy.hpp"
#include "sim/verdict.hpp"

namespace drumlin::sim {
namespace {

StatedAnswer line_answer(const Setup& setup, const std::stop_token& stop) {
  const cases::Numerics& numerics = setup.scenario.numerics;
  const line::LineOptions options{.fineness = {.resolution = numerics.resolution,
                                               .root_cells = 8,
                                               .steps = numerics.steps,
                                               .nested = numerics.grid == "nested"},
                                  .frames = 0,
                                  .progress = {},
                                  .stop = stop};
  return line::state(setup, line::simulate(setup, options));
}

RowAnswer answer_of(const Setup& setup, fast::Drums& drums, const std::stop_token& stop) {
  RowAnswer answer;
  answer.stated = setup.scenario.numerics.model == "fast"
                      ? fast::state(setup, fast::simulate(setup, drums, stop), /*waves=*/false)
                      : line_answer(setup, stop);
  answer.verdict = judge(setup.scenario.accept, answer.stated.part);
  answer.economy = line_economy(setup, answer.stated.stations);
  return answer;
}

bool any_belt_has_an_age(const cases::Case& scenario) {
  return std::any_of(scenario.stations.begin(), scenario.stations.end(), [](const auto& station) {
    const auto* belt = std::get_if<cases::BeltStation>(&station);
    return belt != nullptr && belt->belt_age;
  });
}

}  // namespace

RowAnswer row_answer(const Setup& fresh, fast::Drums& drums, const std::stop_token& stop) {
  if (!any_belt_has_an_age(fresh.scenario)) return answer_of(fresh, drums, stop);
  return answer_of(with_belt_ages(fresh, stop), drums, stop);
}

}  // namespace drumlin::sim
