#include "sim/cautions.hpp"

#include <algorithm>
#include <string_view>
#include <utility>
#include <variant>

#include "sim/overspeed.hpp"

namespace drumlin::sim {
namespace {

constexpr const char* standing =
    "A process estimate, not a safety assessment. Local law, fire and dust codes, the machine's "
    "manual and qualified people decide.";

/// Metals and stations of a line, as cautions ask for them.
class Line {
 public:
  explicit Line(const cases::Case& scenario) : scenario_(scenario) {}

  /// Whether the part, or a layer on it, is of a family.
  [[nodiscard]] bool part_has(std::string_view family) const {
    const auto& part = scenario_.part;
    return part.material.family == family ||
           (part.coating && part.coating->material.family == family);
  }
  /// Whether other metals that run on this line are of a family.
  [[nodiscard]] bool others_have(std::string_view family) const {
    return std::any_of(scenario_.other_metals.begin(), scenario_.other_metals.end(),
                       [&](const cases::Material& metal) { return metal.family == family; });
  }
  [[nodiscard]] bool has(std::string_view family) const {
    return part_has(family) || others_have(family);
  }
  template <class Kind>
  [[nodiscard]] bool has_station() const {
    return std::any_of(scenario_.stations.begin(), scenario_.stations.end(),
                       [](const auto& station) { return std::holds_alternative<Kind>(station); });
  }
  [[nodiscard]] bool wet() const { return scenario_.cooling == cases::Cooling::wet; }
  /// Whether aluminium and a metal that throws sparks or rusts run on it.
  [[nodiscard]] bool mixes_aluminium() const {
    return has("aluminium") && (has("steel") || has("stainless") || has("oxide"));
  }

 private:
  const cases::Case& scenario_;
};

void add_dust(const Line& line, std::vector<std::string>& list) {
  list.emplace_back(
      "Grinding dust burns: even fine steel and zinc, aluminium, magnesium and titanium most of "
      "all. Dust hazards are for qualified people to assess; never size extraction from this "
      "tool.");
  if (!line.mixes_aluminium())
    list.emplace_back(
        line.has("aluminium")
            ? "Aluminium dust and steel sparks must never meet in one dry collector; clean out "
              "fully before changing metal."
            : "Never collect aluminium and steel dust together dry; clean out fully before "
              "changing metal.");
  if (line.has("aluminium"))
    list.emplace_back(
        "Wet aluminium fines give off hydrogen: vent the collector, leave no dead space, let no "
        "sludge stand over a weekend.");
  if (line.has("titanium"))
    list.emplace_back("Titanium: fines and swarf burn and cannot be put out with water.");
}

void add_breathing(const Line& line, std::vector<std::string>& list) {
  if (line.has("zinc"))
    list.emplace_back(
        "Zinc: heated zinc gives fume; breathing limits and extraction per local rules.");
  if (line.has("stainless"))
    list.emplace_back(
        "Stainless: dust carries chromium and nickel; breathing limits per local rules.");
}

void add_machine(const Line& line, std::vector<std::string>& list) {
  list.emplace_back(
      "Guards on, lockout before belt or drum change, never reach in for a slipped part; no gloves "
      "near the running belt, cut-resistant gloves for sharp blanks away from it; eye and hearing "
      "protection.");
  list.emplace_back(
      "Edges are sharp until they are measured to be otherwise, on the way in and on the way out.");
  list.emplace_back(
      "Noise: belts and sheet often pass 85 dB(A); have it measured, local action values bind.");
  list.emplace_back(
      "The speed marked on belt, drum and machine binds, whatever a case says, and so does the way "
      "of running marked on the belt.");
  if (line.has_station<cases::BrushStation>())
    list.emplace_back(
        "Brushes throw filaments: eye protection, guards shut, lockout before a change; the "
        "brush's marked speed and way of turning bind.");
  if (line.has_station<cases::KnockOffStation>())
    list.emplace_back("Struck-off slag flies: guards shut, eye protection.");
  if (line.wet())
    list.emplace_back(
        "Wet running: electrics, splash and slip hazards, fluid mist and germs; per the machine's "
        "manual.");
}

}  // namespace

std::vector<std::string> pressing_cautions(const cases::Case& scenario) {
  std::vector<std::string> list;
  if (Line(scenario).mixes_aluminium())
    list.emplace_back(
        "Aluminium and steel on one line: aluminium dust and steel sparks or rust must never meet "
        "in one dry collector, duct or belt; they can burn as thermite. Clean out fully, belt and "
        "brush included, at every change of metal, or keep two lines.");
  return list;
}

std::vector<std::string> cautions(const cases::Case& scenario) {
  const Line line(scenario);
  std::vector<std::string> list;
  if (std::string forced = overspeed_caution(scenario); !forced.empty())
    list.push_back(std::move(forced));
  list.emplace_back(standing);
  for (const std::string& pressing : pressing_cautions(scenario))
    list.push_back(pressing);
  add_dust(line, list);
  add_breathing(line, list);
  add_machine(line, list);
  return list;
}

}  // namespace drumlin::sim
