#include "sim/app/remedy_text.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

namespace drumlin::app {
namespace {

constexpr std::size_t most_points = 6;

class Points {
 public:
  explicit Points(const sim::RemedyStudy& study) : study_(study) {}

  std::vector<std::string> all();

 private:
  void of_failed(const sim::SoughtLimit& sought);
  void of_narrow();
  void of_pairs();
  [[nodiscard]] std::string changes(const sim::Remedy& remedy) const;
  [[nodiscard]] std::string line_says(const sim::Remedy& remedy, const std::string& limit) const;

  [[nodiscard]] std::string others(const sim::SoughtLimit& sought) const;
  [[nodiscard]] const sim::RemedyKnob& knob(int index) const {
    return study_.knobs[static_cast<std::size_t>(index)];
  }

  const sim::RemedyStudy& study_;
  std::vector<std::string> list_;
};

std::string Points::changes(const sim::Remedy& remedy) const {
  std::string text;
  for (const sim::Turned& turned : remedy.changes)
    text += fmt::format("{}{} {} -> {}", text.empty() ? "" : " and ", knob(turned.knob).name,
                        knob(turned.knob).now_text, turned.text);
  return text;
}

/// @param limit  name of the one that the remedy is for.
std::string Points::line_says(const sim::Remedy& remedy, const std::string& limit) const {
  if (!remedy.line) return "";
  if (remedy.line->confirmed) return "; line model: met too";
  std::string text = "; line model: not confirmed";
  const std::string& misses = limit == "all limits" ? remedy.line->decided_by : limit;
  const auto sought = std::find_if(study_.limits.begin(), study_.limits.end(),
                                   [&](const auto& s) { return s.name == misses; });
  if (sought != study_.limits.end() && remedy.line->margin && *remedy.line->margin < 0)
    return text +
           fmt::format(", {} short by {:.2g} {}", misses, -*remedy.line->margin, sought->unit);
  return misses.empty() ? text : text + ", misses " + misses;
}

/// The knobs after the first, each with where it goes.
std::string Points::others(const sim::SoughtLimit& sought) const {
  std::string text;
  for (std::size_t i = 1; i < std::min<std::size_t>(sought.remedies.size(), 3); ++i) {
    const sim::Remedy& remedy = sought.remedies[i];
    text += fmt::format(
        "{}{}{}", text.empty() ? "; or " : ", ", changes(remedy),
        remedy.failing.empty() ? "" : fmt::format(" ({} then not met)", remedy.failing.front()));
  }
  return text;
}

void Points::of_failed(const sim::SoughtLimit& sought) {
  const std::string to_meet = sought.name == "all limits"
                                  ? std::string("to meet all limits: ")
                                  : fmt::format("to meet {} {}: ", sought.name, sought.limit);
  if (!sought.not_sought.empty()) {
    list_.push_back(to_meet + sought.not_sought);
    return;
  }
  if (sought.remedies.empty()) {
    list_.push_back(to_meet + "no knob does it alone, to the ends of the ranges looked at");
    return;
  }
  const sim::Remedy& best = sought.remedies.front();
  std::string text = to_meet + changes(best) + " alone";
  if (!best.failing.empty())
    text += fmt::format(
        "; then {}{} not met", best.failing.front(),
        best.failing.size() > 1 ? fmt::format(" and {} more are", best.failing.size() - 1) : " is");
  else if (!best.largest_loss_of.empty() && best.largest_loss > 0.01)
    text += fmt::format("; loses most margin: {}", best.largest_loss_of);
  if (!knob(best.changes.front().knob).setting) text += " (not a setting of this line)";
  list_.push_back(text + line_says(best, sought.name) +
                  (list_.empty() ? others(sought) : std::string()));
}

void Points::of_narrow() {
  for (const sim::SoughtLimit& sought : study_.limits) {
    if (sought.failed || list_.size() + 1 >= most_points) continue;
    std::string where;
    for (const sim::Looked& looked : sought.looked)
      if (looked.found && knob(looked.knob).setting)
        where += fmt::format("{}{} {} {}", where.empty() ? "" : ", ", knob(looked.knob).name,
                             looked.way > 0 ? "above" : "below", looked.text);
    if (!where.empty())
      list_.push_back(
          fmt::format("{} {} is met narrowly; lost with {}", sought.name, sought.limit, where));
  }
}

void Points::of_pairs() {
  if (!study_.pairs.empty()) {
    const sim::Remedy& best = study_.pairs.front();
    list_.push_back("all limits with two knobs: " + changes(best) + line_says(best, "all limits"));
  } else if (study_.nearest) {
    list_.push_back(
        fmt::format("no one and no two knobs tried meet all limits; nearest: {}, where {} still "
                    "misses its limit "
                    "by {:.0f} % of it",
                    changes(*study_.nearest), study_.nearest_limit, -100 * study_.nearest_margin));
  }
  if (study_.conflict && list_.size() + 1 < most_points)
    list_.push_back(
        fmt::format("{} and {} pull opposite ways: {} of the knobs that meet the first "
                    "work against the second",
                    study_.conflict->one, study_.conflict->other, study_.conflict->knobs));
}

std::vector<std::string> Points::all() {
  if (!study_.forced.empty()) return {study_.forced};
  for (const sim::SoughtLimit& sought : study_.limits) {
    // With all limits met by one knob, the single limits stand in the report.
    const bool told = !list_.empty() && !study_.limits.front().remedies.empty() &&
                      study_.limits.front().name == "all limits";
    if (sought.failed && !told && list_.size() < 3) of_failed(sought);
  }
  of_pairs();
  of_narrow();
  if (!list_.empty()) list_.emplace_back("by this model, uncalibrated: run these as samples");
  return std::move(list_);
}

}  // namespace

std::string remedy_text(const sim::RemedyStudy& study, const Style& style) {
  return list(fmt::format("What would have to change ({} model)", study.model), Points(study).all(),
              Paint::heading, style);
}

}  // namespace drumlin::app
