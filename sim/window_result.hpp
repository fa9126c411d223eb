#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "sim/result.hpp"
#include "sim/statistics/proportion.hpp"
#include "sim/window/adaptive_map.hpp"

/// What a process window gives: a map over two settings of where the limits are kept, which fails
/// first where they are not, and how far from the border one may stand.
namespace drumlin::sim {

/// Kinds of a point: a limit that fails is 1 + its number.
inline constexpr int accepted_kind = 0;
inline constexpr int not_known_kind = -1;     ///< a limit is on something the model does not give
inline constexpr int not_computed_kind = -2;  ///< its values make no case, or numbers gave out

/// Limits that fail by the same to so much of themselves fail together: the first one is named.
/// Much less than a map can show or a sample can tell.
inline constexpr double same_margin = 0.005;

/// Which limit fails by most of itself, as a kind; 0 where none is below zero.
/// @param margins  over their limits; NaN where not known.
[[nodiscard]] inline int failing_kind(std::span<const double> margins) noexcept {
  double worst = 0;
  for (const double margin : margins)
    if (margin < worst) worst = margin;
  if (worst >= 0) return accepted_kind;
  for (std::size_t k = 0; k < margins.size(); ++k)
    if (margins[k] < 0 && margins[k] <= worst + same_margin) return static_cast<int>(k) + 1;
  return accepted_kind;
}

/// A place on the map in shares of both axes' ranges, each 0 to 1 inside it.
using MapPlace = std::array<double, 2>;

struct WindowAxis {
  std::string key;      ///< path of the setting in the case
  std::string name;     ///< in words, such as "interference"
  std::string meaning;  ///< one sentence; may be empty
  std::string unit;     ///< as the study writes it; empty for pure numbers
  double from = 0;      ///< [unit]
  double to = 1;        ///< [unit]

  [[nodiscard]] double at(double share) const noexcept { return from + share * (to - from); }
};

struct WindowLimit {
  std::string name;   ///< of the verdict's item, such as "face coating_left"
  std::string limit;  ///< as the customer wrote it
  double share = 0;   ///< of the map in which it fails first [-]
  bool leaps =
      false;  ///< its margin leaps at the border: the border is known to a finest cell only
};

/// One evaluated point of the map.
struct WindowPoint {
  MapPoint at;
  int kind = 0;
  /// Distance of each limit's quantity to its limit over the limit, in the order of the limits;
  /// negative: not met; NaN: the model does not give it here.
  std::vector<double> margins;
  std::string reason;  ///< why nothing was computed; empty otherwise
};

/// A border or a contour.
struct WindowLine {
  std::vector<MapPlace> places;  ///< the first one again at the end of a closed line
  std::vector<int> kinds;        ///< of a border: what lies beyond it at each place
};

/// How far the border is from a point along an axis.
struct BorderDistance {
  std::optional<double> share;  ///< of the axis' range; none: no border before the map's end
  int beyond = 0;               ///< kind behind the border
};
/// Towards lower and higher values of the first axis, then of the second.
using BorderDistances = std::array<std::array<BorderDistance, 2>, 2>;

/// The case as its file has it.
struct OwnPoint {
  std::array<std::optional<double>, 2> values;  ///< [units of the axes]
  std::optional<MapPlace> place;                ///< none: off the map, or a value is not given
  Verdict verdict;                              ///< with the bands of a single run
  int kind = 0;
  std::optional<BorderDistances> distances;
};

/// The widest box, as wide in shares of both ranges, that is accepted all over.
struct RobustBox {
  MapPlace middle{};
  double reach = 0;  ///< from the middle to each side, share of the ranges
  BorderDistances distances;
  /// Limit or rim of the map that keeps the box from growing, at each side; no value: neither.
  std::array<std::array<std::optional<int>, 2>, 2> held_by;
  bool at_rim = false;                 ///< the map's end holds it on one side at least
  std::optional<double> least_margin;  ///< at the middle: worst margin over its limit [-]
  int least_limit = 0;                 ///< whose, as a kind
  int shrunk = 0;  ///< times that the box was made smaller because a check on its rim failed
};
inline constexpr int rim_kind = -3;  ///< the map ends

/// Share of all draws that keep all limits at a point.
struct WindowNode {
  MapPoint at;  ///< of the probability's own finest grid
  Proportion met;
  std::uint64_t unknown = 0;  ///< draws that were not known or could not be computed: not met
};

struct ProbabilityContour {
  double level = 0;
  std::vector<WindowLine> lines;
};

struct WindowScatter {
  std::string key;
  std::string name;  ///< in words
  std::string meaning;
  std::string distribution;  ///< in words, with units
};

struct WindowProbability {
  std::size_t draws = 0;
  std::size_t cells = 0;  ///< of its finest grid, each way
  std::vector<WindowScatter> scatter;
  std::vector<MapCell> leaves;
  std::vector<WindowNode> nodes;
  std::vector<ProbabilityContour> contours;
  WindowNode best;  ///< highest; among equals the one deepest among them
  MapPlace best_place{};
  std::optional<Proportion> at_robust;
  std::optional<Proportion> at_own;
  bool stopped_early = false;
};

struct NotComputed {
  std::string reason;
  std::size_t points = 0;
  MapPlace example{};
};

struct WindowEvaluations {
  std::size_t map = 0;
  std::size_t checks = 0;       ///< of the box and of the case's own point
  std::size_t probability = 0;  ///< nodes times draws, and single points
};

struct Window {
  std::string title;
  std::string case_title;
  std::string model;
  std::vector<std::string> options;
  bool calibrated = false;
  std::array<WindowAxis, 2> axes;
  std::vector<WindowLimit> limits;
  double accepted_share = 0;      ///< of the map [-]
  double not_known_share = 0;     ///< [-]
  double not_computed_share = 0;  ///< [-]
  AdaptiveMap map;
  std::vector<WindowPoint> points;  ///< in the map's order
  std::vector<WindowLine> border;   ///< of what is accepted
  OwnPoint own;
  std::optional<RobustBox> robust;
  std::optional<WindowProbability> probability;
  std::vector<NotComputed> not_computed;
  WindowEvaluations evaluations;
  std::vector<std::string> words;  ///< what the map says, in sentences with numbers
  std::vector<std::string> notes;  ///< how sure, what is left out
  std::vector<std::string> cautions;
  std::vector<std::string> pressing_cautions;
  std::vector<std::string> samples;
  std::vector<std::string> unused_keys;
  std::string study_file;
  std::string study_text;
  std::string study_sha256;
  int seed = 0;
  Provenance provenance;

  /// "accepted", "not known", ..., or the limit's name.
  [[nodiscard]] std::string kind_name(int kind) const {
    if (kind == accepted_kind) return "accepted";
    if (kind == not_known_kind) return "not known";
    if (kind == not_computed_kind) return "cannot be computed";
    if (kind == rim_kind) return "end of the map";
    return limits[static_cast<std::size_t>(kind - 1)].name;
  }
};

}  // namespace drumlin::sim
