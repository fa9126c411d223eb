#pragma once

#include <string_view>

#include "models/dimension.hpp"

namespace drumlin::models {

/// How a law (or a part of the case) describes one of its own numbers: the name under which a case
/// file gives it, where it is kept, its dimension, its legal range and what it means.
///
/// The reader, `drumlin check`, the messages about bad input and (later) sweeps all walk lists of
/// keys; a number that has no key cannot be reached from outside.
///
/// @tparam Owner  struct that holds the number.
template <class Owner>
struct Key {
  std::string_view name;
  double Owner::*member;
  Dimension dimension;
  double low = 0;   ///< smallest legal value, in the inner unit set
  double high = 0;  ///< largest legal value, in the inner unit set
  std::string_view meaning;
};

}  // namespace drumlin::models
