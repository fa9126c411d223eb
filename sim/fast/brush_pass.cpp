#include "sim/fast/brush_pass.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <variant>

#include "models/removal/layered.hpp"
#include "sim/brush/edge_wear.hpp"
#include "sim/fast/folding.hpp"
#include "sim/fast/hanging_lip.hpp"

namespace drumlin::sim::fast {
namespace {

/// Rounding is followed this far from an edge at most [mm].
constexpr double largest_radius = 5.0;

/// Length along the feed of the opening before a rim [mm]; infinite before an outer edge.
double opening_before(const Section& section, const SectionRim& rim) {
  for (const SectionRim& other : section.rims) {
    const double apart = rim.metal * (rim.x - other.x);
    if (other.metal != rim.metal && apart > 0.0) return apart;
  }
  return std::numeric_limits<double>::infinity();
}

/// Removal of a rim's burr metal over that of the base.
double ease(const SectionRim& rim, double specific_energy) {
  return models::ease_of(rim.burr, specific_energy);
}

/// The wall that stands on a rim, as a plate; nothing where none does.
std::optional<models::Lip> wall_on(const Section& section, const SectionRim& rim) {
  if (rim.lip || rim.broken_off || !std::holds_alternative<models::WallBurr>(rim.burr)) return {};
  const models::Lip wall = standing_plate(section, rim);
  // Lower than half its root it is no plate that a strike could bend.
  if (wall.length <= 0.5 * wall.thickness || wall.length <= 0.0) return {};
  return wall;
}

void break_off(Section& section, SectionRim& rim) {
  strike_off(section, rim);
  rim.lip.reset();
  rim.broken_off = true;
}

/// Strikes on what stands or hangs: it goes over, lives on, or breaks off.
void strike(const BrushSetup& station, BrushTool& tool, const Strokes& strokes, double removed,
            Section& section, SectionRim& rim) {
  const auto wall = wall_on(section, rim);
  const bool hangs = rim.lip && rim.beyond;
  if (!wall && !hangs) return;
  const LipStrikes strikes =
      strike_lip(station, tool, strokes, wall ? *wall : *rim.lip, models::flow_stress_of(rim.burr));
  const bool bends = wall && strikes.bends;
  // Struck from both sides a wall is bent to and fro and mostly breaks before it can lie down.
  if (!bends || strokes.reversed > 0.0) {
    rim.brushed.life_used += strikes.life_used;
    if (rim.brushed.life_used >= 1.0) {
      break_off(section, rim);
      return;
    }
  }
  if (bends) give_way(section, rim, strokes.way, removed);
}

/// Wears a hanging lip from its tip; the share of the work that is left.
double grind_lip(Section& section, SectionRim& rim, double work) {
  if (!rim.lip || !rim.beyond || work <= 0.0) return 1.0;
  // From the edge line outwards; what lies over the metal is worn with it.
  const double hanging = std::max(rim.lip->length - 0.5 * rim.lip->thickness, 0.0);
  const double area = hanging * lip_thickness(rim);
  if (area <= work) {
    strike_off(section, rim);
    rim.lip.reset();
    return 1.0 - area / work;
  }
  rim.lip->length -= hanging * work / area;
  rim.lip_worn.resize(lip_bounds(*rim.lip).size() - 1);
  return 0.0;
}

void round(Section& section, const SectionRim& rim, const EdgeWork& work, double burr_ease,
           double largest) {
  std::vector<EdgeColumn> columns;
  double at = 0.0;
  const std::size_t depth = section.depth(rim);
  for (std::size_t i = 0; i < depth && at < 2.0 * largest; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    const double to = at + rim.across * section.width(cell);
    columns.push_back({at, to, section.height[cell], section.burr[cell]});
    at = to;
  }
  const EdgeWear wear = wear_edge(columns, work, burr_ease, largest);
  for (std::size_t i = 0; i < wear.depth.size(); ++i)
    take_off(section, Section::inwards(rim, i), wear.depth[i]);
}

void brush_rim(const BrushSetup& station, BrushTool& tool, double thickness, double removed,
               Section& section, SectionRim& rim) {
  const Strokes strokes =
      strokes_on(station, tool, {.metal = rim.metal, .opening = opening_before(section, rim)});
  if (strokes.strikes <= 0.0) return;
  rim.brushed.met = true;
  rim.brushed.flank_reach = std::max(rim.brushed.flank_reach, strokes.flank_reach);
  if (strokes.flank_reach > 0.0) rim.brushed.oxide_volume += strokes.work.sharp;
  strike(station, tool, strokes, removed, section, rim);
  const double burr_ease = ease(rim, station.specific_energy);
  const double share = grind_lip(section, rim, burr_ease * strokes.work.sharp);
  if (share <= 0.0) return;
  round(section, rim, {share * strokes.work.sharp, share * strokes.work.per_radius}, burr_ease,
        std::min(thickness, largest_radius));
}

/// Which rim a cell's burr metal belongs to.
const SectionRim& nearest(const Section& section, std::size_t cell) {
  return *std::min_element(
      section.rims.begin(), section.rims.end(), [&](const SectionRim& a, const SectionRim& b) {
        return std::abs(section.x(cell) - a.x) < std::abs(section.x(cell) - b.x);
      });
}

using Column = models::LayeredColumn<models::Preston, 3>;

void rub(const BrushSetup& station, double rubbed, Section& section) {
  for (std::size_t i = 0; i < section.size(); ++i) {
    models::Preston burr = station.base;
    if (section.burr[i] > 0.0)
      burr.coefficient *= ease(nearest(section, i), station.specific_energy);
    const Column column{.left = {section.burr[i], section.top[i], section.coating[i]},
                        .law = {&burr, &station.top, &station.coating, &station.base}};
    take_off(section, i, column.removal(1.0, rubbed).depth);
  }
}

}  // namespace

void pass_brush(const BrushSetup& station, BrushTool& tool, double thickness, Face& face) {
  const double work = rubbed(station, tool);
  for (std::size_t k = 0; k < face.sections.size(); ++k) {
    Section& section = face.sections[k];
    if (face.alike[k] != k) {
      follow(face.sections[face.alike[k]], section);
      continue;
    }
    for (SectionRim& rim : section.rims)
      brush_rim(station, tool, thickness, face.plain.removed, section, rim);
    rub(station, work, section);
  }
  rub_face(station, work, face.plain);
}

}  // namespace drumlin::sim::fast
