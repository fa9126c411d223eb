#pragma once

#include <functional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

#include "sim/line/line_result.hpp"
#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// One uncertain input with the ends of its band.
struct Variation {
  std::string input;    ///< key, such as "station[0].drum.hardness"
  std::string meaning;  ///< in words
  std::string unit;
  double low = 0;  ///< in that unit
  double high = 0;
  std::function<void(Setup&, bool to_high)> apply;
};

/// What is uncertain in a set-up: covers, belts, removal coefficients, the part's thickness, and
/// how far this version's idealised cover stands from a real one.
[[nodiscard]] std::vector<Variation> variations(const Setup& setup);

/// Puts bands on every value and says which inputs make them: each input alone is moved to either
/// end of its band on a coarse grid, and what that changes is added in quadrature, ups and downs
/// apart. First order: inputs that amplify each other are not seen.
///
/// @param work  called with the share of the work done.
[[nodiscard]] std::vector<Influence> add_bands(const Setup& setup, line::StatedAnswer& answer,
                                               const std::function<void(double)>& work,
                                               const std::stop_token& stop);

}  // namespace drumlin::sim
