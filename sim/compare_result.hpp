#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/quantity.hpp"

/// What sets cases apart, as numbers and as sentences that follow from them.
namespace drumlin::sim {

/// What a comparison looks at in one case: its first belt station, its face, its busiest burr.
struct CaseFacts {
  std::string letter;  ///< "A", "B", ... by which sentences name it
  std::string title;
  std::string cover;              ///< "20 Shore A"; empty without a drum
  std::optional<double> modulus;  ///< [MPa] of the cover, as the durometer reads it
  bool set_by_load = false;
  std::optional<double> interference;       ///< [mm]
  std::optional<double> line_load;          ///< [N/mm] static
  std::optional<double> working_line_load;  ///< [N/mm]
  std::optional<double> slope;              ///< [N/mm^2] of the static line load with interference
  std::optional<double> speed_ratio;        ///< belt speed over the critical one [-]
  double belt_speed = 0;                    ///< [mm/s]
  double feed = 0;                          ///< [mm/s]
  int passes = 1;                           ///< through the line
  double coefficient = 0;                   ///< K of the face's layer [1/MPa]
  /// Whether the face loses in proportion to the line load: Preston's law, no threshold.
  bool proportional = false;
  int stations = 1;
  std::optional<double> face_pressure;   ///< [MPa] highest, static, on the plain face
  Quantity removal;                      ///< [mm] of the face
  Quantity coating_left;                 ///< [mm] on the face
  std::optional<double> burr_pressure;   ///< [MPa] highest at an edge with a burr
  std::string burr_name;                 ///< of that edge
  Quantity edge_drop;                    ///< [mm] at that edge
  std::optional<double> removal_per_mm;  ///< [mm/mm] answer of the face to 1 mm of interference
  double tolerance = 0;                  ///< [mm] thickness tolerance, plus and minus
  std::string state;                     ///< "accepted", "not accepted", ...
  std::string decided_by;                ///< limit that decides

  /// "A, 20 Shore A": heading of a column.
  [[nodiscard]] std::string short_name() const {
    return cover.empty() ? letter : letter + ", " + cover;
  }
};

struct Comparison {
  std::vector<CaseFacts> cases;
  std::vector<std::string> held;  ///< what is the same in all of them, with its value
  /// What the difference is and why, each sentence with its numbers.
  std::vector<std::string> why;
  /// Whether "the softer cover spares the face" holds for these cases, in a sentence; empty where
  /// there are no two covers to compare.
  std::string usual_story;
};

}  // namespace drumlin::sim
