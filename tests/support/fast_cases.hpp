#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sim/fast/fast_model.hpp"
#include "tests/support/stations.hpp"

namespace drumlin::tests {

/// One belt over a part with features, once, everything known but what a test changes.
inline sim::Setup belt_line(sim::BeltSetup station, std::vector<cases::Feature> features) {
  sim::Setup setup;
  station.top = station.coating;
  station.specific_energy = 15000.0;
  setup.scenario.part.thickness = 1.5;
  setup.scenario.part.features = std::move(features);
  setup.scenario.conveyor.passes = 1;
  setup.stations = {std::move(station)};
  return setup;
}

inline cases::Feature outer_edge(const std::string& name, cases::Side side,
                                 const models::AnyBurr& burr) {
  return {
      .name = name, .kind = cases::FeatureKind::outer_edge, .size = {}, .side = side, .burr = burr};
}

/// A hole of 6 mm with a burr on every rim.
inline cases::Feature hole(const models::AnyBurr& burr) {
  cases::Feature feature;
  feature.name = "hole";
  feature.kind = cases::FeatureKind::hole;
  feature.size = 6.0;
  feature.burr = burr;
  return feature;
}

inline sim::StatedAnswer fast_answer(const sim::Setup& setup) {
  sim::fast::Drums drums;
  return sim::fast::state(setup, sim::fast::simulate(setup, drums), false);
}

}  // namespace drumlin::tests
