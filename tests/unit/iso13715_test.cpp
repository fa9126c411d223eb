#include "models/edge/iso13715.hpp"

#include <cmath>
#include <numbers>
#include <string>

#include <gtest/gtest.h>

using namespace drumlin;

TEST(UndercutSize, IsTheLargerExtentAndNegative) {
  EXPECT_EQ(models::undercut_size(0.3, 0.1), -0.3);
  EXPECT_EQ(models::undercut_size(0.1, 0.25), -0.25);
  EXPECT_EQ(models::undercut_size(0.0, 0.0), 0.0);
}

// Every preferred size with either sign: on it, a micrometre within and a micrometre beyond.
TEST(SizeClass, ChangesJustBeyondEachPreferredSize) {
  const auto names = std::to_array<std::string>({"0.02", "0.05", "0.1", "0.3", "0.5", "1", "2.5"});
  for (std::size_t i = 0; i < names.size(); ++i) {
    const double size = models::preferred_sizes[i];
    EXPECT_EQ(std::stod(names[i]), size);
    const std::string next = i + 1 < names.size() ? names[i + 1] : "";
    for (const double sign : {+1.0, -1.0}) {
      const std::string mark = sign > 0.0 ? "+" : "-";
      EXPECT_EQ(models::size_class(sign * size), mark + names[i]);
      EXPECT_EQ(models::size_class(sign * (size - 1e-3)), mark + names[i]);
      EXPECT_EQ(models::size_class(sign * (size + 1e-3)), next.empty() ? "" : mark + next);
    }
  }
}

TEST(SizeClass, CountsAnIdealCornerAsSharpUndercut) {
  EXPECT_EQ(models::size_class(0.0), "-0.02");
}

// Geometry of a circle of radius r in the corner (0, 0) of the quadrant x, z < 0, its centre at
// (-r, -r): the point on the diagonal, and the area by counting strips.
TEST(RoundedCorner, IsThatOfACircleTangentToBothFaces) {
  const double r = 0.7;
  const auto corner = models::rounded_corner(r);
  EXPECT_EQ(corner.extent, r);
  const double on_diagonal = -r + r / std::numbers::sqrt2;  // x = z there
  EXPECT_NEAR(corner.corner_to_arc, std::hypot(on_diagonal, on_diagonal), 1e-15);
  EXPECT_NEAR(corner.middle_depth, -on_diagonal, 1e-15);
  EXPECT_NEAR(corner.corner_to_arc / r, 0.4142, 5e-5);  // as a customer's table prints them
  EXPECT_NEAR(corner.middle_depth / r, 0.2929, 5e-5);
  EXPECT_NEAR(corner.missing_area / (r * r), 0.2146, 5e-5);
  const int strips = 200000;
  double area = 0.0;
  for (int i = 0; i < strips; ++i) {
    const double u = r * (i + 0.5) / strips;
    area += (r - std::sqrt(r * r - (r - u) * (r - u))) * r / strips;
  }
  EXPECT_NEAR(corner.missing_area, area, 1e-6);  // midpoint rule under a root at one end: n^-1.5
}
