#include "sim/compare.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include <fmt/format.h>

namespace drumlin::sim {
namespace {

/// Differences below this are the arithmetic's own: what "equal" means in every sentence.
constexpr double equal_within = 0.02;

using Field = std::optional<double> (*)(const CaseFacts&);

bool equal(double a, double b, double within = equal_within) {
  return std::abs(a - b) <= within * std::max(std::abs(a), std::abs(b));
}

std::string um(double mm) {
  const double value = 1e3 * mm;
  return fmt::format("{:.{}f} µm", value, std::abs(value) < 9.95 ? 1 : 0);
}

std::string times(double ratio) {
  return fmt::format("{:.{}f} times", ratio, ratio < 9.95 ? 1 : 0);
}

std::string named(const CaseFacts& facts) {
  return facts.cover.empty() ? facts.letter : fmt::format("{} ({})", facts.letter, facts.cover);
}

/// "interference 0.3 mm" where all cases agree on it.
void hold(std::vector<std::string>& held, const std::vector<CaseFacts>& cases, const char* name,
          const char* unit, double per_unit, Field field, double within) {
  const auto first = field(cases.front());
  if (!first || *first == 0) return;
  const bool same = std::all_of(cases.begin(), cases.end(), [&](const CaseFacts& facts) {
    const auto here = field(facts);
    return here && equal(*here, *first, within);
  });
  if (same) held.push_back(fmt::format("{} {:.3g} {}", name, *first / per_unit, unit));
}

std::vector<std::string> held_equal(const std::vector<CaseFacts>& cases) {
  constexpr double as_set = 1e-6;     // what a case states
  constexpr double as_found = 0.005;  // what a solver finds
  std::vector<std::string> held;
  hold(
      held, cases, "interference", "mm", 1, [](const CaseFacts& f) { return f.interference; },
      as_found);
  hold(
      held, cases, "static line load", "N/mm", 1, [](const CaseFacts& f) { return f.line_load; },
      as_found);
  hold(
      held, cases, "working line load", "N/mm", 1,
      [](const CaseFacts& f) { return f.working_line_load; }, equal_within);
  hold(
      held, cases, "belt speed", "m/s", 1e3,
      [](const CaseFacts& f) { return std::optional<double>(f.belt_speed); }, as_set);
  hold(
      held, cases, "conveyor speed", "m/min", 1e3 / 60,
      [](const CaseFacts& f) { return std::optional<double>(f.feed); }, as_set);
  return held;
}

/// What two cases differ in, told from the softer cover's side.
class Pair {
 public:
  Pair(const CaseFacts& one, const CaseFacts& other)
      : soft_(softer_first(one, other) ? one : other),
        hard_(softer_first(one, other) ? other : one) {}

  void tell(std::vector<std::string>& why) const {
    for (const std::string& sentence :
         {loads(), face(), slope(), burr(), edge(), waves(), verdict()})
      if (!sentence.empty()) why.push_back(sentence);
  }
  [[nodiscard]] std::string usual_story() const;
  [[nodiscard]] bool two_covers() const {
    return soft_.modulus && hard_.modulus && !equal(*soft_.modulus, *hard_.modulus, 1e-6);
  }

 private:
  [[nodiscard]] static bool softer_first(const CaseFacts& one, const CaseFacts& other) {
    return one.modulus.value_or(0) <= other.modulus.value_or(0);
  }
  [[nodiscard]] std::string loads() const;
  [[nodiscard]] std::string face() const;
  [[nodiscard]] std::string slope() const;
  [[nodiscard]] std::string burr() const;
  [[nodiscard]] std::string edge() const;
  [[nodiscard]] std::string waves() const;
  [[nodiscard]] std::string verdict() const;
  [[nodiscard]] bool bands_part() const;
  [[nodiscard]] bool one_station() const { return soft_.stations == 1 && hard_.stations == 1; }
  /// Removal per working line load that the law of proportion foresees, the harder over the softer.
  [[nodiscard]] double other_causes() const {
    const auto cut = [](const CaseFacts& facts) {
      return facts.coefficient * facts.belt_speed / facts.feed * facts.passes;
    };
    return cut(hard_) / cut(soft_);
  }

  const CaseFacts& soft_;
  const CaseFacts& hard_;
};

std::string Pair::loads() const {
  if (!soft_.line_load || !hard_.line_load || !(*soft_.line_load > 0)) return {};
  const double ratio = *hard_.line_load / *soft_.line_load;
  const bool same_depth =
      soft_.interference && hard_.interference && equal(*soft_.interference, *hard_.interference);
  if (equal(ratio, 1))
    return fmt::format("{} and {} press with the same static line load, {:.3g} N/mm{}.",
                       named(soft_), named(hard_), *soft_.line_load,
                       soft_.interference && hard_.interference && !same_depth
                           ? fmt::format(", for which the drums are set {:.3g} and {:.3g} mm deep",
                                         *soft_.interference, *hard_.interference)
                           : std::string());
  return fmt::format(
      "{}{} presses with {:.3g} N/mm, {} with {:.3g} N/mm: {}.",
      same_depth ? fmt::format("Both drums are set {:.3g} mm into the part. ", *soft_.interference)
                 : std::string(),
      named(soft_), *soft_.line_load, named(hard_), *hard_.line_load,
      ratio > 1 ? times(ratio) + " as much" : fmt::format("{:.2g} of it", ratio));
}

/// Whether the bands leave no doubt about which face loses more.
bool Pair::bands_part() const {
  const auto& a = *soft_.removal;
  const auto& b = *hard_.removal;
  if (!a.low || !a.high || !b.low || !b.high) return true;
  return std::max(*a.low, *a.high) < std::min(*b.low, *b.high) ||
         std::max(*b.low, *b.high) < std::min(*a.low, *a.high);
}

std::string Pair::face() const {
  if (!soft_.removal || !hard_.removal) return {};
  const double a = soft_.removal->value;
  const double b = hard_.removal->value;
  std::string text =
      fmt::format("The face loses {} in {} and {} in {}", um(a), named(soft_), um(b), named(hard_));
  if (soft_.working_line_load && hard_.working_line_load && one_station() && a > 0 &&
      *soft_.working_line_load > 0) {
    const double load = *hard_.working_line_load / *soft_.working_line_load;
    const double expected = load * other_causes();
    if (soft_.proportional && hard_.proportional && equal(b / a, expected)) {
      if (equal(load, 1) && equal(b / a, 1))
        text +=
            ": the same, because under this law the face pays for the working line load alone, "
            "and that is the same; hardness cancels";
      else if (equal(other_causes(), 1))
        text += fmt::format(": {} the working line load, {} the loss, whatever the cover",
                            times(load), times(b / a));
      else
        text += fmt::format(
            ": {} the working line load, and {} the coefficient and belt path, {} the loss",
            times(load), times(other_causes()), times(b / a));
    } else if (!soft_.proportional || !hard_.proportional) {
      text += fmt::format(
          "; the removal law here is not in proportion to pressure (a threshold or a power), so {} "
          "the working line load{} makes {} the loss, and hardness does not cancel",
          times(load),
          equal(other_causes(), 1)
              ? std::string()
              : fmt::format(" with {} the coefficient and belt path", times(other_causes())),
          times(b / a));
    }
  }
  if (!bands_part() && !equal(a, b))
    text +=
        equal(soft_.coefficient, hard_.coefficient, 1e-6)
            ? "; the bands overlap, mostly by what both share (the belt's coefficient), so which "
              "loses more is surer than how much"
            : "; the bands overlap, so a sample has to decide";
  return text + ".";
}

std::string Pair::slope() const {
  if (!soft_.slope || !hard_.slope || !(*soft_.slope > 0)) return {};
  const double ratio = *hard_.slope / *soft_.slope;
  std::string text =
      fmt::format("0.1 mm more sheet adds {:.2g} N/mm in {} and {:.2g} N/mm in {}",
                  0.1 * *soft_.slope, named(soft_), 0.1 * *hard_.slope, named(hard_));
  if (!equal(ratio, 1)) text += fmt::format(", {}", times(ratio));
  if (soft_.removal_per_mm && hard_.removal_per_mm && soft_.tolerance > 0 && hard_.tolerance > 0)
    text += fmt::format("; the thickness tolerance alone moves the loss of the face by ±{} and ±{}",
                        um(soft_.tolerance * *soft_.removal_per_mm),
                        um(hard_.tolerance * *hard_.removal_per_mm));
  return text + ".";
}

std::string Pair::burr() const {
  if (!soft_.burr_pressure || !hard_.burr_pressure || !soft_.face_pressure || !hard_.face_pressure)
    return {};
  if (!(*soft_.face_pressure > 0) || !(*hard_.face_pressure > 0)) return {};
  const double a = *soft_.burr_pressure / *soft_.face_pressure;
  const double b = *hard_.burr_pressure / *hard_.face_pressure;
  std::string text = fmt::format(
      "The burr carries {:.2g} MPa in {} and {:.2g} MPa in {}: {} and {} the plain face's highest "
      "static pressure",
      *soft_.burr_pressure, named(soft_), *hard_.burr_pressure, named(hard_), times(a), times(b));
  if (!equal(a, b, 0.1))
    text += fmt::format("; {} favours the burr more", (a > b ? soft_ : hard_).letter);
  return text + ".";
}

std::string Pair::edge() const {
  if (!soft_.edge_drop || !hard_.edge_drop || soft_.burr_name != hard_.burr_name) return {};
  const double a = soft_.edge_drop->value;
  const double b = hard_.edge_drop->value;
  if (equal(a, b, 0.05))
    return fmt::format("The edge at {} drops by {} in both.", soft_.burr_name, um(a));
  return fmt::format("The edge at {} drops by {} in {} and {} in {}: {} rounds it more.",
                     soft_.burr_name, um(a), named(soft_), um(b), named(hard_),
                     (a > b ? soft_ : hard_).letter);
}

std::string Pair::waves() const {
  constexpr double near = 0.7;
  for (const CaseFacts* facts : {&soft_, &hard_})
    if (facts->speed_ratio && *facts->speed_ratio > near)
      return fmt::format(
          "In {} the belt runs at {:.2f} of the speed at which waves in the cover keep up with the "
          "nip (theory, no measured onset): near it no cover is soft.",
          named(*facts), *facts->speed_ratio);
  return {};
}

std::string Pair::verdict() const {
  if (soft_.state == hard_.state) return {};
  const auto part = [](const CaseFacts& facts) {
    return fmt::format("{} is {}{}", facts.letter, facts.state,
                       facts.decided_by.empty() ? "" : ", limited by " + facts.decided_by);
  };
  return fmt::format("By the limits of the cases {}; {}.", part(soft_), part(hard_));
}

std::string Pair::usual_story() const {
  if (!two_covers() || !soft_.removal || !hard_.removal) return {};
  const double a = soft_.removal->value;
  const double b = hard_.removal->value;
  const bool steadier = soft_.slope && hard_.slope && *soft_.slope < *hard_.slope / 1.1;
  const std::string steadiness =
      steadier ? fmt::format(
                     "what it spares is the scatter: its load answers {} less to 0.1 mm of "
                     "thickness, bow or wear",
                     times(*hard_.slope / *soft_.slope))
               : std::string("nor is its load steadier here");
  if (equal(a, b))
    return fmt::format(
        "The usual story, that the softer cover spares the face, does not hold as it is told: at "
        "this setting both take the same. {}{}.",
        static_cast<char>(std::toupper(steadiness.front())), steadiness.substr(1));
  if (a < b) {
    const bool by_load = soft_.line_load && hard_.line_load && *soft_.line_load < *hard_.line_load;
    const bool by_belt = one_station() && other_causes() > 1 + equal_within;
    return fmt::format(
        "The usual story, that the softer cover spares the face, holds here: {} against {}{}{}.",
        um(a), um(b),
        by_load ? ", because at this setting it presses with less load; at one line load it would "
                  "not follow from the cover alone"
                : "",
        by_belt ? fmt::format("; but not for the cover's sake only: {} has {} the coefficient and "
                              "belt path",
                              hard_.letter, times(other_causes()))
                : "");
  }
  const bool more_load = soft_.working_line_load && hard_.working_line_load &&
                         *soft_.working_line_load > *hard_.working_line_load * (1 + equal_within);
  return fmt::format(
      "The usual story, that the softer cover spares the face, does not hold here: it takes {} "
      "against {}{}.",
      um(a), um(b),
      more_load        ? ", because it is set to press harder"
      : !one_station() ? "; more than one station had a hand in it"
      : other_causes() < 1 - equal_within
          ? ", because its belt cuts more per pressure or runs longer over each place"
          : "; the removal law, not the load, makes the difference");
}

}  // namespace

Comparison compare(std::vector<CaseFacts> cases) {
  Comparison comparison;
  comparison.held = held_equal(cases);
  const CaseFacts& first = cases.front();
  for (std::size_t i = 1; i < cases.size(); ++i)
    Pair(first, cases[i]).tell(comparison.why);
  // Of more than two the story is told of the softest and the hardest.
  const auto [softest, hardest] =
      std::minmax_element(cases.begin(), cases.end(), [](const CaseFacts& a, const CaseFacts& b) {
        return a.modulus.value_or(0) < b.modulus.value_or(0);
      });
  comparison.usual_story = Pair(*softest, *hardest).usual_story();
  comparison.cases = std::move(cases);
  return comparison;
}

}  // namespace drumlin::sim
