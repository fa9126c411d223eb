#include <algorithm>
#include <array>
#include <limits>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "models/burr/burr_keys.hpp"
#include "models/elastomer/softening.hpp"
#include "models/removal/removal_keys.hpp"
#include "sim/bands.hpp"
#include "sim/brush/brush_variations.hpp"
#include "sim/drum_state.hpp"
#include "sim/heat/heat_variations.hpp"

namespace drumlin::sim {
namespace {

// What an option that is not followed leaves out, as line load at the same interference; it is in
// proportion to the modulus, so the modulus carries the band.

/// A flat layer in place of the drum: finite elements of the drum carry 5 to 16 % less (R 100 mm,
/// cover 10 to 20 mm, interference 0.25 to 2 mm).
constexpr double drum_over_flat = 0.84;
/// A belt that does not grip: full grip carries 14 to 61 % more (up to thin, nearly incompressible
/// covers).
constexpr double stick_over_slip = 1.61;

/// How much warmer than the durometer's room a drum may run [K] (common practice, no source).
constexpr double usual_warming = 20.0;
constexpr double kg_per_m2 = 1e-9;  // [t/mm^2]

/// Whether a burr of the part has a root that drag may bend.
bool can_bend(const cases::Part& part) {
  return std::any_of(part.features.begin(), part.features.end(), [](const cases::Feature& f) {
    return models::number_of(f.burr, "flow_stress").has_value();
  });
}

/// Collects what is uncertain about one station.
class StationVariations {
 public:
  StationVariations(std::vector<Variation>& list, const Setup& setup, std::size_t index)
      : list_(list),
        station_(setup.belt(index)),
        drum_(std::get<cases::BeltStation>(setup.scenario.stations[index]).drum),
        belt_(std::get<cases::BeltStation>(setup.scenario.stations[index]).belt),
        burrs_bend_(can_bend(setup.scenario.part)),
        index_(index) {}

  void add_cover();
  void add_options();
  void add_work();
  void add_belt();
  void add_removal();

 private:
  /// One number of the station between two ends; nothing where they are one.
  template <class Set>
  void number(const std::string& key, const std::string& meaning, const char* unit, double low,
              double high, Set set, std::optional<double> nominal = {}) {
    if (low == high) return;
    Variation variation{
        fmt::format("station[{}].{}", index_, key),
        meaning,
        unit,
        low,
        high,
        [=, index = index_](Setup& s, bool to_high) { set(s.belt(index), to_high ? high : low); },
        {}};
    if (nominal && *nominal == low) variation.nominal_end = false;
    if (nominal && *nominal == high) variation.nominal_end = true;
    list_.push_back(std::move(variation));
  }

  std::vector<Variation>& list_;
  const BeltSetup& station_;
  const cases::Drum& drum_;
  const cases::Belt& belt_;
  bool burrs_bend_;
  std::size_t index_;
};

void StationVariations::add_cover() {
  number(drum_.hardness ? "drum.hardness" : "drum.modulus", "modulus of the cover", "MPa",
         station_.modulus_low, station_.modulus_high,
         [](BeltSetup& s, double value) { s.cover.modulus = value; });
  number("drum.poisson", "how little the cover gives up volume", "-", station_.poisson_low,
         station_.poisson_high, [](BeltSetup& s, double value) { s.cover.poisson_ratio = value; });
}

void StationVariations::add_options() {
  const auto stiffen = [](BeltSetup& s, double value) { s.cover.modulus *= value; };
  if (!station_.options.curved)
    number("cover flat", "flat layer in place of the drum", "x line load", drum_over_flat, 1.0,
           stiffen, 1.0);
  if (!station_.options.gripped)
    number("belt slips", "belt that slides freely in place of one that grips", "x line load", 1.0,
           stick_over_slip, stiffen, 1.0);
  if (!station_.options.finite_strain) {
    number("cover linear", "small strain in place of finite strain", "x line load", 1.0,
           finite_strain_of(station_, estimated_interference(station_)), stiffen, 1.0);
  }
}

/// What a drum at work is that the durometer does not see.
void StationVariations::add_work() {
  if (std::holds_alternative<models::ConstantLoss>(station_.relaxation))
    number("drum.loss_factor", "how much the cover stiffens with speed", "-", station_.loss_low,
           station_.loss_high,
           [](BeltSetup& s, double value) { s.relaxation = models::ConstantLoss{value}; });
  if (station_.options.moving &&
      !std::holds_alternative<models::RateIndependent>(station_.relaxation))
    number("drum strain softening", "modulus at working strain over that at small strain", "x",
           models::strain_softening_low, 1.0,
           [](BeltSetup& s, double value) { s.strain_softening = value; });
  if (!station_.temperature_given)
    number(
        "drum.temperature", "warming of the cover since the drum was set", "K", 0.0, usual_warming,
        [](BeltSetup& s, double value) { set_temperature_rise(s, value); }, 0.0);
  if (!station_.compound && station_.temperature_rise != 0.0)
    number("drum softening", "share of its modulus that the cover loses per kelvin", "1/K",
           models::softening_per_kelvin_low, models::softening_per_kelvin_high,
           [](BeltSetup& s, double value) {
             s.softening_rate = value;
             set_temperature_rise(s, s.temperature_rise);
           });
  // Growth goes into interference; a line load set stays what it is.
  const bool by_depth = std::holds_alternative<cases::InterferenceSetting>(station_.setting);
  if (!by_depth) return;
  if (station_.temperature_rise != 0.0)
    number("drum.thermal_expansion", "how much the cover grows with temperature", "1/K",
           station_.expansion_low, station_.expansion_high,
           [](BeltSetup& s, double value) { s.thermal_expansion = value; });
  number(
      "frame_compliance", "how far frame and bed give", "mm2/N", station_.frame_low,
      station_.frame_high, [](BeltSetup& s, double value) { s.frame_compliance = value; },
      station_.frame_compliance);
}

void StationVariations::add_belt() {
  number("belt.bending_stiffness", "how stiff the belt bends", "N mm", station_.bending_low,
         station_.bending_high,
         [](BeltSetup& s, double value) { s.belt.bending_stiffness = value; });
  number("belt.grain_compliance", "how far grains give", "mm/MPa", station_.grain_low,
         station_.grain_high, [](BeltSetup& s, double value) { s.belt.grain_compliance = value; });
  if (burrs_bend_)
    number("belt.grain_spacing", "how far apart grains cut, felt by burrs that bend", "mm",
           station_.spacing_low, station_.spacing_high,
           [](BeltSetup& s, double value) { s.grain_spacing = value; });
  if (station_.options.moving)
    number("belt.mass", "how heavy the belt is, felt as tension lost", "kg/m2",
           station_.mass_low / kg_per_m2, station_.mass_high / kg_per_m2,
           [](BeltSetup& s, double value) { s.belt_mass = value * kg_per_m2; });
}

void StationVariations::add_removal() {
  number("belt.threshold_pressure", "pressure below which grains only rub", "MPa",
         station_.threshold_low, station_.threshold_high, [](BeltSetup& s, double value) {
           for (LayerLaw* layer : {&s.substrate, &s.coating, &s.top})
             std::visit([&](auto& law) { law.threshold = s.land_ratio * value; }, layer->law);
         });
  const double base = station_.substrate.coefficient;
  number("belt.removal_coefficient", "removal per pressure and path, all layers together", "1/MPa",
         station_.substrate.coefficient_low, station_.substrate.coefficient_high,
         [base](BeltSetup& s, double value) {
           scale_removal(s.substrate, value / base);
           scale_removal(s.coating, value / base);
           scale_removal(s.top, value / base);
         });
  for (const models::RemovalNumber& of_law : models::numbers_of(station_.substrate.law)) {
    const auto band = belt_.removal_bands.find(std::string(of_law.key));
    if (band == belt_.removal_bands.end()) continue;
    number(
        "belt." + band->first, std::string(of_law.meaning), of_law.is_pressure ? "MPa" : "-",
        band->second.low, band->second.high,
        [=](BeltSetup& s, double value) {
          for (LayerLaw* layer : {&s.substrate, &s.coating, &s.top})
            models::set_number(layer->law, of_law.key,
                               of_law.is_pressure ? s.land_ratio * value : value);
        },
        band->second.value);
  }
}

/// An amount that every drum and brush of the line feels as interference, plus or minus.
void add_interference(std::vector<Variation>& list, const char* key, const char* meaning,
                      double amount) {
  if (amount <= 0.0) return;
  list.push_back({key,
                  meaning,
                  "mm",
                  -amount,
                  amount,
                  [amount](Setup& s, bool to_high) {
                    for (auto& station : s.stations)
                      deepen(station, to_high ? amount : -amount);
                  },
                  {}});
}

/// Numbers of burrs that the library supplied: every burr at the same end of its own band at once,
/// as they come from one metal and one cut.
void add_burrs(std::vector<Variation>& list, const cases::Part& part) {
  struct Known {
    const char* key;
    const char* meaning;
    const char* unit;
    double scale;
  };
  constexpr auto known = std::to_array<Known>({
      {"flow_stress", "flow stress in the root of burrs", "MPa", 1.0},
      {"specific_energy", "energy to grind beads away", "J/mm3", 1000.0},
      {"bond_strength", "strength of the bond of beads", "MPa", 1.0},
  });
  for (const Known& number : known) {
    double low = std::numeric_limits<double>::infinity();
    double high = 0.0;
    for (const auto& feature : part.features) {
      const auto band = feature.burr_bands.find(number.key);
      if (band == feature.burr_bands.end()) continue;
      low = std::min(low, band->second.low);
      high = std::max(high, band->second.high);
    }
    if (low >= high) continue;
    list.push_back({fmt::format("burr.{}", number.key),
                    number.meaning,
                    number.unit,
                    low / number.scale,
                    high / number.scale,
                    [key = number.key](Setup& s, bool to_high) {
                      for (auto& feature : s.scenario.part.features) {
                        const auto band = feature.burr_bands.find(key);
                        if (band != feature.burr_bands.end())
                          models::set_number(feature.burr, key,
                                             to_high ? band->second.high : band->second.low);
                      }
                    },
                    {}});
  }
}

}  // namespace

std::vector<Variation> variations(const Setup& setup) {
  std::vector<Variation> list;
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    if (std::holds_alternative<BrushSetup>(setup.stations[i])) add_brush_variations(list, setup, i);
    if (!std::holds_alternative<BeltSetup>(setup.stations[i])) continue;
    StationVariations station(list, setup, i);
    station.add_cover();
    station.add_options();
    station.add_work();
    station.add_belt();
    station.add_removal();
  }
  add_interference(list, "part.thickness_tolerance", "thickness of the sheet, felt as interference",
                   setup.scenario.part.thickness_tolerance);
  add_interference(list, "part.bow", "bow that the hold-down leaves, felt as interference",
                   setup.scenario.part.bow);
  add_burrs(list, setup.scenario.part);
  add_heat_variations(list, setup);
  return list;
}

}  // namespace drumlin::sim
