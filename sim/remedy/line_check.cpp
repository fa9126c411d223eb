#include "sim/remedy/line_check.hpp"

#include <string>

#include "sim/numerics/error.hpp"
#include "sim/sweep/row_answer.hpp"

namespace drumlin::sim {

LineCheck line_check(const cases::Case& changed, int limit, const std::stop_token& stop) {
  LineCheck check;
  try {
    const Setup setup = set_up(changed);
    fast::Drums drums;
    const RowAnswer answer = row_answer(setup, drums, stop);
    check.state = answer.verdict.state;
    check.decided_by = answer.verdict.decided_by;
    const auto& items = answer.verdict.items;
    const VerdictItem* item = nullptr;
    if (limit < 0)
      item = answer.verdict.deciding();
    else if (static_cast<std::size_t>(limit) < items.size())
      item = &items[static_cast<std::size_t>(limit)];
    if (item != nullptr) {
      check.value = without_band(item->value);
      check.margin = item->margin;
    }
    check.confirmed =
        limit < 0 ? answer.verdict.accepted : item != nullptr && item->accepted.value_or(false);
  } catch (const NumericsError& error) {
    check.state = std::string("no answer: ") + error.what();
  }
  return check;
}

}  // namespace drumlin::sim
