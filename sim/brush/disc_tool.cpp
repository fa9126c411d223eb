#include "sim/brush/disc_tool.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim/lanes.hpp"

namespace drumlin::sim {
namespace {

/// Points of the rule along every piece of the way, and across: sums within 0.1 %, in the time
/// that a roller's edges take.
constexpr int order_along = 5;
constexpr int order_across = 4;

constexpr std::size_t towards(int metal) {
  return metal > 0 ? 0 : 1;
}

}  // namespace

Fed fed_width(const cases::Case& scenario) noexcept {
  const int lanes = std::max(scenario.conveyor.lanes, 1);
  const double one = across(scenario.part, scenario.part.angle);
  return {.width = lanes * one + (lanes - 1) * scenario.conveyor.gap, .one_lane = lanes == 1};
}

DiscTool::DiscTool(const models::DiscBrush& brush, double penetration, double speed, double feed,
                   const Fed& fed)
    : brush_(brush),
      penetration_(penetration),
      feed_(feed),
      dragged_(models::dragged_over_face(brush.filament, penetration)) {
  const double over = fed.width > 0.0 ? fed.width : models::row_width(brush);
  const auto tips_at = [&](double across) {
    return models::tips_over(brush_, speed, feed, across, order_along);
  };
  models::Rubbing sum;
  double count = 0.0;
  double least = std::numeric_limits<double>::infinity();
  double most = 0.0;
  for (const auto& place : models::places_across(brush, over, order_across)) {
    const auto tips = tips_at(place.across);
    const models::Rubbing here = models::rubbing(tips);
    sum.path += place.share * here.path;
    sum.along += place.share * here.along;
    sum.across += place.share * here.across;
    for (const auto& tip : tips)
      count += place.share * tip.count;
    least = std::min(least, here.path);
    most = std::max(most, here.path);
    for (const int metal : {+1, -1}) {
      models::add(along_[towards(metal)], models::edge_passing(tips, -metal, 0.0), place.share);
      models::add(across_[towards(metal)], models::edge_passing(tips, 0.0, -metal), place.share);
    }
  }
  // Metal towards +y: the right side of the part, seen along the feed.
  for (const int metal : {+1, -1})
    sides_[towards(metal)] =
        fed.width > 0.0 && fed.one_lane
            ? models::edge_passing(tips_at(-0.5 * metal * fed.width), 0.0, -metal)
            : across_[towards(metal)];
  motion_.rubbed_least = least;
  motion_.rubbed_most = most;
  state_motion(sum.path, count, sum);
  if (penetration <= 0.0) return;
  face_.line_force = dragged_.normal_force * count;
  face_.rub = dragged_.normal_force * sum.path;
  face_.power = dragged_.drag * sum.path;
  face_.contact_length = 2.0 * models::reach_of(brush);
  face_.tips = models::TipContact{.mean_force = dragged_.normal_force,
                                  .peak_force = dragged_.normal_force,
                                  .flank_length = 0.0,
                                  .strikes = sum.along / face_.contact_length,
                                  .row_frequency = {},
                                  .swings = {}};
}

void DiscTool::state_motion(double path, double count, const models::Rubbing& rubbing) {
  if (path <= 0.0) {
    motion_ = {};
    return;
  }
  // Way of tips past a place, times the share of it that filaments cover, over their fill.
  const double per_path = models::section_area(brush_.filament) / brush_.fill / feed_;
  motion_.tip_speed = path / count;
  motion_.evenness = motion_.rubbed_least / motion_.rubbed_most;
  motion_.rubbed_path = path * per_path;
  motion_.rubbed_least *= per_path;
  motion_.rubbed_most *= per_path;
  motion_.along_share = rubbing.along / path;
  motion_.across_share = rubbing.across / path;
  const auto reversed = [](const models::EdgePassing& edge) {
    const double all = edge.onto + edge.off;
    return all > 0.0 ? edge.reversed / all : 0.0;
  };
  const auto mean_of = [](double a, double b) { return 0.5 * (a + b); };
  motion_.reversed_on_ends = mean_of(reversed(along_[0]), reversed(along_[1]));
  motion_.reversed_on_sides = mean_of(reversed(sides_[0]), reversed(sides_[1]));
  motion_.strikes_on_ends = (along_[0].onto + along_[0].off) / feed_;
  motion_.strikes_on_sides =
      mean_of(sides_[0].onto + sides_[0].off, sides_[1].onto + sides_[1].off) / feed_;
}

const models::LeanOnEdge& DiscTool::lean(double depth) {
  for (const auto& [known, lean] : leans_)
    if (known == depth) return lean;
  return leans_.emplace_back(depth, models::lean_on_edge(brush_.filament, depth)).second;
}

DiscEdge DiscTool::edge(const EdgeLie& lie) {
  DiscEdge result;
  if (penetration_ <= 0.0 || motion_.tip_speed <= 0.0) return result;
  const bool outer = std::isinf(lie.opening);
  const auto& met = !lie.along_feed ? along_ : outer ? sides_ : across_;
  models::EdgePassing passing = met[towards(lie.metal)];
  // Nobody says which side of the part is meant: the mean of both.
  if (lie.along_feed && outer) {
    models::EdgePassing both;
    for (const auto& side : sides_)
      models::add(both, side, 0.5);
    passing = both;
  }
  result.onto = passing.onto;
  result.off = passing.off;
  result.reversed = passing.reversed;
  double path_onto = 0.0;
  if (passing.onto > 0.0) {
    const double depth = outer ? penetration_
                               : models::dip_of_dragged(brush_.filament, penetration_,
                                                        motion_.tip_speed, lie.opening);
    const models::LeanOnEdge& leaning = lean(depth);
    for (int k = 0; k < models::edge_angles; ++k) {
      const double path = passing.onto_by_angle[static_cast<std::size_t>(k)];
      const double angle = 0.5 * std::numbers::pi * (k + 0.5) / models::edge_angles;
      path_onto += path;
      if (path > 0.0) result.slide += path * leaning.rubbing(std::cos(angle));
    }
    result.crossing += path_onto * leaning.crossing();
    result.peak_force = leaning.peak_force;
    result.flank_reach = depth;
  }
  result.crossing += (passing.path - path_onto) * dragged_.normal_force;
  if (passing.off > 0.0) result.peak_force = std::max(result.peak_force, dragged_.normal_force);
  return result;
}

}  // namespace drumlin::sim
