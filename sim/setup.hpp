#pragma once

#include <string>
#include <vector>

#include "cases/case.hpp"
#include "models/belt/tensioned_plate.hpp"
#include "models/elastomer/bonded_layer.hpp"
#include "models/removal/removal_laws.hpp"

namespace drumlin::sim {

/// What the abrasive does to one material.
struct LayerLaw {
  std::string material;
  models::AnyRemovalLaw law;
  double coefficient = 0;      ///< K [1/MPa], for messages and bands
  double coefficient_low = 0;  ///< band of K
  double coefficient_high = 0;
  std::string origin;  ///< "case" or "mu/u from the library"
};

/// A belt station as the solvers take it: laws and plain numbers.
struct BeltSetup {
  models::BondedLayer cover{};
  models::TensionedPlate belt{};
  double radius = 0;   ///< R [mm]
  double density = 0;  ///< [t/mm^3]
  cases::Setting setting;
  double belt_speed = 0;     ///< v_b [mm/s]
  double sliding_speed = 0;  ///< v [mm/s], belt against part
  double feed = 0;           ///< v_f [mm/s]
  double friction = 0;       ///< mu [-]
  LayerLaw substrate;
  LayerLaw coating;        ///< as substrate where the part has no coating
  double modulus_low = 0;  ///< [MPa] band of E
  double modulus_high = 0;
  double poisson_low = 0;  ///< [-] band of nu
  double poisson_high = 0;
  double bending_low = 0;  ///< [N mm] band of D
  double bending_high = 0;
  double threshold_low = 0;  ///< [MPa] band of p_th
  double threshold_high = 0;
  double grain_low = 0;  ///< [mm/MPa] band of c_g
  double grain_high = 0;
  double interference_offset = 0;  ///< [mm] added to what the setting gives: thickness, bow
  double speed_ratio = 0;          ///< v_b / c_R [-]
  std::string description;
  std::vector<std::string> warnings;  ///< where a number had to be changed to be solvable
};

/// The case joined with the laws: all that a run needs.
struct Setup {
  cases::Case scenario;
  std::vector<BeltSetup> stations;
};

/// Joins a checked case with the laws: the one place where both meet.
[[nodiscard]] Setup set_up(cases::Case scenario);

}  // namespace drumlin::sim
