#include "sim/line/brush_pass.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "sim/brush/edge_wear.hpp"
#include "sim/line/hinge.hpp"
#include "sim/line/wear_layers.hpp"

namespace drumlin::sim::line {
namespace {

using Layers = WearLayers<models::Preston>;

/// Length along the feed of the opening before an edge [mm]; infinite before an outer edge.
double opening_before(const Strip& strip, const StripEdge& edge) {
  double length = 0.0;
  for (std::size_t k = 0;; ++k) {
    const std::size_t cell = Strip::beyond(edge, k);
    if (strip.metal[cell] != 0 && strip.lip[cell] == 0) return length;
    length += strip.width(cell);
    if (cell == 0 || cell + 1 == strip.size()) return std::numeric_limits<double>::infinity();
  }
}

/// One edge under the tips of a brush.
class BrushedEdge {
 public:
  /// @param along_feed  the strip runs across edges that lie along the feed.
  BrushedEdge(const BrushSetup& station, BrushTool& tool, Strip& strip, std::size_t edge,
              bool along_feed)
      : station_(station),
        tool_(tool),
        strip_(strip),
        index_(edge),
        along_feed_(along_feed),
        // Strips across the feed show openings half as wide as they are (side_strip.cpp).
        strokes_(strokes_on(
            station, tool,
            {.metal = strip.edges[edge].metal,
             .opening = (along_feed ? 2.0 : 1.0) * opening_before(strip, strip.edges[edge]),
             .along_feed = along_feed})) {}

  void run(const Layers& layers, double thickness);

 private:
  [[nodiscard]] StripEdge& edge() const noexcept { return strip_.edges[index_]; }
  void strike_wall();
  void strike_hanging();
  void drop_lip();
  [[nodiscard]] double grind_lip();
  void round(const Layers& layers, double share, double thickness);

  const BrushSetup& station_;
  BrushTool& tool_;
  Strip& strip_;
  std::size_t index_;
  bool along_feed_;
  Strokes strokes_;
};

/// A wall whose root a strike turns goes over, the way the tips run; any other uses up its life.
/// Struck from both sides it is bent to and fro and mostly breaks before it can lie down. Along the
/// feed none is laid down: strips there hold no plate.
void BrushedEdge::strike_wall() {
  StripEdge& e = edge();
  if (e.lip || e.laid > 0 || !std::holds_alternative<models::WallBurr>(e.burr)) return;
  const models::Lip wall = standing_plate(strip_, e);
  // Lower than half its root it is no plate that a strike could bend.
  if (wall.length <= 0.5 * wall.thickness || wall.length <= 0.0) return;
  const LipStrikes strikes =
      strike_lip(station_, tool_, strokes_, wall, models::flow_stress_of(e.burr));
  if (!strikes.bends || strokes_.reversed > 0.0) {
    e.brushed.life_used += strikes.life_used;
    if (e.brushed.life_used >= 1.0) {
      shed_burr(strip_, e);
      return;
    }
  }
  if (!strikes.bends || along_feed_) return;
  Hinge hinge(strokes_.way, strip_, index_);
  if (hinge.falls_outward())
    hinge.turn_to(0.5 * std::numbers::pi);
  else
    hinge.lay_on_face();
}

void BrushedEdge::drop_lip() {
  StripEdge& e = edge();
  for (std::size_t i = lip_cells(strip_, e); i-- > 0;)
    clear_cell(strip_, Strip::beyond(e, i));
  e.lip.reset();
}

/// A lip that hangs over the opening breaks off once its root has borne what it can.
void BrushedEdge::strike_hanging() {
  StripEdge& e = edge();
  if (!e.lip) return;
  e.brushed.life_used +=
      strike_lip(station_, tool_, strokes_, *e.lip, models::flow_stress_of(e.burr)).life_used;
  if (e.brushed.life_used < 1.0) return;
  drop_lip();
  shed_burr(strip_, e);
}

/// Wears a hanging lip from its tip; the share of the work that is left.
double BrushedEdge::grind_lip() {
  StripEdge& e = edge();
  if (!e.lip) return 1.0;
  const std::size_t count = lip_cells(strip_, e);
  double area = 0.0;
  for (std::size_t i = 0; i < count; ++i)
    area += strip_.burr[Strip::beyond(e, i)] * strip_.width(Strip::beyond(e, i)) / e.stretch;
  const double work = e.ease * strokes_.work.sharp;
  if (work <= 0.0) return 1.0;
  if (area <= work) {
    drop_lip();
    return 1.0 - area / work;
  }
  // Even in thickness, a lip gets shorter in proportion to what it loses.
  e.lip->length *= 1.0 - work / area;
  double left = work * e.stretch;
  for (std::size_t i = count; i-- > 0 && left > 0.0;) {
    const std::size_t cell = Strip::beyond(e, i);
    const double metal = strip_.burr[cell] * strip_.width(cell);
    const double taken = std::min(metal, left);
    left -= taken;
    if (taken == metal)
      clear_cell(strip_, cell);
    else
      strip_.burr[cell] -= taken / strip_.width(cell);
  }
  return 0.0;
}

/// Burr metal on the face first, then the edge itself.
void BrushedEdge::round(const Layers& layers, double share, double thickness) {
  const StripEdge& e = edge();
  const double largest = std::min(thickness, 0.5 * readable);
  std::vector<EdgeColumn> columns;
  double at = 0.0;
  for (std::size_t i = 0; at < 2.0 * largest; ++i) {
    const std::size_t cell = Strip::inward(e, i);
    if (cell >= strip_.size() || strip_.metal[cell] == 0) break;
    const double to = at + strip_.width(cell) / e.stretch;
    columns.push_back({at, to, strip_.height[cell], strip_.burr[cell]});
    at = to;
  }
  const EdgeWork work{share * strokes_.work.sharp, share * strokes_.work.per_radius};
  const EdgeWear wear = wear_edge(columns, work, e.ease, largest);
  for (std::size_t i = 0; i < wear.depth.size(); ++i) {
    if (wear.depth[i] > 0.0) layers.wear(strip_, Strip::inward(e, i), wear.depth[i]);
  }
}

void BrushedEdge::run(const Layers& layers, double thickness) {
  if (strokes_.strikes <= 0.0) return;
  BrushMarks& marks = edge().brushed;
  marks.met = edge().struck = true;
  marks.flank_reach = std::max(marks.flank_reach, strokes_.flank_reach);
  if (strokes_.flank_reach > 0.0) marks.oxide_volume += strokes_.work.sharp;
  strike_hanging();
  strike_wall();
  const double share = grind_lip();
  if (share > 0.0) round(layers, share, thickness);
}

/// What rubbing takes off every column, whatever stands beside it.
void rub(const Layers& layers, double rubbed, Strip& strip) {
  for (std::size_t i = 0; i < strip.size(); ++i) {
    if (strip.metal[i] != 0)
      layers.wear(strip, i, layers.column(strip, i).removal(1.0, rubbed).depth);
  }
}

}  // namespace

void pass_brush(const BrushSetup& station, BrushTool& tool, double thickness, Surface& surface) {
  const double work = rubbed(station, tool);
  const auto layers_of = [&](const Strip& strip, const std::vector<std::uint8_t>& owner) {
    return Layers(station.top, station.coating, station.base, strip, owner);
  };
  for (Strip& strip : surface.strips) {
    const auto owner = burr_owners(strip);
    const Layers layers = layers_of(strip, owner);
    for (std::size_t e = 0; e < strip.edges.size(); ++e)
      BrushedEdge(station, tool, strip, e, false).run(layers, thickness);
    rub(layers, work, strip);
  }
  const bool discs = tool.disc() != nullptr;
  for (Strip& strip : surface.sides) {
    const auto owner = burr_owners(strip);
    const Layers layers = layers_of(strip, owner);
    for (std::size_t e = 0; discs && e < strip.edges.size(); ++e)
      BrushedEdge(station, tool, strip, e, true).run(layers, thickness);
    rub(layers, work, strip);
    for (StripEdge& edge : strip.edges) {
      if (discs) continue;
      edge.brushed.met = edge.struck = work > 0.0;
      edge.brushed.rubbed_along = edge.brushed.rubbed_along || work > 0.0;
    }
  }
  rub_face(station, work, surface.face);
}

}  // namespace drumlin::sim::line
