#pragma once

#include "models/elastomer/hardness.hpp"
#include "sim/line/plain_nip.hpp"
#include "sim/line/strip.hpp"
#include "sim/setup.hpp"

namespace drumlin::tests {

/// A bare drum: R 100 mm, cover 15 mm, nu 0.47, no belt stiffness, K 4e-5 /MPa, 300 mm of belt per
/// mm of feed.
inline sim::BeltSetup bare_drum(double shore_a) {
  sim::BeltSetup station;
  station.cover = {
      .thickness = 15.0, .modulus = models::gent_modulus(shore_a), .poisson_ratio = 0.47};
  station.belt = {.bending_stiffness = 0.0, .tension = 0.0, .grain_compliance = 0.0};
  station.radius = 100.0;
  station.sliding_speed = 8000.0;
  station.feed = 8000.0 / 300.0;
  station.substrate.law = models::Preston{.coefficient = 4e-5, .threshold = 0.0};
  station.coating = station.top = station.substrate;
  station.setting = cases::InterferenceSetting{0.5};
  station.friction = 0.4;
  return station;
}

/// The same with a well-flexed cloth belt under tension and grains that give.
inline sim::BeltSetup belted_drum(double shore_a) {
  sim::BeltSetup station = bare_drum(shore_a);
  station.belt = {.bending_stiffness = 0.5, .tension = 2.0, .grain_compliance = 1e-3};
  return station;
}

/// The same at 8 m/s with everything followed: a ring that moves, loses energy, is gripped by the
/// belt and strained to a finite amount.
inline sim::BeltSetup moving_drum(double shore_a) {
  sim::BeltSetup station = belted_drum(shore_a);
  station.options = {.curved = true, .moving = true, .gripped = true, .finite_strain = true};
  station.density = 1.1e-9;
  station.belt_mass = 1e-9;
  station.belt_speed = 8000.0;
  station.relaxation = models::ConstantLoss{0.1};
  return station;
}

/// A plain strip of metal, `cells` long, cell 0 starting at x = 0.
inline sim::line::Strip plain_strip(std::size_t cells, double spacing) {
  sim::line::Strip strip;
  strip.cells.unit = spacing;
  for (std::size_t i = 0; i <= cells; ++i)
    strip.cells.bounds.push_back(static_cast<int>(i));
  strip.height.assign(cells, 0.0);
  strip.burr.assign(cells, 0.0);
  strip.top.assign(cells, 0.0);
  strip.coating.assign(cells, 0.0);
  strip.metal.assign(cells, 1);
  strip.lip.assign(cells, 0);
  return strip;
}

/// Period of the response in tests [mm].
inline constexpr double window = 320.0;

/// The nip of a station on an unworn face.
inline sim::line::StaticNip static_nip_of(const sim::BeltSetup& station, double interference,
                                          double period = window) {
  return sim::line::static_nip(sim::line::Drum(station, interference), interference, period);
}

/// The steady pass of a station over a face.
inline sim::line::PlainPass plain_pass_of(const sim::BeltSetup& station, double interference,
                                          const sim::line::PlainFace& face = {},
                                          double period = window) {
  return sim::line::plain_pass(sim::line::Drum(station, interference), face, interference, period);
}

/// A station's drum going over a strip.
inline void pass_over(const sim::BeltSetup& station, sim::line::Strip& strip,
                      const sim::line::Course& course, double half_span,
                      const sim::line::OnStep& on_step = {}, double period = window) {
  const sim::line::Drum drum(station, course.interference);
  sim::line::Passage(drum, strip, half_span, period).run(strip, course, on_step);
}

}  // namespace drumlin::tests
