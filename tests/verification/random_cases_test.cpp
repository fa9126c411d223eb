// Ten thousand random but legal set-ups, the same every time: each is solved or says why it is not,
// and what must hold of every answer holds. DRUMLIN_RANDOM_CASES sets another number (builds with
// sanitizers run fewer).

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <random>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include "models/elastomer/hardness.hpp"
#include "sim/drum_state.hpp"
#include "sim/line/plain_nip.hpp"
#include "sim/line/surface.hpp"
#include "sim/numerics/error.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;
using sim::line::Course;
using sim::line::Drum;

namespace {

constexpr int parts = 10;

int cases_per_part() {
  const char* asked = std::getenv("DRUMLIN_RANDOM_CASES");
  return std::max((asked != nullptr ? std::atoi(asked) : 10000) / parts, 1);
}

class Draw {
 public:
  explicit Draw(unsigned seed) : random_(seed) {}
  double between(double low, double high) { return low + (high - low) * share(); }
  /// Evenly in the logarithm.
  double log_between(double low, double high) { return low * std::pow(high / low, share()); }
  bool chance(double p) { return share() < p; }

 private:
  /// Made by hand: the standard leaves the distributions' algorithms open.
  double share() { return static_cast<double>(random_()) / 4294967296.0; }
  std::mt19937 random_;
};

/// Anything the reader would let through, from the softest thick cover to a bare hard one.
sim::BeltSetup random_station(Draw& draw) {
  sim::BeltSetup s = tests::bare_drum(draw.between(10, 95));
  s.radius = draw.log_between(50, 250);
  s.cover.thickness = std::min(draw.log_between(2, 40), 0.8 * s.radius);
  s.cover.poisson_ratio = draw.chance(0.2) ? 0.4999 : draw.between(0.3, 0.4999);
  s.density = draw.between(0.9e-9, 1.4e-9);
  s.belt.bending_stiffness = draw.chance(0.2) ? 0.0 : draw.log_between(0.05, 150);
  s.belt.tension = draw.chance(0.2) ? 0.0 : draw.log_between(0.1, 10);
  const bool stiff = s.belt.bending_stiffness > 0.0 || s.belt.tension > 0.0;
  s.belt.grain_compliance = draw.chance(0.2) && !stiff ? 0.0 : draw.log_between(2e-4, 1e-2);
  s.belt_mass = draw.between(0.3e-9, 2e-9);
  s.options = {draw.chance(0.5), draw.chance(0.5), draw.chance(0.5), draw.chance(0.5)};
  s.with_feed = draw.chance(0.5);
  s.belt_speed = 1000.0 * draw.log_between(1, 30);
  s.feed = draw.log_between(500, 10000) / 60.0;
  s.sliding_speed = s.with_feed ? s.belt_speed - s.feed : s.belt_speed + s.feed;
  s.loss_high = 0.5;
  if (draw.chance(0.7)) s.relaxation = models::ConstantLoss{draw.between(0.0, 0.5)};
  s.modulus_high = 1.5 * s.cover.modulus;
  const double threshold = draw.chance(0.5) ? 0.0 : draw.log_between(1e-3, 0.1);
  s.substrate.law = models::Preston{draw.log_between(1e-6, 1e-4), threshold};
  s.coating.law = models::Preston{draw.log_between(1e-6, 2e-4), threshold};
  s.setting =
      cases::InterferenceSetting{std::max(s.cover.thickness * draw.log_between(2e-3, 0.2), 0.005)};
  return s;
}

std::string told(const sim::BeltSetup& s) {
  std::ostringstream text;
  text << "E " << s.cover.modulus << " t " << s.cover.thickness << " nu " << s.cover.poisson_ratio
       << " R " << s.radius << " D " << s.belt.bending_stiffness << " T " << s.belt.tension
       << " cg " << s.belt.grain_compliance << " v " << s.belt_speed << " feed " << s.feed
       << " options " << s.options.curved << s.options.moving << s.options.gripped
       << s.options.finite_strain << " delta "
       << std::get<cases::InterferenceSetting>(s.setting).interference;
  return text.str();
}

/// One rim of a hole with a burr, coarse: what is looked for holds on any grid.
sim::line::Surface hole(double reach, double coating) {
  cases::Part part;
  part.thickness = 1.5;
  part.coating.emplace();
  part.coating->thickness = coating;
  part.features.push_back(
      {.name = "hole",
       .kind = cases::FeatureKind::hole,
       .size = 6.0,
       .side = cases::Side::trailing,
       .burr = models::WallBurr{.height = 0.1, .root = 0.1, .taper = 0, .flow_stress = 300}});
  return sim::line::unworn_surface(part, {.resolution = 0.05, .root_cells = 4}, reach, reach);
}

void check_nip(const sim::BeltSetup& station, double interference, double window) {
  const Drum drum(station, interference);
  const auto nip = sim::line::static_nip(drum, interference, window);
  const auto deeper = sim::line::static_nip(drum, 1.02 * interference, window);
  EXPECT_GE(nip.line_load, 0.0);
  EXPECT_GE(nip.half_width, 0.0);
  EXPECT_GT(deeper.line_load, nip.line_load);
  EXPECT_GE(nip.rolling_loss, -1e-6 * nip.line_load * station.belt_speed);
  if (!station.options.moving) return;
  // Running the other way mirrors the nip.
  sim::BeltSetup back = station;
  back.with_feed = !station.with_feed;
  const auto mirrored = sim::line::static_nip(Drum(back, interference), interference, window);
  EXPECT_NEAR(mirrored.line_load / nip.line_load, 1.0, 1e-4);
  EXPECT_NEAR(mirrored.lean, -nip.lean, 1e-3 * nip.half_width);
}

void check_pass(const sim::BeltSetup& station, double interference, double window) {
  const double coating = 0.01;
  const Drum drum(station, interference);
  const auto plain =
      sim::line::plain_pass(drum, {.removed = 0, .coating = coating}, interference, window);
  EXPECT_GE(plain.removal, 0.0);
  EXPECT_GE(plain.coating, 0.0);
  double sum = 0.0;
  const double spacing = plain.nip.offset[1] - plain.nip.offset[0];
  for (const double p : plain.nip.pressure) {
    EXPECT_GE(p, 0.0);
    sum += p * spacing;
  }
  EXPECT_NEAR(sum, plain.working_line_load, 1e-9 * sum);

  const double half_span = 1.4 * sim::line::patch_half_span(drum, interference + 0.1, window);
  auto surface = hole(half_span, coating);
  auto& strip = surface.strips.front();
  const auto before = strip.height;
  const int far = static_cast<int>((10.0 + half_span) / strip.cells.unit);
  const int stride = std::max(1, far / 30);
  const Course course{.interference = interference,
                      .from = far,
                      .to = -far,
                      .stride = stride,
                      .longest = stride,
                      .landing = &plain.nip};
  sim::line::Passage(drum, strip, half_span, window).run(strip, course, [&](const auto& view) {
    for (const double p : view.pressure)
      EXPECT_GE(p, 0.0);
    EXPECT_TRUE(view.report.converged);
  });
  for (std::size_t i = 0; i < strip.size(); ++i) {
    EXPECT_LE(strip.height[i], before[i]);
    EXPECT_GE(strip.coating[i], 0.0);
    EXPECT_GE(strip.burr[i], 0.0);
  }
}

class RandomCases : public testing::TestWithParam<int> {};

}  // namespace

TEST_P(RandomCases, AreSolvedOrSayWhyNot) {
  Draw draw(static_cast<unsigned>(2026 + GetParam()));
  std::map<std::string, int> refusals;
  const int count = cases_per_part();
  for (int k = 0; k < count; ++k) {
    const sim::BeltSetup station = random_station(draw);
    SCOPED_TRACE(std::to_string(k) + ": " + told(station));
    const double interference = std::get<cases::InterferenceSetting>(station.setting).interference;
    const auto highest = sim::highest_speed(station, interference);
    if (station.options.moving && highest && station.belt_speed > *highest) {
      ++refusals["faster than waves run"];
      continue;
    }
    const double window = sim::line::response_window(station, {});
    try {
      check_nip(station, interference, window);
      check_pass(station, interference, window);
    } catch (const sim::NumericsError& error) {
      ++refusals["not solved"];
    }
    if (HasFailure()) return;
  }
  for (const auto& [why, times] : refusals)
    RecordProperty(why, times);
  // A solver that gives up must be rarer than one in a thousand.
  EXPECT_LE(refusals["not solved"], (count + 999) / 1000);
}
INSTANTIATE_TEST_SUITE_P(Seeds, RandomCases, testing::Range(0, parts));
