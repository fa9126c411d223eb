#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/quantity.hpp"

/// What the line as a whole takes and gives: parts, power, hold, money.
namespace drumlin::sim {

/// One tool of the line over the width that parts cover.
struct StationEconomy {
  int station = 0;           ///< index
  std::string kind;          ///< "belt", "brush"
  std::string direction;     ///< "with-feed": pushes parts forward; "against-feed": holds them back
  double covered_width = 0;  ///< [mm] of parts under the tool while every lane is
  std::optional<double> belt_area;  ///< [mm^2], where length and width of the belt are given
  Quantity drag;                    ///< [N] on one part, along the feed
  Quantity cutting_power;           ///< [mW] drag of all lanes times speed
  Quantity rolling_power;           ///< [mW] that the cover turns into heat
  Quantity power;                   ///< [mW] both, while every lane is under the tool
  Quantity full_width_power;        ///< [mW] were the whole belt width covered
  /// [-] T1 / T2 that the drag asks of the belt's tension at speed.
  Quantity tension_ratio;
  Quantity grip_margin;      ///< [-] holding force over the tool's push
  Quantity turning_margin;   ///< [-] the same for a part half under the tool that turns
  Quantity smallest_length;  ///< [mm] along the feed that does not slip; absent: none holds
  Quantity holding_suction;  ///< [MPa] that would hold this part; absent where none is missing
};

/// Money per part for one cause.
struct CostItem {
  std::string cause;  ///< "time", "belts", "brushes", "power", "fluid", "rework"
  Quantity per_part;
  std::string how;  ///< in words, such as "120 EUR over 8000 parts"
};

/// What a change would save, all else equal.
struct Saving {
  std::string what;     ///< such as "a 20 % cheaper belt"
  double per_part = 0;  ///< money
};

struct CostPerPart {
  std::string currency;         ///< ISO 4217 code
  std::vector<CostItem> items;  ///< of what has its price, in fixed order
  Quantity sum;                 ///< money per part
  Quantity per_length;          ///< money per mm of part
  std::vector<Saving> savings;  ///< greatest first
};

struct LineEconomy {
  int lanes = 1;
  double throughput = 0;     ///< parts that leave the line [1/s]
  double part_speed = 0;     ///< length of parts that leaves the line [mm/s]
  double grip_friction = 0;  ///< f [-] of parts on the conveyor
  double bed_pressure = 0;   ///< [MPa] weight and suction
  double part_length = 0;    ///< [mm] along the feed, area over width under the tool
  Quantity power;            ///< [mW] of all tools while parts are under each
  Quantity mean_power;       ///< [mW] gaps between parts counted
  Quantity energy;           ///< [mJ] per part
  Quantity grip_margin_all;  ///< [-] were a part under all tools at once; absent with one tool
  std::vector<StationEconomy> stations;
  std::optional<CostPerPart> cost;
  std::vector<std::string> missing;  ///< what a cost needs that the case does not give
  std::vector<std::string> notes;    ///< what is assumed
  std::vector<std::string> forced;   ///< ratings that the case overrides
};

/// The line with one cooling.
struct CoolingColumn {
  std::string cooling;                    ///< "dry", "wet"
  double friction = 0;                    ///< mu [-] of the first belt on the part; 0: no belt
  double grip_friction = 0;               ///< f [-] of parts on the conveyor
  std::optional<double> removal;          ///< [mm] of the face
  std::optional<double> coating_left;     ///< [mm] on the face
  std::optional<double> burr_height;      ///< [mm] highest burr left
  std::optional<double> roughness;        ///< Ra [mm] of the face across the lay
  std::optional<double> temperature;      ///< [K] highest of the face
  std::optional<double> belt_life;        ///< [s] of running, of the belt that is done first
  std::optional<double> power;            ///< [mW] of all tools
  std::optional<double> grip_margin;      ///< [-] least of the line
  std::optional<double> smallest_length;  ///< [mm] longest of the line's; absent: none holds
  std::optional<double> cost;             ///< money per part
  std::optional<bool> accepted;           ///< whether the limits that the model judges hold
};

/// The same case dry and wet, by one model.
struct WetDryStudy {
  std::string model;                   ///< "fast"
  std::string currency;                ///< of the costs; empty without
  std::vector<CoolingColumn> columns;  ///< dry first
  std::vector<std::string> notes;
};

}  // namespace drumlin::sim
