#pragma once

#include <optional>
#include <string>
#include <vector>

#include "models/elastomer/relaxation.hpp"

namespace drumlin::cases {

/// A value from the material library with its band and where it comes from.
struct Sourced {
  double value = 0;
  double low = 0;      ///< lower end of the band, <= value
  double high = 0;     ///< upper end of the band, >= value
  std::string source;  ///< standard, author and year, or "common practice, no source"

  [[nodiscard]] bool operator==(const Sourced&) const = default;
};

/// Metal of the part, or a layer on it.
struct Material {
  std::string name;         ///< as the case file calls it
  std::string description;  ///< one line
  std::string family;       ///< "steel", "stainless", "aluminium", "zinc", "oxide", "polymer"
  std::string file;         ///< the data file it was read from
  Sourced density;          ///< [t/mm^3]
  Sourced specific_energy;  ///< u [MPa = mJ/mm^3] for a sharp belt
  std::optional<Sourced> yield_stress;  ///< [MPa]; absent for layers
  /// [MPa] of the bond to a cut edge, in shear and in peel; only of dross and slag.
  std::optional<Sourced> bond_strength;
  std::optional<Sourced> roughness;  ///< Ra [mm] of its face as delivered
  /// Share of a belt's bite that is lost once its gaps are clogged with this metal [-]; absent:
  /// it does not load belts.
  std::optional<Sourced> clogging;
  /// How it takes up heat; where its file is silent, as usual in its family, or not known.
  std::optional<Sourced> conductivity;   ///< k [mW/(mm K)]
  std::optional<Sourced> specific_heat;  ///< c [mJ/(t K)]
  std::optional<Sourced> melting_point;  ///< [K]; of an alloy where it begins to melt

  [[nodiscard]] bool operator==(const Material&) const = default;
};

/// Abrasive grain: what ties removal to force.
struct Abrasive {
  std::string name;
  Sourced friction;            ///< mu [-] dry, tangential over normal force
  Sourced friction_wet;        ///< mu [-] wet
  Sourced threshold_pressure;  ///< p_th [MPa]
  /// G [-], metal removed over abrasive worn in the life of a belt.
  Sourced grinding_ratio{20, 10, 200, "10 to 200 for belts; common practice, no source"};

  [[nodiscard]] bool operator==(const Abrasive&) const = default;
};

/// How belts wear of which the case says no more than what they are made of.
struct BeltWearDefaults {
  Sourced worn_share;  ///< removal coefficient at the end of life over the fresh one [-]
  Sourced run_in;      ///< share of life in which the fast first fall decays by e [-]
  Sourced wet_life;    ///< life wet over life dry [-]

  [[nodiscard]] bool operator==(const BeltWearDefaults&) const = default;
};

/// Cloth, paper or film that carries the grain.
struct Backing {
  std::string name;
  Sourced bending_stiffness;  ///< D [N mm]
  Sourced mass;               ///< m' [t/mm^2] of the whole belt
  /// [mm] highest bead of dross or slag that such a belt takes without tearing; absent: not known.
  std::optional<Sourced> bead_height;
  bool wet = true;  ///< whether such a belt may run wet

  [[nodiscard]] bool operator==(const Backing&) const = default;
};

/// How far a relaxation is shifted in time at a temperature.
struct ShiftPoint {
  double temperature = 0;  ///< [K]
  double log10_shift = 0;  ///< log10 a_T [-]; times are multiplied by a_T

  [[nodiscard]] bool operator==(const ShiftPoint&) const = default;
};

/// Compound of a drum cover of which the relaxation was measured.
struct CoverMaterial {
  std::string name;
  std::string description;           ///< one line
  std::string source;                ///< where the numbers come from
  std::string caveats;               ///< what not to read from them
  double reference_temperature = 0;  ///< [K] of the series
  models::PronySeries relaxation;    ///< in shear; only its shape counts
  std::vector<ShiftPoint> shifts;    ///< by rising temperature
  double slowest = 0;                ///< [Hz] lowest frequency that the series stands for
  double fastest = 0;                ///< [Hz] highest one
  Sourced poisson;                   ///< nu [-]
  Sourced density;                   ///< rho [t/mm^3]

  [[nodiscard]] bool operator==(const CoverMaterial&) const = default;
};

/// Grain size, named in a grading system (P-scale or US scale).
struct Grit {
  std::string designation;   ///< "P80", "US 80"
  double mean_diameter = 0;  ///< [mm]
  Sourced grain_compliance;  ///< c_g [mm/MPa]
  Sourced grain_spacing;     ///< [mm] between grains that cut
  Sourced bead_height;       ///< [mm] highest bead that grains of this size grind away

  [[nodiscard]] bool operator==(const Grit&) const = default;
};

}  // namespace drumlin::cases
