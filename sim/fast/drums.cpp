#include "sim/fast/drums.hpp"

#include <algorithm>
#include <utility>

namespace drumlin::sim::fast {
namespace {

/// Interference over cover thickness that a law is laid out for, and room beyond what is asked.
constexpr double usual_depth = 0.2;
constexpr double room = 1.5;

/// Shallower than this no strain tells on the cover [mm], and a part is cut for it at least: drums
/// that just touch or hang clear are one.
constexpr double least_depth = 1e-3;

/// Ladders kept per station: of the depths that laws are laid out for, and a few belts.
constexpr std::size_t most_ladders = 16;

/// Depth that the law of a drum is laid out for [mm]: one of a few, so that drums do not depend on
/// which interference was asked for first.
double depth_for(const BeltSetup& station, double interference) {
  double deepest = usual_depth * station.cover.thickness;
  while (deepest < room * interference)
    deepest *= room;
  return deepest;
}

}  // namespace

std::unique_ptr<Drum> Drums::make(std::size_t index, const BeltSetup& station, double interference,
                                  const models::BeltOnCover& nip, const DrumFace& face,
                                  double deepest) {
  const auto itself = [&] { return std::make_unique<Drum>(nip, face, deepest, pairs_); };
  const LadderAxes axes = index < axes_.size() ? axes_[index] : LadderAxes{};
  if (!axes.modulus || !may_interpolate(station, interference)) return itself();
  const DrumLadder::Family family{
      .nip = nip,
      .face = face,
      .deepest = deepest,
      .set_tension = station.belt.tension,
      .belt_mass = station.belt_mass,
      .axes = {.modulus = true, .speed = axes.speed && station.options.moving}};
  if (ladders_.size() <= index) ladders_.resize(index + 1);
  auto& known = ladders_[index];
  auto found = std::find_if(known.begin(), known.end(),
                            [&](const auto& ladder) { return ladder->serves(family); });
  if (found == known.end()) {
    if (known.size() == most_ladders) known.pop_back();
    known.push_back(std::make_unique<DrumLadder>(family, pairs_));
    found = known.end() - 1;
  }
  std::rotate(known.begin(), found, found + 1);
  auto drum = known.front()->between(nip);
  return drum ? std::move(drum) : itself();
}

Drum& Drums::of(std::size_t index, const BeltSetup& station, double interference) {
  if (drums_.size() <= index) drums_.resize(index + 1);
  const models::BeltOnCover nip = nip_of(station, std::max(interference, least_depth));
  const DrumFace face{.radius = station.radius,
                      .circular = station.options.curved,
                      .grain_compliance = station.belt.grain_compliance};
  const double deepest = depth_for(station, interference);
  auto& known = drums_[index];
  const auto serves = [&](const std::unique_ptr<Drum>& drum) {
    return drum->law.deepest() == deepest && same_face(drum->law.drum(), face) &&
           same_nip(drum->nip, nip);
  };
  auto found = std::find_if(known.begin(), known.end(), serves);
  if (found == known.end()) {
    auto made = make(index, station, interference, nip, face, deepest);
    if (known.size() == kept_) known.pop_back();
    known.push_back(std::move(made));
    found = known.end() - 1;
    ++made_;
  }
  std::rotate(known.begin(), found, found + 1);
  return *known.front();
}

Abrasion abrasion_of(const BeltSetup& station) {
  return {.substrate = station.substrate.law,
          .coating = station.coating.law,
          .path_per_feed = station.sliding_speed / station.feed,
          .top = station.top.law,
          .specific_energy = station.specific_energy,
          .friction = station.friction,
          .grain_spacing = station.grain_spacing,
          .drag = station.with_feed ? +1 : -1};
}

}  // namespace drumlin::sim::fast
