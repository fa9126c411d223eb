#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/broken_case.hpp"
#include "tests/support/marked_case.hpp"
#include "tests/support/problems.hpp"

/// What is refused since its parts do not go together: burrs, layers, tools, openings, limits.
namespace drumlin::cases {
namespace {

using support::problems_of;
using support::take_mark;
using support::with;
using testing::HasSubstr;

/// Lines of the whole case, what stands there instead ("^" marks the place of the message), the key
/// and the whole message.
struct Misfit {
  const char* line;
  const char* instead;
  const char* key;
  const char* message;
};

void PrintTo(const Misfit& misfit, std::ostream* out) {
  *out << misfit.key << " " << misfit.instead;
}

class Fit : public testing::TestWithParam<Misfit> {};

TEST_P(Fit, IsRefusedInTheseWordsAtThisPlace) {
  const auto& [line, instead, key, message] = GetParam();
  const Problem problem = support::only_problem(line, instead, key);
  EXPECT_EQ(problem.text, message);
}

constexpr const char* burr =
    "kind = \"wall\"\nheight = \"0.15 mm\"\nroot = \"0.14 mm\"\ntaper = \"5 deg\"\n"
    "flow_stress = \"350 MPa\"";

INSTANTIATE_TEST_SUITE_P(
    OfBurrs, Fit,
    testing::Values(
        Misfit{
            burr, "kind = \"bead\"\nwidth = \"1 mm\"\nheight = ^\"0.6 mm\"",
            "part.feature[0].burr.height",
            "0.6 mm is more than half the bead's width, 1 mm: a bead is a segment of a circle, at "
            "most 0.5 mm high"},
        Misfit{burr, "kind = \"bead\"\nheight = \"0.5 mm\"\n^flow_stress = \"300 MPa\"",
               "part.feature[0].burr.flow_stress",
               "belongs to a burr of kind \"wall\" or \"rolled\", not \"bead\""},
        Misfit{burr, "kind = \"bead\"\nheight = \"0.5 mm\"\nwidth = \"1 mm\"\n^root = \"1 mm\"",
               "part.feature[0].burr.root", "give width or root, not both"},
        Misfit{burr, "kind = \"none\"\n^overhang = \"0.1 mm\"", "part.feature[0].burr.overhang",
               "belongs to a burr of kind \"rolled\", not \"none\""},
        Misfit{burr, "kind = \"rolled\"\noverhang = ^\"6 mm\"\nthickness = \"0.05 mm\"",
               "part.feature[0].burr.overhang", "6 mm reaches across the whole hole, 6 mm"},
        Misfit{burr, "kind = \"rolled\"\noverhang = \"0.1 mm\"\nthickness = ^\"1.5 mm\"",
               "part.feature[0].burr.thickness", "1.5 mm is not thinner than the sheet, 1.5 mm"},
        Misfit{burr,
               "kind = ^\"stub\"\nprotrusion = \"0.4 mm\"\nheight = \"0.1 mm\"\nroot = \"0.2 mm\"",
               "part.feature[0].burr.kind", "\"stub\" belongs to a feature of kind \"stub\""},
        Misfit{
            "name = \"hole-6\"",
            "name = \"tab\"\nkind = \"stub\"\nsize = \"0.5 mm\"\nside = \"leading\"\nburr = { kind "
            "= ^\"none\" }\n[[part.feature]]\nname = \"hole-6\"",
            "part.feature[0].burr.kind",
            "a feature of kind \"stub\" carries a burr of kind \"stub\""},
        Misfit{
            "name = \"hole-6\"",
            "name = \"front\"\nkind = \"outer-edge\"\n^along = \"5 mm\"\n[[part.feature]]\nname = "
            "\"hole-6\"",
            "part.feature[0].along",
            "an outer edge has no centre; it belongs to holes and slots"}));

// 15 mm of cover squeezed to half leave 7.5 mm, less 0.5 mm of interference.
INSTANTIATE_TEST_SUITE_P(OfBurrsAgainstTheCover, Fit,
                         testing::Values(Misfit{
                             "height = \"0.15 mm\"\nroot = \"0.14 mm\"\ntaper = \"5 deg\"",
                             "height = ^\"7.1 mm\"\nroot = \"0.14 mm\"",
                             "part.feature[0].burr.height",
                             "7.1 mm is more than the cover of station[0] can swallow: with an "
                             "interference of 0.5 mm at "
                             "most 7 mm, which squeezes its 15 mm to half"}));

INSTANTIATE_TEST_SUITE_P(
    OfLayers, Fit,
    testing::Values(
        Misfit{"thickness = \"20 um\"", "thickness = \"20 um\"\nreverse_thickness = ^\"0.8 mm\"",
               "part.coating.reverse_thickness",
               "a layer of 0.8 mm is not thinner than half the part, 1.5 mm"},
        Misfit{"thickness = \"20 um\"",
               "thickness = \"20 um\"\ntop = { material = \"primer\", thickness = ^\"0.8 mm\" }",
               "part.coating.top.thickness",
               "a layer of 0.8 mm is not thinner than half the part, 1.5 mm"},
        Misfit{"thickness = \"20 um\"", "thickness = \"20 um\"\nbare_below = ^\"20 um\"",
               "part.coating.bare_below", "20 um is not less than the coating, 20 um"},
        Misfit{"thickness = \"20 um\"", "thickness = \"20 um\"\ntop = ^{ material = \"primer\" }",
               "part.coating.top.thickness", "missing; expected a length, such as \"60 um\""}));

constexpr const char* tools =
    "[[station]]\nkind = \"belt\"\nspeed = \"8 m/s\"\ndirection = \"with-feed\"\n#@ station";
constexpr const char* no_tool =
    "^[[station]]\nkind = \"belt\"\nspeed = \"9 m/s\"\nsetting = { interference = \"0.5 mm\" }\n"
    "[[station]]\nkind = \"belt\"\nspeed = \"8 m/s\"\ndirection = \"with-feed\"\n#@ station";
constexpr const char* flip_with_speed =
    "[[station]]\nkind = \"flip\"\n^speed = \"9 m/s\"\n"
    "[[station]]\nkind = \"belt\"\nspeed = \"8 m/s\"\ndirection = \"with-feed\"\n#@ station";

INSTANTIATE_TEST_SUITE_P(
    OfTools, Fit,
    testing::Values(
        Misfit{
            tools, no_tool, "station[0]",
            "a station without a tool; expected drum = { radius = \"100 mm\", cover = \"15 mm\", "
            "hardness = \"40 Shore A\" } and belt = { grit = \"P120\", abrasive = \"alumina\" }, "
            "or another kind of station"},
        Misfit{tools, flip_with_speed, "station[0].speed", "unknown key; known: kind"},
        Misfit{"hardness = \"20 Shore A\"", "hardness = \"20 Shore A\"\nwear = ^\"15 mm\"",
               "station[0].drum.wear", "15 mm is not less than the cover's thickness, 15 mm"}));

constexpr const char* feature = "size = \"6 mm\"\nside = \"trailing\"\n#@ part.feature";
constexpr const char* outside =
    "size = \"6 mm\"\nside = \"trailing\"\nalong = ^\"2 mm\"\nacross = \"0 mm\"\n#@ part.feature";
constexpr const char* half_placed =
    "size = \"6 mm\"\nside = \"trailing\"\n^along = \"20 mm\"\n#@ part.feature";

INSTANTIATE_TEST_SUITE_P(
    OfOpenings, Fit,
    testing::Values(
        Misfit{
            feature, outside, "part.feature[0].along",
            "hole \"hole-6\" (6 mm at 2 mm along, 0 mm across) runs over the outline of the part, "
            "400 mm x 300 mm; expected 3 mm to 397 mm"},
        Misfit{feature, half_placed, "part.feature[0].along",
               "give along and across together, or neither"}));

constexpr const char* accept = "burr_height = \"<= 0.03 mm\"";

INSTANTIATE_TEST_SUITE_P(
    OfLimits, Fit,
    testing::Values(
        Misfit{accept, "edge_radius = ^\">= 1.6 mm\"", "accept.edge_radius",
               "\">= 1.6 mm\" asks for more than there is metal for at any edge of the part; a "
               "radius up to 1.5 mm is possible (the thickness)"},
        Misfit{accept, "edge_size = ^\"-3..-1.6 mm\"", "accept.edge_size",
               "\"-3..-1.6 mm\" asks for more than there is metal for at any edge of the part; an "
               "edge size down to -1.5 mm is possible (the thickness)"},
        Misfit{
            accept, "^flank_oxide = \"<= 5 %\"", "accept.flank_oxide",
            "limits an oxide that the part does not have; state it, such as part.coating.oxide = "
            "\"15 um\""},
        Misfit{accept, "^top_left = \">= 40 um\"", "accept.top_left",
               "limits a layer that the part does not have; state it, such as part.coating.top = { "
               "material = \"primer\", thickness = \"60 um\" }"},
        Misfit{accept, "^protrusion = \"<= 0.3 mm\"", "accept.protrusion",
               "limits a stub that the part does not have"}));

/// The marked case with openings of 6 and 8 mm, so far apart along the feed.
std::string two_holes(const std::string& apart) {
  std::string text = with(feature,
                          "size = \"6 mm\"\nside = \"trailing\"\nalong = \"100 mm\"\nacross = \"0 "
                          "mm\"\n#@ part.feature");
  return text.insert(
      text.find("[[part.feature]]"),
      "[[part.feature]]\nname = \"hole-8\"\nkind = \"hole\"\nsize = \"8 mm\"\nalong = "
      "\"" +
          apart + "\"\nacross = \"0 mm\"\n");
}

// Rims part where the centres lie the sum of the radii apart, 3 + 4 mm.
TEST(Openings, ThatOverlapAreRefusedWithThePlaceThatWouldDo) {
  for (const char* along : {"93 mm", "107 mm", "100 mm"}) {
    const auto problems = problems_of(two_holes(along));
    ASSERT_EQ(problems.size(), 1U) << along;
    EXPECT_EQ(problems[0].key, "part.feature[1].along");
    EXPECT_THAT(problems[0].text, HasSubstr("overlaps hole \"hole-8\""));
  }
  EXPECT_THAT(problems_of(two_holes("96 mm")).at(0).text,
              HasSubstr("expected along below 89 mm or above 103 mm"));
  for (const char* along : {"92.9 mm", "107.1 mm"})
    EXPECT_TRUE(problems_of(two_holes(along)).empty()) << along;
}

TEST(Openings, BesideEachOtherMayShareAPlaceAlongTheFeed) {
  std::string text = two_holes("100 mm");
  text.replace(text.find("across = \"0 mm\""), 15, "across = \"8 mm\"");
  EXPECT_TRUE(problems_of(text).empty());
}

TEST(Openings, OfMoreThanThePartAreRefused) {
  std::string text =
      with("width = \"300 mm\"\nlength = \"400 mm\"", "width = \"7 mm\"\nlength = \"7 mm\"");
  const std::size_t at = text.find("[[part.feature]]");
  text.insert(at, "[[part.feature]]\nname = \"other\"\nkind = \"hole\"\nsize = \"6.5 mm\"\n");
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 1U) << CaseError(problems).what();
  // pi/4 (6^2 + 6.5^2) = 61.5 mm2.
  EXPECT_EQ(problems[0].text, "the holes take 61.46 mm2 of a part of 49 mm2, 7 mm x 7 mm");
}

std::string with_radius(std::string text, const std::string& radius) {
  return text.insert(text.find("#@ accept\n"), "edge_radius = \">= " + radius + "\"\n");
}

// 0.8 mm of metal between the rims: half of it belongs to either.
TEST(EdgeRadius, OfARimFindsHalfTheMetalToTheNextOpening) {
  const std::string text = two_holes("107.8 mm");
  EXPECT_TRUE(problems_of(with_radius(text, "0.39 mm")).empty());
  EXPECT_THAT(problems_of(with_radius(text, "0.41 mm")).at(0).text,
              HasSubstr("at \"hole-8\"; a radius up to 0.4 mm is possible (half of the 0.8 mm of "
                        "metal to \"hole-6\")"));
}

TEST(EdgeRadius, FindsHalfTheSheetWhereBothFacesAreWorked) {
  std::string text = with_radius(support::whole_case(), "0.8 mm");
  EXPECT_TRUE(problems_of(text).empty());
  text.replace(text.find("passes = 1"), 10, "passes = 2");
  EXPECT_TRUE(problems_of(text).empty()) << "passes alone turn nothing over";
  text.insert(text.find("[conveyor]"), "[[station]]\nkind = \"flip\"\n");
  EXPECT_THAT(problems_of(text).at(0).text,
              HasSubstr("a radius up to 0.75 mm is possible (half the thickness, as both faces are "
                        "worked)"));
}

TEST(Line, OfFlipsAloneIsRefused) {
  std::string text = support::whole_case();
  text.replace(text.find("[[station]]"), text.find("[conveyor]") - text.find("[[station]]"),
               "[[station]]\nkind = \"flip\"\n");
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 1U) << CaseError(problems).what();
  EXPECT_EQ(problems[0].key, "station");
  EXPECT_EQ(problems[0].text,
            "a line without a tool: its stations only turn the part over; give at least one "
            "[[station]] of kind \"belt\"");
}

// A knock-off tool before the belt leaves no more than its clearance for the cover to swallow.
TEST(TallBurrs, ArePassedOnByAKnockOffStation) {
  std::string text = with("height = \"0.15 mm\"\nroot = \"0.14 mm\"\ntaper = \"5 deg\"",
                          "height = \"8 mm\"\nroot = \"0.14 mm\"");
  EXPECT_EQ(problems_of(text).size(), 1U);
  text.insert(text.find("[[station]]"), "[[station]]\nkind = \"knock-off\"\n");
  EXPECT_TRUE(problems_of(text).empty());
}

}  // namespace
}  // namespace drumlin::cases
