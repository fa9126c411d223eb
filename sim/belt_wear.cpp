#include "sim/belt_wear.hpp"

#include <cmath>

namespace drumlin::sim {

BeltWearSetup wear_of(const cases::Belt& belt, bool wet) {
  BeltWearSetup wear;
  const cases::BeltWearDefaults& usual = belt.wear;
  const cases::Sourced& ratio = belt.abrasive.grinding_ratio;
  const double longer = wet ? usual.wet_life.value : 1.0;
  wear.grain_diameter = belt.grit.mean_diameter;
  wear.dulling.life_volume = longer * models::life_volume(ratio.value, wear.grain_diameter);
  wear.dulling.worn_share = usual.worn_share.value;
  wear.dulling.run_in = usual.run_in.value;
  if (!belt.life) {
    // Independent spreads add in quadrature of logarithms.
    const auto spread = [](const cases::Sourced& s, double end) { return std::log(end / s.value); };
    const double wet_low = wet ? spread(usual.wet_life, usual.wet_life.low) : 0.0;
    const double wet_high = wet ? spread(usual.wet_life, usual.wet_life.high) : 0.0;
    wear.life_low = std::exp(-std::hypot(spread(ratio, ratio.low), wet_low));
    wear.life_high = std::exp(std::hypot(spread(ratio, ratio.high), wet_high));
  }
  wear.worn_low = usual.worn_share.low;
  wear.worn_high = usual.worn_share.high;
  wear.belt_length = belt.length;
  wear.by_case = belt.worn_share.has_value();
  return wear;
}

void dull_belt(BeltSetup& station, double sharpness) {
  const double change = sharpness / station.wear.sharpness;
  for (LayerLaw* layer : {&station.substrate, &station.coating, &station.top}) {
    scale_removal(*layer, change);
    layer->coefficient_low *= change;
    layer->coefficient_high *= change;
  }
  station.friction *= models::dull_friction_share(change);
  station.wear.sharpness = sharpness;
}

double sharpness_at(const BeltWearSetup& wear, double clogging, double life_share) {
  const double dull = wear.dulling.sharpness(life_share);
  if (wear.by_case) return dull;
  return dull * models::loading_share(clogging, life_share * wear.dulling.life_volume,
                                      wear.grain_diameter);
}

void wear_belt(BeltSetup& station, double life_share) {
  dull_belt(station, sharpness_at(station.wear, station.top.clogging, life_share));
  station.wear.life_share = life_share;
}

}  // namespace drumlin::sim
