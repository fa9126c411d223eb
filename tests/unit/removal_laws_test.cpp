#include "models/removal/removal_laws.hpp"

#include <array>

#include <gtest/gtest.h>

#include "models/removal/layered.hpp"

using namespace drumlin::models;

namespace {

template <class Law>
Law example();
template <>
Preston example<Preston>() {
  return {.coefficient = 4e-5, .threshold = 0.02};
}

template <class Law>
Law twice_as_fast();
template <>
Preston twice_as_fast<Preston>() {
  return {.coefficient = 8e-5, .threshold = 0.05};
}

template <class Variant>
struct AsTypes;
template <class... Laws>
struct AsTypes<std::variant<Laws...>> {
  using type = testing::Types<Laws...>;
};

}  // namespace

/// Every registered law is held to what any removal law must obey.
template <class Law>
class RemovalLaws : public testing::Test {};
TYPED_TEST_SUITE(RemovalLaws, AsTypes<AnyRemovalLaw>::type);

TYPED_TEST(RemovalLaws, RemoveNothingWithoutPressure) {
  EXPECT_EQ(example<TypeParam>().per_path(0.0), 0.0);
}

TYPED_TEST(RemovalLaws, AreMonotone) {
  const auto law = example<TypeParam>();
  for (double p = 0.0; p < 3.0; p += 0.01) {
    EXPECT_LE(law.per_path(p), law.per_path(p + 0.01));
    EXPECT_GE(law.slope(p), 0.0);
  }
}

// Central difference: error of order (dp)^2 times the third derivative, far below 1e-6 here.
TYPED_TEST(RemovalLaws, HaveTheSlopeOfTheirRate) {
  const auto law = example<TypeParam>();
  for (const double p : {0.1, 0.5, 2.0}) {
    const double dp = 1e-4;
    const double difference = (law.per_path(p + dp) - law.per_path(p - dp)) / (2.0 * dp);
    EXPECT_NEAR(law.slope(p) / difference, 1.0, 1e-6) << p;
  }
}

// A burr of one metal, a coating of another, base metal: one step through all of them takes what
// ten thousand small ones take. Sums of 1e4 roundings stay below 1e-11.
TYPED_TEST(RemovalLaws, CrossLayersInOneStepAsInMany) {
  const auto base = example<TypeParam>();
  const auto coating = twice_as_fast<TypeParam>();
  for (const double p : {0.06, 0.3, 2.0}) {
    const double path = 800.0;
    const LayeredColumn<TypeParam, 2> fresh{.left = {0.004, 0.007},
                                            .law = {&base, &coating, &base}};
    auto worn = fresh;
    double total = 0.0;
    const int steps = 10000;
    for (int i = 0; i < steps; ++i) {
      const double depth = worn.removal(p, path / steps).depth;
      worn.take(depth);
      total += depth;
    }
    EXPECT_NEAR(total / fresh.removal(p, path).depth, 1.0, 1e-9) << p;
  }
}

TYPED_TEST(RemovalLaws, HaveTheSlopeOfTheirDepthThroughLayers) {
  const auto base = example<TypeParam>();
  const auto coating = twice_as_fast<TypeParam>();
  const LayeredColumn<TypeParam, 2> column{.left = {0.004, 0.007}, .law = {&base, &coating, &base}};
  for (const double p : {0.1, 0.31, 0.9, 2.0}) {
    const double dp = 1e-6;
    const double difference =
        (column.removal(p + dp, 500.0).depth - column.removal(p - dp, 500.0).depth) / (2.0 * dp);
    EXPECT_NEAR(column.removal(p, 500.0).slope / difference, 1.0, 1e-5) << p;
  }
}

// Arithmetic of the trade: K 4e-5 /MPa, 0.5 N/mm, 15 m/s on 3 m/min takes 6 um (Preston, flat pass
// h = K P' v / v_f): as a column under a mean pressure for the time of the nip.
TEST(Preston, TakesTheFlatPassOfTheIdentity) {
  const Preston law{.coefficient = 4e-5, .threshold = 0.0};
  const double half_width = 5.0;
  const double mean_pressure = 0.5 / (2.0 * half_width);
  const double path = 15000.0 * 2.0 * half_width / 50.0;
  EXPECT_NEAR(law.per_path(mean_pressure) * path, 6.0e-3, 1e-12);
}

TEST(LayeredColumn, TakesLayersFromTheTop) {
  const Preston law{.coefficient = 1, .threshold = 0};
  LayeredColumn<Preston, 2> column{.left = {0.01, 0.02}, .law = {&law, &law, &law}};
  column.take(0.015);
  EXPECT_EQ(column.left[0], 0.0);
  EXPECT_DOUBLE_EQ(column.left[1], 0.015);
  column.take(1.0);
  EXPECT_EQ(column.left[1], 0.0);
}
