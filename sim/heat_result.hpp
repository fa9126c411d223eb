#pragma once

#include <string>
#include <vector>

#include "sim/quantity.hpp"

namespace drumlin::sim {

/// Heat at one burr while a belt presses on it.
struct EdgeHeat {
  std::string name;       ///< of the FeatureResult
  Quantity burr;          ///< [K] temperature of its tip
  Quantity beside;        ///< [K] of the face at its inner foot, where the coating begins
  Quantity contact_time;  ///< [s] for which it took up heat
  bool melts = false;     ///< it would be hotter than its metal's melting point, and is held there
};

/// Where the power of a station goes and how warm the sheet gets. Powers are per width of drum.
struct StationHeat {
  Quantity power_in;            ///< [mW/mm]
  Quantity share_to_part;       ///< [-]; the three shares add to 1
  Quantity share_to_chips;      ///< [-]
  Quantity share_to_rest;       ///< [-] belt or brush, air, fluid
  Quantity into_part;           ///< [mW/mm]
  Quantity into_chips;          ///< [mW/mm]
  Quantity into_rest;           ///< [mW/mm]
  Quantity arrival;             ///< [K] mean temperature of the sheet as it comes, last pass
  Quantity flash_rise;          ///< [K] of the face's hottest place over that
  Quantity mean_rise;           ///< [K] of the sheet's mean
  Quantity leaving;             ///< [K] mean temperature of the sheet as it goes
  Quantity contact_time;        ///< [s] under the tool
  std::vector<EdgeHeat> edges;  ///< every edge of the face with burrs, in the result's order
};

}  // namespace drumlin::sim
