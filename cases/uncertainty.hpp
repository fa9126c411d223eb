#pragma once

#include <string>
#include <vector>

#include "cases/problem.hpp"
#include "models/distribution/distributions.hpp"

/// What a case says of how its numbers scatter from part to part and from day to day.
namespace drumlin::cases {

/// One key whose number scatters.
struct ScatteredKey {
  std::string key;                         ///< path, every entry numbered
  std::string meaning;                     ///< of the key, as its declaration says
  std::string unit;                        ///< its numbers are shown in; empty for pure numbers
  models::AnyDistribution distribution{};  ///< [inner unit]
  /// Whether the case gives a bare deviation, which goes around the key's own value.
  bool around_own = false;
  std::string text;  ///< as the case gives it: "normal: mean 1.5 mm, deviation 0.03 mm"
  Place place{};     ///< of the key in the file
};

/// Section [uncertainty]. Keys scatter independently of each other.
struct Uncertainty {
  int size = 0;       ///< points of one set of draws
  int seed = 0;       ///< of every draw
  std::string model;  ///< fidelity that draws are run with
  std::vector<ScatteredKey> keys;
};

}  // namespace drumlin::cases
