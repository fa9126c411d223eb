#include "sim/brush/brush_tool.hpp"

#include <cmath>
#include <numbers>
#include <variant>

#include "models/removal/layered.hpp"
#include "sim/brush/brush_setup.hpp"

namespace drumlin::sim {
namespace {

/// Settings of brushes kept at once: those of a line, and of its scatter.
constexpr std::size_t most_tools = 48;

/// The brush as far as its forces go.
models::AnyBrush forces_of(const models::AnyBrush& brush) {
  models::AnyBrush plain = brush;
  std::visit([](auto& any) { any.abrasion = {}; }, plain);
  return plain;
}

double filaments_per_feed(const BrushSetup& station, const models::FilamentBrush& brush) {
  return models::filaments_per_angle(brush) * station.speed / brush.radius / station.feed;
}

}  // namespace

BrushTool::BrushTool(const models::AnyBrush& brush, double penetration, double speed)
    : brush_(forces_of(brush)),
      penetration_(penetration),
      speed_(speed),
      face_(models::contact(brush_, penetration, speed)) {
  const auto* filaments = std::get_if<models::FilamentBrush>(&brush_);
  if (filaments == nullptr) return;
  off_ = models::edge_contact(*filaments, penetration, speed, models::EdgeSide::off_metal);
  onto_ = models::edge_contact(*filaments, penetration, speed, models::EdgeSide::onto_metal);
}

bool BrushTool::serves(const models::AnyBrush& brush, double penetration, double speed) const {
  return penetration_ == penetration && speed_ == speed && brush_ == forces_of(brush);
}

const models::EdgeContact& BrushTool::edge(models::EdgeSide side, double opening) {
  if (side == models::EdgeSide::off_metal) return off_;
  const auto* filaments = std::get_if<models::FilamentBrush>(&brush_);
  // From half the chord on tips hang into an opening as deep as they are set.
  if (filaments == nullptr || opening > filaments->radius) return onto_;
  for (const auto& [length, contact] : openings_)
    if (length == opening) return contact;
  const double depth = models::dip(*filaments, penetration_, speed_, opening).far_flank;
  return openings_
      .emplace_back(opening,
                    models::edge_contact(*filaments, depth, speed_, models::EdgeSide::onto_metal))
      .second;
}

BrushTool& BrushTools::of(const BrushSetup& station) {
  const double penetration = working_penetration(station);
  for (BrushTool& tool : tools_)
    if (tool.serves(station.brush, penetration, station.speed)) return tool;
  if (tools_.size() == most_tools) tools_.pop_front();
  return tools_.emplace_back(station.brush, penetration, station.speed);
}

double rubbed(const BrushSetup& station, const BrushTool& tool) {
  return tool.face().rub / station.feed;
}

void rub_face(const BrushSetup& station, double rubbed, PlainFace& face) {
  models::LayeredColumn<models::Preston, 2> column{
      .left = {face.top, face.coating}, .law = {&station.top, &station.coating, &station.base}};
  const double depth = column.removal(1.0, rubbed).depth;
  column.take(depth);
  face.removed += depth;
  face.top = column.left[0];
  face.coating = column.left[1];
}

Strokes strokes_on(const BrushSetup& station, BrushTool& tool, int metal, double opening) {
  const auto* brush = std::get_if<models::FilamentBrush>(&station.brush);
  if (brush == nullptr) return {};
  const auto side = models::edge_side(metal, station.with_feed ? +1 : -1);
  const models::EdgeContact& contact = tool.edge(side, opening);
  const double passing = filaments_per_feed(station, *brush);
  const double K = station.base.coefficient;
  return {
      .work = {.sharp = K * passing * (contact.slide + contact.crossing * brush->filament.diameter),
               .per_radius = K * passing * contact.crossing * 0.5 * std::numbers::pi},
      .strikes = passing * contact.zone,
      .peak_force = contact.peak_force,
      .flank_reach = contact.flank_reach};
}

LipStrikes strike_lip(const BrushSetup& station, const BrushTool& tool, const Strokes& strokes,
                      const models::Lip& lip, double flow_stress) {
  const auto* brush = std::get_if<models::FilamentBrush>(&station.brush);
  if (brush == nullptr || strokes.strikes <= 0.0) return {};
  const models::LipMetal metal{.modulus = station.sheet_modulus,
                               .flow_stress = flow_stress,
                               .tensile_strength = flow_stress,
                               .fracture_ductility = station.fracture_ductility};
  const auto strike =
      models::strike_on(lip, metal, *brush, tool.penetration(), station.speed, strokes.peak_force);
  const auto fatigue =
      models::lip_fatigue(lip, metal, strike, models::StrikeSense::one_way, strokes.strikes);
  return {.bends = fatigue.bend.turn > 0.0,
          .life_used = fatigue.strikes / fatigue.strikes_to_break};
}

}  // namespace drumlin::sim
