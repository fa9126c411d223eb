#pragma once

#include "models/elastomer/hardness.hpp"
#include "sim/setup.hpp"

namespace drumlin::tests {

/// A drum at work with every option followed: R 100 mm, cover 15 mm, nu 0.47, loss factor 0.1, a
/// cloth belt of 1 kg/m2 with 2 N/mm at 8 m/s, 300 mm of belt per mm of feed, K 4e-5 /MPa.
inline sim::BeltSetup drum_at_work(double shore_a) {
  sim::BeltSetup station;
  station.cover = {
      .thickness = 15.0, .modulus = models::gent_modulus(shore_a), .poisson_ratio = 0.47};
  station.belt = {.bending_stiffness = 0.5, .tension = 2.0, .grain_compliance = 1e-3};
  station.options = {.curved = true, .moving = true, .gripped = true, .finite_strain = true};
  station.relaxation = models::ConstantLoss{0.1};
  station.radius = 100.0;
  station.density = 1.1e-9;
  station.belt_mass = 1e-9;
  station.belt_speed = 8000.0;
  station.feed = 8000.0 / 300.0;
  station.sliding_speed = station.belt_speed - station.feed;
  station.substrate.law = models::Preston{.coefficient = 4e-5, .threshold = 0.0};
  station.coating = station.substrate;
  station.setting = cases::InterferenceSetting{0.5};
  station.friction = 0.4;
  station.modulus_low = 0.7 * station.cover.modulus;
  station.modulus_high = 1.3 * station.cover.modulus;
  station.loss_low = 0.05;
  station.loss_high = 0.2;
  return station;
}

}  // namespace drumlin::tests
