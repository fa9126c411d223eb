#include "models/edge/iso9013.hpp"

#include <gtest/gtest.h>

namespace drumlin::models {
namespace {

// ISO 9013:2017, range 2 at 10 mm: u 0.15 + 0.007 x 10 = 0.22 mm, Rz5 40 + 0.8 x 10 = 48 um.
TEST(Iso9013, GivesTheNumbersOfTheStandard) {
  EXPECT_DOUBLE_EQ(perpendicularity(2, 10), 0.22);
  EXPECT_DOUBLE_EQ(profile_height(2, 10), 0.048);
  // Range 1: 0.05 + 0.003 a, 10 + 0.6 a.
  EXPECT_DOUBLE_EQ(perpendicularity(1, 3), 0.059);
  EXPECT_DOUBLE_EQ(profile_height(1, 3), 0.0118);
}

TEST(Iso9013, AllowsMoreFromRangeToRangeAndWithThickness) {
  for (int range = 1; range < 5; ++range)
    EXPECT_LT(perpendicularity(range, 5), perpendicularity(range + 1, 5));
  for (int range = 1; range < 4; ++range)
    EXPECT_LT(profile_height(range, 5), profile_height(range + 1, 5));
  EXPECT_LT(perpendicularity(5, 5), perpendicularity(5, 6));
}

}  // namespace
}  // namespace drumlin::models
