#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "sim/part_result.hpp"

namespace drumlin::sim {

struct VerdictItem {
  std::string name;              ///< such as "hole-6:trailing burr_height" or "face coating_left"
  std::string quantity;          ///< the accept key
  std::string unit;              ///< unit of value, limit and margin: "mm", "um", "degC", ...
  Quantity value;                ///< in that unit
  std::optional<double> low;     ///< limit, in that unit
  std::optional<double> high;    ///< limit, in that unit
  std::string limit;             ///< as the customer wrote it
  std::optional<double> margin;  ///< distance to the nearer limit, in that unit; negative: outside
  std::optional<bool> accepted;  ///< no value: not known

  /// Margin over the limit's size: what may be compared between limits. None where the margin is
  /// not known or the limit is zero.
  [[nodiscard]] std::optional<double> relative_margin() const noexcept {
    const double size = std::max(std::abs(high.value_or(0.0)), std::abs(low.value_or(0.0)));
    return margin && size > 0.0 ? std::optional(*margin / size) : std::nullopt;
  }
};

struct Verdict {
  bool accepted = false;
  std::string state;       ///< "accepted", "not accepted", "not known", "no limits given"
  std::string decided_by;  ///< name of the item that decides
  std::vector<VerdictItem> items;

  /// The item that decides; null where none does.
  [[nodiscard]] const VerdictItem* deciding() const noexcept {
    for (const VerdictItem& item : items)
      if (item.name == decided_by) return &item;
    return nullptr;
  }
};

/// "accepted", "not accepted" or "not known".
[[nodiscard]] inline const char* state_of(const VerdictItem& item) noexcept {
  return !item.accepted ? "not known" : *item.accepted ? "accepted" : "not accepted";
}

}  // namespace drumlin::sim
