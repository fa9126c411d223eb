#pragma once

#include <cmath>
#include <random>

#include "tests/support/stations.hpp"

namespace drumlin::tests {

/// Draws stations over the range that the fast model is meant for, the same ones every time.
class RandomStations {
 public:
  explicit RandomStations(unsigned seed) : engine_(seed) {}

  /// Evenly between two ends; the engine's own numbers, so alike with every library.
  double even(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_()) / 4294967296.0;
  }
  /// Evenly in logarithm.
  double spread(double low, double high) { return low * std::pow(high / low, even(0.0, 1.0)); }

  /// Drum R 50 to 250 mm, cover 5 to 40 mm, 20 to 80 Shore A, nu up to `most_poisson`.
  sim::BeltSetup drum(double most_poisson) {
    sim::BeltSetup station = bare_drum(even(20, 80));
    station.radius = even(50, 250);
    station.cover.thickness = even(5, 40);
    station.cover.poisson_ratio = even(0.45, most_poisson);
    station.density = 1.1e-9;
    return station;
  }
  /// The same with a belt: D 0.05 to 20 N mm, T up to 3 N/mm, c_g 3e-4 to 4e-3 mm/MPa.
  sim::BeltSetup belted(double most_poisson) {
    sim::BeltSetup station = drum(most_poisson);
    station.belt = {.bending_stiffness = spread(0.05, 20),
                    .tension = even(0, 3),
                    .grain_compliance = spread(3e-4, 4e-3)};
    return station;
  }

 private:
  std::mt19937 engine_;
};

}  // namespace drumlin::tests
