#pragma once

#include <algorithm>
#include <cstddef>
#include <stdexcept>
#include <string>

#include "sim/sweep/row_runner.hpp"

namespace drumlin::support {

/// Index of the output of that name among a row's.
inline std::size_t column(const sim::RowRunner& runner, const std::string& name) {
  const auto& list = runner.columns();
  const auto found = std::find_if(list.begin(), list.end(),
                                  [&](const sim::StudyColumn& one) { return one.name == name; });
  if (found == list.end()) throw std::logic_error("no column " + name);
  return static_cast<std::size_t>(found - list.begin());
}

}  // namespace drumlin::support
