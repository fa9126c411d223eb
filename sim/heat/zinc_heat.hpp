#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// How hot the zinc on a part gets, for whoever warns of smearing, melting and fume.
struct ZincHeat {
  double hottest = 0;        ///< [K] value
  double hottest_high = 0;   ///< [K] upper end of its band
  std::string where;         ///< "face", "face beside hole-6", "other face"
  std::size_t station = 0;   ///< index at which it is reached
  double melting_point = 0;  ///< [K] of this zinc
  bool melts = false;        ///< by value
  bool may_melt = false;     ///< by the upper end of the band
  bool may_boil = false;     ///< by the upper end: 907 degC, dense fume
};

/// @return  no value where no zinc is on the part or no temperature is known. The burr itself
///          carries no zinc; its inner foot is where the layer begins.
[[nodiscard]] std::optional<ZincHeat> zinc_heat(const Setup& setup, const Result& result);

}  // namespace drumlin::sim
