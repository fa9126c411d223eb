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

BrushTool::BrushTool(const BrushSetup& station, const Fed& fed)
    : brush_(forces_of(station.brush)),
      penetration_(working_penetration(station)),
      speed_(station.speed),
      feed_(station.feed),
      fed_(fed),
      face_(models::contact(brush_, penetration_, speed_)) {
  if (const auto* disc = std::get_if<models::DiscBrush>(&brush_))
    disc_.emplace(*disc, penetration_, speed_, feed_, fed_);
  const auto* filaments = std::get_if<models::FilamentBrush>(&brush_);
  if (filaments == nullptr) return;
  off_ = models::edge_contact(*filaments, penetration_, speed_, models::EdgeSide::off_metal);
  onto_ = models::edge_contact(*filaments, penetration_, speed_, models::EdgeSide::onto_metal);
}

bool BrushTool::serves(const BrushSetup& station, const Fed& fed) const {
  // The forces of rollers do not depend on how fast and how wide the part is.
  const bool same_part = !disc_ || (feed_ == station.feed && fed_ == fed);
  return same_part && penetration_ == working_penetration(station) && speed_ == station.speed &&
         brush_ == forces_of(station.brush);
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

BrushTool& BrushTools::of(const BrushSetup& station, const Fed& fed) {
  for (BrushTool& tool : tools_)
    if (tool.serves(station, fed)) return tool;
  if (tools_.size() == most_tools) tools_.pop_front();
  return tools_.emplace_back(station, fed);
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

namespace {

Strokes strokes_of_discs(const BrushSetup& station, DiscTool& disc, const EdgeLie& lie) {
  const DiscEdge edge = disc.edge(lie);
  const double d = std::get<models::DiscBrush>(station.brush).filament.diameter;
  const double K = station.base.coefficient / station.feed;
  return {.work = {.sharp = K * (edge.slide + edge.crossing * d),
                   .per_radius = K * edge.crossing * 0.5 * std::numbers::pi},
          .strikes = (edge.onto + edge.off) / station.feed,
          .reversed = edge.reversed / station.feed,
          .way = edge.off >= edge.onto ? -lie.metal : lie.metal,
          .peak_force = edge.peak_force,
          .flank_reach = edge.flank_reach};
}

const models::Filament* filament_of(const models::AnyBrush& brush) {
  if (const auto* roller = std::get_if<models::FilamentBrush>(&brush)) return &roller->filament;
  if (const auto* disc = std::get_if<models::DiscBrush>(&brush)) return &disc->filament;
  return nullptr;
}

}  // namespace

Strokes strokes_on(const BrushSetup& station, BrushTool& tool, const EdgeLie& lie) {
  if (DiscTool* disc = tool.disc()) return strokes_of_discs(station, *disc, lie);
  const auto* brush = std::get_if<models::FilamentBrush>(&station.brush);
  if (brush == nullptr || lie.along_feed) return {};
  const int way = station.with_feed ? +1 : -1;
  const models::EdgeContact& contact = tool.edge(models::edge_side(lie.metal, way), lie.opening);
  const double passing = filaments_per_feed(station, *brush);
  const double K = station.base.coefficient;
  return {
      .work = {.sharp = K * passing * (contact.slide + contact.crossing * brush->filament.diameter),
               .per_radius = K * passing * contact.crossing * 0.5 * std::numbers::pi},
      .strikes = passing * contact.zone,
      .reversed = 0.0,
      .way = way,
      .peak_force = contact.peak_force,
      .flank_reach = contact.flank_reach};
}

LipStrikes strike_lip(const BrushSetup& station, const BrushTool& tool, const Strokes& strokes,
                      const models::Lip& lip, double flow_stress) {
  const models::Filament* filament = filament_of(station.brush);
  if (filament == nullptr || strokes.strikes <= 0.0) return {};
  const models::LipMetal metal{.modulus = station.sheet_modulus,
                               .flow_stress = flow_stress,
                               .tensile_strength = flow_stress,
                               .fracture_ductility = station.fracture_ductility};
  const auto* roller = std::get_if<models::FilamentBrush>(&station.brush);
  // Tips of discs run along the face.
  const auto strike = roller != nullptr ? models::strike_on(lip, metal, *roller, tool.penetration(),
                                                            station.speed, strokes.peak_force)
                                        : models::strike_on(lip, metal, *filament, 0.0,
                                                            tool.tip_speed(), strokes.peak_force);
  const auto life = [&](models::StrikeSense sense, double strikes) {
    const auto fatigue = models::lip_fatigue(lip, metal, strike, sense, strikes);
    return fatigue.strikes / fatigue.strikes_to_break;
  };
  const auto bend = models::bend_by(strike, lip, metal, models::StrikeSense::one_way);
  double used = life(models::StrikeSense::one_way, strokes.strikes - strokes.reversed);
  if (strokes.reversed > 0.0) used += life(models::StrikeSense::reversed, strokes.reversed);
  return {.bends = bend.turn > 0.0, .life_used = used};
}

}  // namespace drumlin::sim
