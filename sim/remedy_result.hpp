#pragma once

#include <optional>
#include <string>
#include <vector>

/// What would have to change for limits to be met, and what each setting moves. Found in the fast
/// model; numbers are in the units named beside them.
namespace drumlin::sim {

/// A setting of the line, or something from before it, that may be turned.
struct RemedyKnob {
  std::string key;                  ///< of the case, such as "station[0].setting.interference"
  std::string name;                 ///< in words, with the station where it has one
  std::string unit;                 ///< of its numbers; "1" for pure numbers, "text" for words
  bool setting = true;              ///< false: from before the line, not a setting of it
  std::optional<double> now;        ///< as the case has it; no value for words
  std::string now_text;             ///< the same as shown, such as "4 m/min"
  std::optional<double> low, high;  ///< range that was looked at
  std::string low_by, high_by;      ///< what sets its ends
  double now_share = 0;    ///< where in its range the case's own value lies, by its scale [0..1]
  std::string not_sought;  ///< why it is not turned; empty: it is
};

/// One knob turned.
struct Turned {
  int knob = 0;              ///< index in the study's list
  std::optional<double> to;  ///< at the limit itself [the knob's unit]; no value for words
  /// The same rounded away from the case's own value to what can be set, and tried so.
  std::optional<double> setting;
  double share = 0;  ///< where in the knob's range that lies, by its scale [0..1]
  std::string text;  ///< that as shown, such as "2.7 m/min"
};

/// A quantity that a change moves besides the limits.
struct SideEffect {
  std::string name;  ///< such as "power"
  std::string unit;
  double before = 0;
  double after = 0;
};

/// What the line model says of a remedy.
struct LineCheck {
  std::optional<double> value, margin;  ///< of the limit, in its unit
  bool confirmed = false;               ///< whether the limit is met there
  std::string state;                    ///< of all limits then
  std::string decided_by;
};

/// A change after which a limit is met.
struct Remedy {
  std::vector<Turned> changes;       ///< one knob, or two
  double value = 0;                  ///< of the limit then, by the fast model, in its unit
  std::vector<std::string> failing;  ///< other limits that are not met then
  double largest_loss = 0;           ///< of another limit's margin, over that limit's size [-]
  std::string largest_loss_of;       ///< which; empty: none loses
  double relative_change = 0;  ///< of the knobs, added up [-]; a change of tool counts 1 a step
  std::vector<SideEffect> effects;
  std::optional<LineCheck> line;  ///< where the case's model is "line", for the first few
};

/// One way of one knob, looked along for one limit.
struct Looked {
  int knob = 0;
  int way = 0;  ///< +1: up, -1: down
  bool found = false;
  std::optional<double> to;  ///< the limit itself lies here, nearest to the case [the knob's unit]
  double share = 0;          ///< where in the knob's range that lies [0..1]
  std::string text;          ///< that, or how far was looked, as shown
  std::optional<double> margin;  ///< where looking ended without finding [unit of the limit]
  std::string ended_by;          ///< why looking ended there
};

/// Where a limit that is met as set is lost along a knob, the first one that way; read off the
/// places that were looked at, straight between them.
struct Break {
  int knob = 0;
  int way = 0;
  std::string limit;  ///< name of its item
  double share = 0;   ///< where in the knob's range [0..1]
  std::string text;   ///< the knob's value there, as shown
};

/// What was sought for one limit.
struct SoughtLimit {
  std::string name;   ///< of the verdict's item; "all limits" for all at once
  std::string limit;  ///< as the customer wrote it
  std::string unit;
  bool failed = true;  ///< false: met narrowly; then what was sought is where it is lost
  double value = 0;    ///< by the case's own model
  std::optional<double> fast_value;
  std::string not_sought;  ///< why nothing was sought; empty: it was
  std::vector<Looked> looked;
  std::vector<Remedy> remedies;  ///< least side effect first; upstream ones last
};

/// Two limits that pull opposite ways.
struct Conflict {
  std::string one;    ///< limit that is to be met
  std::string other;  ///< limit that is lost, or gets worse, by most of what meets the first
  int knobs = 0;      ///< so many
};

/// What one knob moves, per small step.
struct Sensitivity {
  int knob = 0;
  std::string quantity;  ///< a limit's item, or a main quantity
  std::string unit;
  std::string step;                  ///< such as "+1 %" or "one pass more"
  double change = 0;                 ///< of the quantity with that step
  std::optional<double> elasticity;  ///< d ln quantity / d ln knob [-], where both are positive
  bool smooth = true;  ///< false: half the step says something else by more than a tenth
};

struct RemedyStudy {
  std::string model = "fast";
  std::string rule;        ///< how remedies are ranked
  std::string forced;      ///< why nothing is proposed at all; empty: it is
  int evaluations = 0;     ///< of the fast model
  bool cut_short = false;  ///< whether the allowance of evaluations ended a search
  std::vector<RemedyKnob> knobs;
  std::vector<SoughtLimit> limits;  ///< "all limits" first where more than one is judged
  std::vector<Break> breaks;
  bool pairs_tried = false;
  std::vector<Remedy> pairs;      ///< two knobs with which all limits are met, least change first
  std::optional<Remedy> nearest;  ///< where neither one nor two do: how near two came
  double nearest_margin = 0;      ///< worst margin over its limit there [-]
  std::string nearest_limit;      ///< and whose it is
  std::optional<Conflict> conflict;
  std::vector<Sensitivity> sensitivities;
};

}  // namespace drumlin::sim
