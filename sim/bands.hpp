#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/answer.hpp"
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
  /// The end at which the set-up stands already, if it is one: false for low, true for high.
  std::optional<bool> nominal_end;
};

/// What is uncertain in a set-up: covers, belts, removal coefficients, the part's thickness, how
/// warm and how fast the drum runs, and what the options chosen leave out of a real cover.
[[nodiscard]] std::vector<Variation> variations(const Setup& setup);

/// Answers a varied set-up, on a coarse grid where the model has one.
using Rerun = std::function<StatedAnswer(const Setup&)>;

/// Puts bands on every value and says which inputs make them: each input alone is moved to either
/// end of its band on a coarse grid, and what that changes is added in quadrature, ups and downs
/// apart. First order: inputs that amplify each other are not seen.
///
/// @param rerun  the model that the answer came from.
/// @param work   called with the share of the work done.
[[nodiscard]] std::vector<Influence> add_bands(const Setup& setup, StatedAnswer& answer,
                                               const Rerun& rerun,
                                               const std::function<void(double)>& work);

}  // namespace drumlin::sim
