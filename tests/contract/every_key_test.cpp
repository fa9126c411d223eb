#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/schema.hpp"
#include "cases/schema_burr.hpp"
#include "cases/suggest.hpp"
#include "tests/support/marked_case.hpp"
#include "tests/support/problems.hpp"

namespace drumlin::cases {
namespace {

using support::problems_of;
using support::whole_case;
using testing::HasSubstr;

/// The marked case with a burr of a kind: every key that it must have, as an example writes it.
std::string case_with_burr(const std::string& kind) {
  std::string lines = "[part.feature.burr]\nkind = \"" + kind + "\"\n";
  for (const BurrKind& known : every_burr_kind())
    for (const KeyInfo& key : known.keys)
      if (known.name == kind && key.required)
        lines += std::string(key.name) + " = \"" + std::string(key.example) + "\"\n";
  std::string text = whole_case();
  const std::size_t at = text.find("[part.feature.burr]");
  const std::string marker = "#@ part.feature.burr\n";
  text.replace(at, text.find(marker) + marker.size() - at,
               lines + "#@ part.feature.burr:" + kind + "\n");
  if (kind == "stub") text.replace(text.find("kind = \"hole\""), 13, "kind = \"stub\"");
  // The limits of the marked case are those of a hole.
  if (kind == "stub") text.replace(text.find("kind = \"hole\""), 13, "kind = \"stub\"");
  return text;
}

constexpr const char* wire_brush = R"([[station]]
kind = "brush"
radius = "150 mm"
penetration = "1 mm"
speed = "20 m/s"
#@ station.brush
[station.filament]
material = "steel"
diameter = "0.3 mm"
free_length = "30 mm"
#@ station.brush.filament
)";
constexpr const char* web_brush = R"([[station]]
kind = "brush"
type = "non-woven"
radius = "150 mm"
penetration = "1 mm"
speed = "20 m/s"
[station.web]
depth = "40 mm"
#@ station.brush.web
)";

constexpr const char* pair_brush = R"([[station]]
kind = "brush"
arrangement = "counter-rotating"
radius = "150 mm"
penetration = "1 mm"
speed = "20 m/s"
[station.filament]
material = "steel"
diameter = "0.3 mm"
free_length = "30 mm"
[station.second]
penetration = "1 mm"
#@ station.brush.second
)";
constexpr const char* planetary_brush = R"([[station]]
kind = "brush"
arrangement = "planetary"
penetration = "1 mm"
[station.filament]
material = "steel"
diameter = "0.3 mm"
free_length = "30 mm"
[station.disc]
radius = "75 mm"
inner_radius = "30 mm"
spindle_speed = "1200 rpm"
heads = 2
head_pitch = "250 mm"
#@ station.brush.disc
[station.carrier]
radius = "150 mm"
speed = "60 rpm"
discs = 4
#@ station.brush.carrier
)";

const char* brush_with(const std::string& section) {
  if (section == "station.brush.web") return web_brush;
  if (section == "station.brush.second") return pair_brush;
  if (section == "station.brush.disc" || section == "station.brush.carrier") return planetary_brush;
  return wire_brush;
}

/// The marked case, with the section added that a path names where it is not there yet.
std::string case_with(const std::string& section) {
  const std::string burr = "part.feature.burr:";
  if (section.starts_with(burr)) return case_with_burr(section.substr(burr.size()));
  std::string text = whole_case();
  if (section == "station.knock-off")
    text.insert(text.find("[conveyor]"), "[[station]]\nkind = \"knock-off\"\n#@ " + section + "\n");
  if (section.starts_with("station.brush"))
    text.insert(text.find("[conveyor]"), brush_with(section));
  if (section.starts_with("cost."))
    text.insert(text.find("[environment]"),
                "[" + section + "]\nprice = \"9 EUR\"\n#@ " + section + "\n");
  if (section == "uncertainty") text += "[uncertainty]\n#@ uncertainty\n";
  if (section == "part.coating.top")
    text.insert(
        text.find("[[part.feature]]"),
        "[part.coating.top]\nmaterial = \"primer\"\nthickness = \"60 um\"\n#@ " + section + "\n");
  return text;
}

std::string with_added(const std::string& section, const std::string& line) {
  std::string text = "\n" + case_with(section);
  const std::string marker = section.empty() ? "\n#@\n" : "\n#@ " + section + "\n";
  const std::size_t at = text.find(marker);
  if (at == std::string::npos) throw std::logic_error("no such section: " + section);
  return text.insert(at + 1, line + "\n").substr(1);
}

/// Each way to get one letter wrong: one dropped, one doubled, one replaced, two swapped.
std::vector<std::string> misspellings(const std::string& word) {
  std::vector<std::string> result;
  for (std::size_t i = 0; i < word.size(); ++i) {
    if (word.size() > 3) result.push_back(word.substr(0, i) + word.substr(i + 1));
    result.push_back(word.substr(0, i) + word[i] + word.substr(i));
    result.push_back(word.substr(0, i) + "x" + word.substr(i + 1));
    if (i + 1 < word.size() && word[i] != word[i + 1]) {
      std::string swapped = word;
      std::swap(swapped[i], swapped[i + 1]);
      result.push_back(swapped);
    }
  }
  return result;
}

class EverySection : public testing::TestWithParam<SectionInfo> {};

TEST_P(EverySection, AnswersAMisspeltKeyWithTheRightOne) {
  const SectionInfo& section = GetParam();
  // A slip that is as near to another key has no right answer.
  const auto is_nearest = [&](const std::string& wrong, const KeyInfo& meant) {
    for (const KeyInfo& key : section.keys)
      if (key.name != meant.name &&
          edit_distance(wrong, key.name) <= edit_distance(wrong, meant.name))
        return false;
    return wrong != meant.name;
  };
  for (const KeyInfo& key : section.keys) {
    int asked = 0;
    for (const std::string& wrong : misspellings(std::string(key.name))) {
      if (!is_nearest(wrong, key)) continue;
      ++asked;
      const auto problems = problems_of(with_added(section.path, wrong + " = 1"));
      ASSERT_EQ(problems.size(), 1U) << wrong << "\n" << CaseError(problems).what();
      EXPECT_THAT(problems[0].text, HasSubstr("nearest is \"" + std::string(key.name) + "\""))
          << wrong;
      EXPECT_EQ(problems[0].column, 1) << wrong;
    }
    EXPECT_GT(asked, 2) << key.name;
  }
}

/// The text with a key set to something else in its section, whether it was there or not.
std::string set(const std::string& section, std::string_view key, const std::string& value) {
  std::string text = case_with(section);
  const std::string marker = section.empty() ? "\n#@\n" : "\n#@ " + section + "\n";
  const std::size_t end = text.find(marker);
  const std::size_t header = section.empty() ? 0 : text.rfind("\n[", end);
  const std::string line = "\n" + std::string(key) + " = ";
  const std::size_t at = text.find(line, header);
  if (at != std::string::npos && at < end)
    return text.replace(at + 1, text.find('\n', at + 1) - at - 1, std::string(key) + " = " + value);
  return text.insert(end + 1, std::string(key) + " = " + value + "\n");
}

bool has_number(const KeyInfo& key) {
  return key.kind == KeyKind::quantity || key.kind == KeyKind::count || key.kind == KeyKind::limit;
}

TEST_P(EverySection, RefusesNumbersThatAreNone) {
  const SectionInfo& section = GetParam();
  for (const KeyInfo& key : section.keys) {
    if (!has_number(key)) continue;
    for (const char* value : {"nan",
                              "inf",
                              "-inf",
                              "\"nan\"",
                              "\"nan mm\"",
                              "\"-inf MPa\"",
                              "\"\"",
                              "\"1e999 mm\"",
                              "1e308",
                              "-1e308",
                              "\"1e308 GPa\"",
                              "[]",
                              "{}",
                              "true",
                              "1979-05-27",
                              "9223372036854775807",
                              "-9223372036854775808",
                              "\"1,5 mm\"",
                              "\"mm\"",
                              "\"<= nan mm\"",
                              "\"nan..nan mm\""}) {
      const auto problems = problems_of(set(section.path, key.name, value));
      EXPECT_FALSE(problems.empty()) << section.path << "." << key.name << " = " << value;
      for (const Problem& problem : problems)
        EXPECT_GT(problem.line, 0) << section.path << "." << key.name << " = " << value;
    }
  }
}

TEST_P(EverySection, RefusesNegativeNumbersWhereTheyMeanNothing) {
  const SectionInfo& section = GetParam();
  for (const KeyInfo& key : section.keys) {
    if (key.kind != KeyKind::quantity || key.low < 0) continue;
    const bool pure = key.dimension == models::dimension::number;
    const std::string example(key.example);
    const std::string value = pure ? "-0.5" : "\"-" + (example.empty() ? "1 " : example) + "\"";
    const auto problems = problems_of(set(section.path, key.name, value));
    EXPECT_FALSE(problems.empty()) << section.path << "." << key.name << " = " << value;
  }
}

std::string test_name(const testing::TestParamInfo<SectionInfo>& info) {
  std::string name = info.param.path.empty() ? "top" : info.param.path;
  for (char& c : name)
    if (std::isalnum(static_cast<unsigned char>(c)) == 0) c = '_';
  return name;
}

INSTANTIATE_TEST_SUITE_P(OfTheCase, EverySection, testing::ValuesIn(case_sections()), test_name);

// What the other tests of this file stand on: the case of every section is in order as it is.
TEST_P(EverySection, IsInOrderBeforeAnythingIsMisspelt) {
  EXPECT_EQ(problems_of(case_with(GetParam().path)).size(), 0U)
      << CaseError(problems_of(case_with(GetParam().path))).what();
}

TEST(Schema, HasASectionForEveryKindOfBurr) {
  std::vector<std::string> paths;
  for (const SectionInfo& section : case_sections())
    paths.push_back(section.path);
  for (const Choice& kind : burr_kinds)
    EXPECT_THAT(paths, testing::Contains("part.feature.burr:" + std::string(kind.name)));
  EXPECT_EQ(burr_kinds.size(), std::variant_size_v<models::AnyBurr>);
}

TEST(Schema, ExplainsEveryKey) {
  for (const SectionInfo& section : case_sections())
    for (const KeyInfo& key : section.keys) {
      if (key.kind == KeyKind::choice) {
        EXPECT_FALSE(key.choices.empty()) << section.path << "." << key.name;
      } else {
        EXPECT_FALSE(key.meaning.empty()) << section.path << "." << key.name;
      }
      EXPECT_LE(key.low, key.high) << section.path << "." << key.name;
    }
}

// The contract of the case file: each of these is taken from the first version on.
TEST(Schema, HasEveryKeyOfTheContract) {
  const auto sections = case_sections();
  const auto keys_of = [&](const std::string& path) {
    std::vector<std::string> names;
    for (const SectionInfo& section : sections)
      if (section.path == path)
        for (const KeyInfo& key : section.keys)
          names.emplace_back(key.name);
    return names;
  };
  using testing::IsSupersetOf;
  EXPECT_THAT(keys_of("part"),
              IsSupersetOf({"material", "thickness", "thickness_tolerance", "width", "length",
                            "bow", "angle", "burr_side", "coating", "feature"}));
  EXPECT_THAT(keys_of("part.coating"),
              IsSupersetOf({"material", "thickness", "mass_class", "split", "oxide",
                            "reverse_thickness", "bare_below", "top"}));
  EXPECT_THAT(keys_of("part.feature"),
              IsSupersetOf({"name", "kind", "size", "side", "along", "across", "burr"}));
  EXPECT_THAT(keys_of("station.knock-off"), IsSupersetOf({"kind", "clearance", "line_force"}));
  EXPECT_THAT(keys_of("station.brush"),
              IsSupersetOf({"kind", "type", "filament", "web", "radius", "fill", "rows",
                            "penetration", "speed", "direction", "removal_coefficient", "worn",
                            "set", "make_up", "arrangement", "second", "disc", "carrier"}));
  EXPECT_THAT(
      keys_of("station.brush.disc"),
      IsSupersetOf({"radius", "inner_radius", "spindle_speed", "heads", "head_pitch", "turn"}));
  EXPECT_THAT(keys_of("station.brush.carrier"), IsSupersetOf({"radius", "speed", "discs", "turn"}));
  EXPECT_THAT(keys_of("station.brush.second"),
              IsSupersetOf({"penetration", "worn", "set", "make_up"}));
  EXPECT_THAT(keys_of("station.brush.filament"),
              IsSupersetOf({"material", "diameter", "free_length", "modulus"}));
  EXPECT_THAT(keys_of("accept"),
              IsSupersetOf({"burr_height", "secondary_burr", "edge_radius", "edge_size",
                            "minimum_radius", "coating_left", "top_left", "flank_oxide",
                            "protrusion", "roughness", "temperature"}));
  EXPECT_THAT(keys_of("station.drum"),
              IsSupersetOf({"radius", "cover", "hardness", "modulus", "poisson", "density",
                            "loss_factor", "land_ratio", "land_pitch", "cover_material",
                            "relaxation", "temperature", "thermal_expansion", "wear"}));
  EXPECT_THAT(keys_of("station.drum.relaxation"), IsSupersetOf({"relaxed", "terms"}));
  EXPECT_THAT(keys_of("station.drum.relaxation.terms"), IsSupersetOf({"time", "modulus"}));
  EXPECT_THAT(keys_of("station"),
              IsSupersetOf({"speed", "direction", "run_out", "belt_age", "frame_compliance"}));
  EXPECT_THAT(
      keys_of("station.belt"),
      IsSupersetOf({"grit", "abrasive", "backing", "tension", "length", "removal_coefficient",
                    "threshold_pressure", "bending_stiffness", "grain_compliance", "mass",
                    "grain_spacing", "thickness_change", "removal_law", "pressure_exponent",
                    "reference_pressure", "saturation_pressure", "saturated_exponent"}));
  EXPECT_THAT(keys_of("station.setting"), IsSupersetOf({"interference", "line_load"}));
  EXPECT_THAT(keys_of("cost"),
              IsSupersetOf({"line_rate", "labour", "belt", "brush", "power", "fluid", "rework"}));
  EXPECT_THAT(keys_of("cost.belt"), IsSupersetOf({"price", "life"}));
  EXPECT_THAT(keys_of("cost.brush"), IsSupersetOf({"price", "life"}));
  EXPECT_THAT(keys_of("cost.rework"), IsSupersetOf({"price", "cost", "share"}));
  EXPECT_THAT(keys_of("conveyor.grip"),
              IsSupersetOf({"friction", "friction_dry", "friction_wet", "suction"}));
  EXPECT_THAT(keys_of("station"), IsSupersetOf({"allow_overspeed"}));
  EXPECT_THAT(keys_of("station.drum"), IsSupersetOf({"speed_limit"}));
  EXPECT_THAT(keys_of("station.belt"), IsSupersetOf({"speed_limit", "width", "wet"}));
  EXPECT_THAT(keys_of("station.brush"), IsSupersetOf({"speed_limit", "allow_overspeed"}));
  EXPECT_THAT(keys_of("conveyor"), IsSupersetOf({"speed", "passes", "lanes", "gap", "grip"}));
  EXPECT_THAT(keys_of("numerics"),
              IsSupersetOf({"model", "cover_geometry", "cover_motion", "belt_grip", "cover_strain",
                            "grid", "resolution", "steps", "window"}));
}

}  // namespace
}  // namespace drumlin::cases
