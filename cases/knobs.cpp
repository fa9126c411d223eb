#include "cases/knobs.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "cases/library.hpp"
#include "cases/units.hpp"
#include "models/burr/burr_keys.hpp"

namespace drumlin::cases {
namespace {

// How far either way is looked at all, as a factor on the case's own value: what lies beyond is
// another process, not a setting of this one (common practice, no source).

constexpr double far = 8.0;
constexpr double near = 4.0;
/// Passes more than the case has.
constexpr int more_passes = 4;
/// Steps to either side in a list of choices.
constexpr int most_choices = 2;
/// Least interference [mm]: shallower a drum does no more than touch (common practice, no source).
constexpr double least_interference = 0.03;
/// Of a cover: finite strain was checked so far.
constexpr double deepest = 0.2;

/// In which covers are to be had [Shore A] (common practice, no source).
constexpr double hardness_step = 5.0;

/// A number of a station that can be turned. Registration: a new knob of a station adds its line.
struct StationKnob {
  std::string_view key;   ///< below the station
  std::string_view name;  ///< in words
  std::string_view unit;
  double reach;     ///< factor either way
  bool is_speed;    ///< of a tool: never above what the tool is marked with
  double step = 0;  ///< in which it is to be had [unit]; 0: any
};
constexpr auto belt_knobs = std::to_array<StationKnob>({
    {"setting.interference", "interference", "mm", far, false},
    {"setting.line_load", "line load", "N/mm", far, false},
    {"speed", "belt speed", "m/s", near, true},
    {"drum.hardness", "cover hardness (another drum)", "Shore A", far, false, hardness_step},
    {"drum.modulus", "cover modulus (another drum)", "MPa", far, false},
});
constexpr auto brush_knobs = std::to_array<StationKnob>({
    {"penetration", "brush penetration", "mm", near, false},
    {"speed", "brush speed", "m/s", near, true},
    {"disc.spindle_speed", "spindle speed", "rpm", near, true},
});

class List {
 public:
  explicit List(const OpenCase& open) : open_(open), scenario_(open.as_read()) {}

  std::vector<Knob> all() &&;

 private:
  void number(Knob knob, double reach);
  void of_station(std::size_t index);
  void grit(std::size_t entry, const BeltStation& belt);
  void belt_age(std::size_t entry, const BeltStation& belt);
  void conveyor();
  void upstream();
  void coating_class();
  [[nodiscard]] Knob named(std::string key, std::string_view name, std::string_view unit) const;
  void neighbours(Knob knob, const std::vector<std::string>& list, std::string_view now);

  const OpenCase& open_;
  const Case& scenario_;
  Library library_;
  std::vector<Knob> knobs_;
};

Knob List::named(std::string key, std::string_view name, std::string_view unit) const {
  Knob knob;
  knob.paths = {parse_path(key)};
  knob.key = std::move(key);
  knob.name = name;
  knob.unit = unit;
  if (!unit.empty()) knob.factor = units::parse_unit(unit).factor;
  return knob;
}

/// The value of a number that the document gives [inner unit].
std::optional<double> number_in(const Node& value) {
  if (value.kind == Node::Kind::integer || value.kind == Node::Kind::number) return value.number;
  if (value.kind != Node::Kind::string) return std::nullopt;
  if (value.exact) return value.exact;
  try {
    return units::parse(value.text).value;
  } catch (const units::UnitError&) {
    return std::nullopt;
  }
}

/// Adds a number of the document, if the case gives it.
void List::number(Knob knob, double reach) {
  const Node* value = find(open_.document(), knob.paths.front());
  if (value == nullptr) return;
  const auto now = number_in(*value);
  const auto legal = open_.declaration(knob.paths.front(), *value);
  if (!now || *now <= 0 || !legal) return;
  knob.now = *now;
  if (knob.low <= legal->low) {
    knob.low = legal->low;
    knob.low_by = "least that a case may have";
  }
  if (knob.high <= 0 || knob.high > legal->high) {
    knob.high = legal->high;
    knob.high_by = "most that a case may have";
  }
  const std::string by = fmt::format("{:g} times, as far as is looked", reach);
  if (*now / reach > knob.low) {
    knob.low = *now / reach;
    knob.low_by = "1/" + by;
  }
  if (*now * reach < knob.high) {
    knob.high = *now * reach;
    knob.high_by = by;
  }
  knobs_.push_back(std::move(knob));
}

/// Highest speed that a tool may be given [mm/s], and what says so.
std::pair<double, std::string> fastest(const Station& station) {
  if (const auto* belt = std::get_if<BeltStation>(&station)) {
    const auto& drum = belt->drum.speed_limit;
    if (!belt->belt.speed_limit)
      return {drum ? std::min(*drum, belt->speed) : belt->speed,
              "as set: the case gives no speed_limit of the belt"};
    if (drum && *drum < *belt->belt.speed_limit) return {*drum, "marked on the drum"};
    return {*belt->belt.speed_limit, "marked on the belt"};
  }
  const auto& brush = std::get<BrushStation>(station);
  if (!brush.speed_limit)
    return {brush.speed, "as set: the case gives no speed_limit of the brush"};
  if (brush.fastest > 0 && brush.fastest < *brush.speed_limit)
    return {std::max(brush.fastest, std::min(brush.speed, *brush.speed_limit)),
            "as fast as such filaments are used"};
  return {*brush.speed_limit, "marked on the brush"};
}

void List::of_station(std::size_t index) {
  const Station& station = scenario_.stations[index];
  const std::size_t entry = index_in_file(scenario_.stations, index);
  // The second roller of a pair stands in the entry of the first.
  if (index > 0 && index_in_file(scenario_.stations, index - 1) == entry) return;
  const auto* belt = std::get_if<BeltStation>(&station);
  if (belt == nullptr && !std::holds_alternative<BrushStation>(station)) return;
  const auto add = [&](const StationKnob& rule) {
    Knob knob = named(fmt::format("station[{}].{}", entry, rule.key), rule.name, rule.unit);
    knob.station = static_cast<int>(entry);
    knob.step = rule.step;
    if (rule.is_speed) {
      auto [most, by] = fastest(station);
      // A spindle's speed is in turns: in proportion to that of the tips.
      if (rule.unit == "rpm") {
        const Node* turns = find(open_.document(), knob.paths.front());
        const auto now = turns != nullptr ? number_in(*turns) : std::nullopt;
        if (!now) return;
        most *= *now / std::get<BrushStation>(station).speed;
      }
      knob.high = most;
      knob.high_by = by;
    }
    if (rule.key == "setting.interference") {
      knob.low = least_interference;
      knob.low_by = "a drum that does no more than touch";
      knob.high = deepest * belt->drum.cover;
      knob.high_by = "a fifth of the cover, as far as finite strain was checked";
    }
    number(std::move(knob), rule.reach);
  };
  if (belt != nullptr) {
    for (const StationKnob& rule : belt_knobs)
      add(rule);
    grit(entry, *belt);
    belt_age(entry, *belt);
  } else {
    for (const StationKnob& rule : brush_knobs)
      add(rule);
  }
}

/// Up to so many neighbours to either side in an ordered list, and the one of the case.
void List::neighbours(Knob knob, const std::vector<std::string>& list, std::string_view now) {
  const auto at = std::find(list.begin(), list.end(), now);
  if (at == list.end()) return;
  const auto place = static_cast<int>(at - list.begin());
  const int first = std::max(place - most_choices, 0);
  const int last = std::min(place + most_choices, static_cast<int>(list.size()) - 1);
  for (int i = first; i <= last; ++i) {
    Node word;
    word.kind = Node::Kind::string;
    word.text = list[static_cast<std::size_t>(i)];
    knob.words.push_back(word.text);
    knob.choices.push_back(std::move(word));
  }
  knob.kind = Knob::Kind::choice;
  knob.low_by = place > most_choices ? "two steps, as far as is looked" : "the end of the list";
  knob.high_by = place + most_choices < static_cast<int>(list.size())
                     ? "two steps, as far as is looked"
                     : "the end of the list";
  knob.now = place - first;
  knob.high = static_cast<double>(knob.words.size() - 1);
  knobs_.push_back(std::move(knob));
}

void List::grit(std::size_t entry, const BeltStation& belt) {
  const std::string& now = belt.belt.grit.designation;
  Knob knob = named(fmt::format("station[{}].belt.grit", entry), "grit of the belt", "");
  knob.station = static_cast<int>(entry);
  if (belt.belt.removal_coefficient || !belt.belt.removal_coefficients.empty())
    knob.not_sought = "the case's removal coefficient belongs to its grit";
  std::vector<std::string> scale;  // of the same grading, coarse to fine
  const auto prefix = now.substr(0, now.find_first_of("0123456789"));
  for (const LibraryEntry& grit : library_.list(EntryKind::grit))
    if (grit.name.substr(0, grit.name.find_first_of("0123456789")) == prefix)
      scale.push_back(grit.name);
  std::stable_sort(scale.begin(), scale.end(), [&](const auto& a, const auto& b) {
    return library_.grit(a).mean_diameter > library_.grit(b).mean_diameter;
  });
  neighbours(std::move(knob), scale, now);
}

void List::belt_age(std::size_t entry, const BeltStation& belt) {
  if (!belt.belt_age || belt.belt_age->value <= 0) return;
  Knob knob = named(fmt::format("station[{}].belt_age", entry), "belt", "");
  knob.station = static_cast<int>(entry);
  knob.kind = Knob::Kind::choice;
  const Node* old = find(open_.document(), knob.paths.front());
  if (old == nullptr) return;
  Node fresh;
  fresh.kind = Node::Kind::string;
  fresh.text = "0 parts";
  knob.choices = {fresh, *old};
  knob.words = {"a new belt", "as old as it is, " + old->text};
  knob.now = 1;
  knob.high = 1;
  knobs_.push_back(std::move(knob));
}

void List::conveyor() {
  number(named("conveyor.speed", "conveyor", "m/min"), far);
  Knob passes = named("conveyor.passes", "passes", "");
  passes.kind = Knob::Kind::whole;
  passes.now = scenario_.conveyor.passes;
  passes.low = 1;
  passes.high = passes.now + more_passes;
  passes.low_by = "one pass";
  passes.high_by = fmt::format("{} more, as far as is looked", more_passes);
  knobs_.push_back(std::move(passes));
}

void List::coating_class() {
  if (!scenario_.part.coating || !scenario_.part.coating->mass_class) return;
  const std::string& now = *scenario_.part.coating->mass_class;
  const auto prefix = [](const std::string& name) {
    return name.substr(0, name.find_first_of("0123456789"));
  };
  std::vector<std::string> classes;
  for (const LibraryEntry& known : library_.list(EntryKind::coating_class))
    if (prefix(known.name) == prefix(now)) classes.push_back(known.name);
  std::stable_sort(classes.begin(), classes.end(), [&](const auto& a, const auto& b) {
    return library_.coating_class(a).mass < library_.coating_class(b).mass;
  });
  Knob knob = named("part.coating.mass_class", "coating class", "");
  knob.setting = false;
  neighbours(std::move(knob), classes, now);
}

void List::upstream() {
  Knob burrs;
  burrs.key = "part.feature[*].burr.height";
  burrs.name = "height of all burrs";
  burrs.setting = false;
  burrs.now = burrs.high = 1;
  burrs.low = 1 / far;
  burrs.low_by = "1/8 of it, as far as is looked";
  burrs.high_by = "as high as the case has them";
  for (std::size_t i = 0; i < scenario_.part.features.size(); ++i) {
    const KeyPath path = parse_path(fmt::format("part.feature[{}].burr.height", i));
    if (find(open_.document(), path) != nullptr) burrs.paths.push_back(path);
  }
  if (!burrs.paths.empty()) knobs_.push_back(std::move(burrs));
  coating_class();
  if (find(open_.document(), parse_path("part.thickness_tolerance")) == nullptr) return;
  Knob tolerance = named("part.thickness_tolerance", "tolerance of the sheet's thickness", "mm");
  tolerance.now = scenario_.part.thickness_tolerance;
  tolerance.setting = false;
  tolerance.not_sought =
      "limits are judged at the nominal thickness; what the tolerance does stands under the part "
      "as "
      "it is, and in the bands";
  knobs_.push_back(std::move(tolerance));
}

std::vector<Knob> List::all() && {
  for (std::size_t i = 0; i < scenario_.stations.size(); ++i)
    of_station(i);
  conveyor();
  upstream();
  return std::move(knobs_);
}

Node quantity_node(double inner, const Knob& knob) {
  Node node;
  node.number = inner;
  if (knob.kind == Knob::Kind::whole) {
    node.kind = Node::Kind::integer;
    node.integer = static_cast<std::int64_t>(inner);
  } else if (knob.unit.empty()) {
    node.kind = Node::Kind::number;
  } else {
    node.kind = Node::Kind::string;
    // Short in messages; the value itself goes along.
    node.text = units::format(inner, knob.unit, 6);
    node.exact = inner;
  }
  return node;
}

}  // namespace

std::vector<Knob> knobs_of(const OpenCase& open) {
  return List(open).all();
}

void turn(Node& document, const Knob& knob, double value) {
  if (knob.kind == Knob::Kind::choice) {
    put(document, knob.paths.front(), knob.choices.at(static_cast<std::size_t>(value)));
    return;
  }
  if (knob.paths.size() == 1 && knob.key == to_text(knob.paths.front())) {
    put(document, knob.paths.front(), quantity_node(value, knob));
    return;
  }
  for (const KeyPath& path : knob.paths) {
    const Node* given = find(document, path);
    const auto number = given != nullptr ? number_in(*given) : std::nullopt;
    if (!number) continue;
    Knob length = knob;
    length.unit = "mm";
    put(document, path, quantity_node(value * *number, length));
  }
}

}  // namespace drumlin::cases
