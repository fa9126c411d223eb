#include "sim/compare.hpp"

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

using drumlin::sim::Banded;
using drumlin::sim::CaseFacts;
using drumlin::sim::compare;
using drumlin::sim::Comparison;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

/// A cover with a working line load, under Preston's law: the face loses K P' v / v_f.
CaseFacts cover(const char* letter, double modulus, double line_load) {
  CaseFacts facts;
  facts.letter = letter;
  facts.cover = std::string(letter) + "-cover";
  facts.modulus = modulus;
  facts.interference = 0.3;
  facts.line_load = line_load;
  facts.working_line_load = line_load;
  facts.slope = 5 * line_load;
  facts.belt_speed = 8000;
  facts.feed = 26.6667;
  facts.coefficient = 4e-5;
  facts.proportional = true;
  facts.face_pressure = 0.1 * line_load;
  facts.removal = Banded{facts.coefficient * line_load * facts.belt_speed / facts.feed, {}, {}};
  facts.burr_pressure = 2;
  facts.burr_name = "hole";
  facts.edge_drop = Banded{0.03, {}, {}};
  facts.state = "accepted";
  return facts;
}

std::string all(const Comparison& comparison) {
  std::string text;
  for (const std::string& sentence : comparison.why)
    text += sentence + "\n";
  return text + comparison.usual_story;
}

TEST(AComparison, OfOneInterferenceLaysTheDifferenceToTheLoad) {
  const Comparison found = compare({cover("A", 1, 0.5), cover("B", 10, 4.0)});
  EXPECT_THAT(found.held, Contains("interference 0.3 mm"));
  EXPECT_THAT(found.held, Not(Contains(HasSubstr("line load"))));
  EXPECT_THAT(all(found), HasSubstr("8.0 times as much"));
  EXPECT_THAT(all(found), HasSubstr("8.0 times the working line load, 8.0 times the loss"));
  EXPECT_THAT(found.usual_story, HasSubstr("holds here"));
  EXPECT_THAT(found.usual_story, HasSubstr("because at this setting it presses with less load"));
}

TEST(AComparison, OfOneWorkingLoadSaysThatHardnessCancelsAndWhatDoesNot) {
  CaseFacts soft = cover("A", 1, 0.5);
  CaseFacts hard = cover("B", 10, 0.5);
  hard.interference = 0.05;
  hard.slope = 6 * *soft.slope;
  const Comparison found = compare({soft, hard});
  EXPECT_THAT(found.held, Contains("working line load 0.5 N/mm"));
  EXPECT_THAT(all(found), HasSubstr("set 0.3 and 0.05 mm deep"));
  EXPECT_THAT(all(found), HasSubstr("hardness cancels"));
  EXPECT_THAT(found.usual_story, HasSubstr("does not hold as it is told"));
  EXPECT_THAT(found.usual_story, HasSubstr("answers 6.0 times less"));
}

TEST(AComparison, DoesNotClaimThatHardnessCancelsUnderAThresholdOrAPower) {
  CaseFacts soft = cover("A", 1, 0.5);
  CaseFacts hard = cover("B", 10, 0.5);
  soft.proportional = hard.proportional = false;
  hard.removal->value *= 1.4;
  const Comparison found = compare({soft, hard});
  EXPECT_THAT(all(found), HasSubstr("hardness does not cancel"));
  EXPECT_THAT(all(found), Not(HasSubstr("hardness cancels")));
  EXPECT_THAT(all(found), HasSubstr("1.0 times the working line load makes 1.4 times the loss"));
}

// A faster belt and a second pass take more under any cover: that is not laid to the cover or the
// law.
TEST(AComparison, DoesNotLayABeltOrPassesToTheCover) {
  const CaseFacts soft = cover("A", 1, 0.5);
  CaseFacts hard = cover("B", 10, 1.0);
  hard.belt_speed *= 1.5;
  hard.passes = 2;
  hard.removal->value *= 3;
  EXPECT_THAT(all(compare({soft, hard})),
              HasSubstr("2.0 times the working line load, and 3.0 times the coefficient and belt "
                        "path, 6.0 times the loss"));
  EXPECT_THAT(compare({soft, hard}).usual_story,
              HasSubstr("B has 3.0 times the coefficient and belt path"));
  hard.proportional = false;
  EXPECT_THAT(all(compare({soft, hard})),
              HasSubstr("2.0 times the working line load with 3.0 times the coefficient and belt "
                        "path makes 6.0 times the loss"));
}

TEST(AComparison, SaysThatTheUsualStoryFailsWhereTheSofterCoverTakesMore) {
  CaseFacts soft = cover("B", 1, 1.5);
  const CaseFacts hard = cover("A", 10, 0.5);
  EXPECT_THAT(compare({hard, soft}).usual_story,
              testing::AllOf(HasSubstr("does not hold here"), HasSubstr("set to press harder")));
  soft = cover("B", 1, 0.5);
  soft.coefficient *= 2;
  soft.removal->value *= 2;
  const Comparison other_belt = compare({hard, soft});
  EXPECT_THAT(other_belt.usual_story, HasSubstr("its belt cuts more per pressure"));
  EXPECT_THAT(all(other_belt), HasSubstr("the coefficient and belt path"));
}

TEST(AComparison, SaysHowFarBandsReach) {
  CaseFacts soft = cover("A", 1, 0.5);
  CaseFacts hard = cover("B", 10, 0.7);
  soft.removal->low = 0.001;
  soft.removal->high = 0.02;
  hard.removal->low = 0.002;
  hard.removal->high = 0.03;
  EXPECT_THAT(all(compare({soft, hard})), HasSubstr("which loses more is surer than how much"));
  hard.coefficient *= 1.1;
  EXPECT_THAT(all(compare({soft, hard})), HasSubstr("a sample has to decide"));
  hard.removal->low = 0.025;
  EXPECT_THAT(all(compare({soft, hard})), Not(HasSubstr("bands overlap")));
}

TEST(AComparison, WarnsOfWavesInACoverThatIsNotSoftAtThatSpeed) {
  CaseFacts soft = cover("A", 1, 0.5);
  soft.speed_ratio = 0.85;
  EXPECT_THAT(all(compare({soft, cover("B", 10, 4)})), HasSubstr("0.85 of the speed"));
}

TEST(AComparison, TellsTheVerdictsWhereTheyDiffer) {
  CaseFacts hard = cover("B", 10, 4);
  hard.state = "not accepted";
  hard.decided_by = "face coating_left";
  EXPECT_THAT(all(compare({cover("A", 1, 0.5), hard})),
              HasSubstr("A is accepted; B is not accepted, limited by face coating_left"));
}

TEST(AComparison, OfMoreThanTwoTellsTheStoryOfSoftestAndHardest) {
  const Comparison found = compare({cover("A", 5, 2), cover("B", 1, 0.5), cover("C", 10, 4)});
  EXPECT_THAT(found.usual_story, HasSubstr("6.0 µm against 48 µm"));
  EXPECT_EQ(found.cases.size(), 3U);
}

// The same case twice, and cases without a drum: nothing is made up.
TEST(AComparison, OfTheSameOrOfBrushesTellsNoStoryOfCovers) {
  const Comparison same = compare({cover("A", 1, 0.5), cover("B", 1, 0.5)});
  EXPECT_TRUE(same.usual_story.empty());
  EXPECT_THAT(all(same), HasSubstr("the same static line load"));
  CaseFacts brush;
  brush.letter = "A";
  brush.removal = Banded{0.001, {}, {}};
  CaseFacts other = brush;
  other.letter = "B";
  other.removal = Banded{0.002, {}, {}};
  const Comparison brushes = compare({brush, other});
  EXPECT_TRUE(brushes.usual_story.empty());
  EXPECT_THAT(brushes.why, testing::ElementsAre("The face loses 1.0 µm in A and 2.0 µm in B."));
}

}  // namespace
