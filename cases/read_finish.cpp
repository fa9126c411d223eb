#include <fmt/format.h>

#include "cases/finishes.hpp"
#include "cases/reader_parts.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {

void read_finish(const Section& accept_section, Limits& limits) {
  const auto index = read_choice(accept_section, finish_info);
  if (!index) return;
  if (limits.contains("roughness")) {
    accept_section.problem_at_key("finish", "give finish or roughness, not both");
    return;
  }
  const Finish& finish = finishes.at(*index);
  const auto um = [](double value) { return units::format_number(value * 1e3, 6); };
  Limit limit{.low = finish.low, .high = finish.high, .text = {}, .unit = "um", .scale = 1e-3};
  if (!finish.low)
    limit.text = fmt::format("<= {} um", um(*finish.high));
  else if (!finish.high)
    limit.text = fmt::format(">= {} um", um(*finish.low));
  else
    limit.text = fmt::format("{}..{} um", um(*finish.low), um(*finish.high));
  accept_section.note_default(
      "roughness", limit.text,
      fmt::format("finish {}, {}: {}", finish.name, finish.what, finish.source));
  limit.text = fmt::format("{} ({})", limit.text, finish.name);
  limits["roughness"] = std::move(limit);
}

}  // namespace drumlin::cases
