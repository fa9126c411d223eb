#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "viz/canvas.hpp"
#include "viz/cielab.hpp"
#include "viz/colour_scale.hpp"

namespace {

namespace palette = drumlin::viz::palette;
using drumlin::viz::Colour;
using drumlin::viz::contrast;
using drumlin::viz::difference;
using drumlin::viz::Lab;
using drumlin::viz::lab_of;
using drumlin::viz::Light;

using Matrix = std::array<std::array<double, 3>, 3>;

struct Sight {
  std::string name;
  Matrix rows;
};

// Full loss of one kind of cone, on light (not on coded values).
// Source: Machado, Oliveira and Fernandes (2009), table 1, severity 1.0; numbers from memory, each
// row has to add up to 1 since grey stays grey. Grey: luminance of sRGB, what a grey print keeps.
const std::vector<Sight>& sights() {
  static const std::vector<Sight> all{
      {"every cone", {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}},
      {"protanopia",
       {{{0.152286, 1.052583, -0.204868},
         {0.114503, 0.786281, 0.099216},
         {-0.003882, -0.048116, 1.051998}}}},
      {"deuteranopia",
       {{{0.367322, 0.860646, -0.227968},
         {0.280085, 0.672501, 0.047413},
         {-0.011820, 0.042940, 0.968881}}}},
      {"tritanopia",
       {{{1.255528, -0.076749, -0.178779},
         {-0.078411, 0.930809, 0.147602},
         {0.004733, 0.691367, 0.303900}}}},
      {"grey print",
       {{{0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}}}}};
  return all;
}

Lab seen(Colour colour, const Sight& sight) {
  const Light light = drumlin::viz::light_of(colour);
  std::array<double, 3> out{};
  for (std::size_t i = 0; i < 3; ++i) {
    const auto& row = sight.rows.at(i);
    out.at(i) = std::clamp(row[0] * light.red + row[1] * light.green + row[2] * light.blue, 0., 1.);
  }
  return lab_of(Light{out[0], out[1], out[2]});
}

const std::vector<std::pair<std::string, Colour>>& fills() {
  static const std::vector<std::pair<std::string, Colour>> all{
      {"metal", palette::metal}, {"coating", palette::coating}, {"burr", palette::burr},
      {"worn", palette::worn},   {"belt", palette::belt},       {"cover", palette::cover},
      {"face", palette::face}};
  return all;
}

TEST(SightMatrices, KeepGreyGrey) {
  for (const Sight& sight : sights())
    for (const auto& row : sight.rows)
      EXPECT_NEAR(row[0] + row[1] + row[2], 1.0, 2e-6) << sight.name;
}

// Pairs of Sharma, Wu and Dalal (2005), table 1 (numbers 1, 2, 3, 17 to 20, 25, 34), which reach
// every branch of the formula; from memory, to the four digits that are printed there.
TEST(ColourDifference, IsThatOfThePublishedPairs) {
  struct Pair {
    Lab one, other;
    double expected;
  };
  const std::vector<Pair> pairs{
      {{50, 2.6772, -79.7751}, {50, 0, -82.7485}, 2.0425},
      {{50, 3.1571, -77.2803}, {50, 0, -82.7485}, 2.8615},
      {{50, 2.8361, -74.0200}, {50, 0, -82.7485}, 3.4412},
      {{50, 2.5, 0}, {73, 25, -18}, 27.1492},
      {{50, 2.5, 0}, {61, -5, 29}, 22.8977},
      {{50, 2.5, 0}, {56, -27, -3}, 31.9030},
      {{50, 2.5, 0}, {58, 24, 15}, 19.4535},
      {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},
      {{2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}, 0.9082}};
  for (const Pair& pair : pairs) {
    EXPECT_NEAR(difference(pair.one, pair.other), pair.expected, 5e-5);
    EXPECT_NEAR(difference(pair.other, pair.one), pair.expected, 5e-5) << "either way";
  }
}

TEST(Cielab, KnowsWhiteBlackAndComesBack) {
  EXPECT_NEAR(lab_of(palette::paper).lightness, 100, 1e-4);
  EXPECT_NEAR(lab_of(Colour{0, 0, 0}).lightness, 0, 1e-9);
  EXPECT_NEAR(contrast({0, 0, 0}, {255, 255, 255}), 21, 1e-9);  // WCAG 2.1, by definition
  for (const auto& [name, colour] : fills()) {
    const Colour back = drumlin::viz::colour_of(lab_of(colour));
    EXPECT_EQ(back.red, colour.red) << name;
    EXPECT_EQ(back.green, colour.green) << name;
    EXPECT_EQ(back.blue, colour.blue) << name;
  }
}

// Fills that touch have to be told apart: 10 is ten times what a trained eye just tells
// (CIEDE2000). In grey only lightness is left: 6 there, and fills that touch have an outline
// between them.
TEST(Palette, StaysApartForEveryKindOfSightAndInGrey) {
  for (const Sight& sight : sights()) {
    const double least = sight.name == "grey print" ? 6 : 14;
    for (std::size_t i = 0; i < fills().size(); ++i)
      for (std::size_t k = i + 1; k < fills().size(); ++k)
        EXPECT_GT(difference(seen(fills()[i].second, sight), seen(fills()[k].second, sight)), least)
            << fills()[i].first << " and " << fills()[k].first << ", " << sight.name;
  }
}

// WCAG 2.1, 1.4.3 (letters 4.5:1) and 1.4.11 (lines and marks 3:1).
TEST(Palette, GivesLettersAndLinesTheContrastThatStandardsAsk) {
  for (const Colour letters :
       {palette::ink, palette::quiet, palette::burr, palette::face, palette::belt})
    EXPECT_GE(contrast(letters, palette::paper), 4.5);
  EXPECT_GE(contrast(palette::coating, palette::paper), 3.0);
  for (const Colour ground : {palette::metal, palette::cover, palette::worn})
    EXPECT_GE(contrast(palette::ink, ground), 4.5);
  EXPECT_GE(contrast(palette::belt, palette::cover), 3.0);
}

TEST(CoatingScale, OnlyGrowsDarkerInEvenSteps) {
  const auto& scale = drumlin::viz::coating_scale();
  constexpr int steps = 10;
  std::vector<Lab> labs;
  for (int i = 0; i <= steps; ++i)
    labs.push_back(lab_of(scale.at(static_cast<double>(i) / steps)));
  double whole = 0;
  for (int i = 0; i < steps; ++i) {
    const auto k = static_cast<std::size_t>(i);
    EXPECT_LT(labs[k + 1].lightness, labs[k].lightness - 1) << i;
    whole += difference(labs[k], labs[k + 1]);
  }
  // Of steps of about 6: colours are rounded to 1/255, which moves either end by up to 0.3.
  for (std::size_t k = 0; k < steps; ++k)
    EXPECT_NEAR(difference(labs[k], labs[k + 1]), whole / steps, 0.6) << k;
  EXPECT_GT(labs.front().lightness - labs.back().lightness, 60);
}

TEST(CoatingScale, KeepsItsOrderForEveryKindOfSightAndInGrey) {
  const auto& scale = drumlin::viz::coating_scale();
  for (const Sight& sight : sights())
    for (int i = 0; i < 20; ++i)
      EXPECT_GT(seen(scale.at(i / 20.0), sight).lightness,
                seen(scale.at((i + 1) / 20.0), sight).lightness + 1)
          << sight.name;
}

TEST(CoatingScale, HasTheCoatingsHueAndIsHeldAtItsEnds) {
  const auto& scale = drumlin::viz::coating_scale();
  const Lab coating = lab_of(palette::coating);
  const Lab middle = lab_of(scale.at(0.5));
  EXPECT_NEAR(std::atan2(middle.b, middle.a), std::atan2(coating.b, coating.a), 0.05);
  EXPECT_EQ(scale.at(-3).green, scale.at(0).green);
  EXPECT_EQ(scale.at(7).green, scale.at(1).green);
  EXPECT_EQ(scale.at(std::nan("")).green, scale.at(0).green);
}

}  // namespace
