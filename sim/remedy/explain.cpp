#include <string>
#include <vector>

#include <fmt/format.h>

#include "sim/remedy/conflict.hpp"
#include "sim/remedy/remedies.hpp"

namespace drumlin::sim {
namespace {

/// The first remedy as a sample to run, before the control blank.
void add_sample(const RemedyStudy& study, std::vector<std::string>& samples) {
  const auto add = [&](const Remedy& remedy, const std::string& limit) {
    std::string change;
    for (const Turned& turned : remedy.changes)
      change += fmt::format("{}{} {}", change.empty() ? "" : " and ",
                            study.knobs[static_cast<std::size_t>(turned.knob)].name, turned.text);
    samples.insert(
        samples.empty() ? samples.end() : samples.end() - 1,
        fmt::format(
            "2 blanks with {}, all else as in this case: by the fast model, "
            "uncalibrated, {} met there{}",
            change, limit == all_limits ? "all limits are" : limit + " is",
            remedy.line && !remedy.line->confirmed ? "; the line model does not confirm it" : ""));
  };
  for (const SoughtLimit& sought : study.limits) {
    if (!sought.failed || sought.remedies.empty()) continue;
    // What is not a setting of this line is no sample of it; what the line model confirms comes
    // before what it does not.
    const Remedy* chosen = nullptr;
    for (const Remedy& remedy : sought.remedies) {
      if (!study.knobs[static_cast<std::size_t>(remedy.changes.front().knob)].setting) continue;
      if (chosen == nullptr || (remedy.line && remedy.line->confirmed)) chosen = &remedy;
      if (!chosen->line || chosen->line->confirmed) break;
    }
    if (chosen == nullptr) continue;
    add(*chosen, sought.name);
    return;
  }
  if (!study.pairs.empty()) add(study.pairs.front(), all_limits);
}

}  // namespace

void explain(const cases::Case& scenario, Result& result, const std::stop_token& stop) {
  if (scenario.text.empty() || !scenario.numerics.bands) return;
  const cases::OpenCase open(scenario.text, scenario.file);
  if (!cases::same_values(open.as_read(), scenario)) return;
  result.remedies = seek_remedies(open, result, stop);
  add_sample(*result.remedies, result.samples);
}

}  // namespace drumlin::sim
