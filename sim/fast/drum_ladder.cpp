#include "sim/fast/drum_ladder.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <variant>
#include <vector>

#include "models/line/belt_tension.hpp"
#include "sim/drum_state.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::sim::fast {
namespace {

/// Distance of rungs in the logarithm of the modulus. A cubic through four then follows a power of
/// -1 to 0.0234 spacing^4 = 2e-6.
constexpr double modulus_spacing = 0.1;
/// In the logarithm of the speed. Inertia goes with its square and, near waves, like
/// 1 / (1 - v^2/c^2), whose pole lies 0.5 away where `farthest_from_waves` ends.
constexpr double speed_spacing = 0.07;
/// Belt speed over the Rayleigh speed from which on drums are made for themselves.
constexpr double farthest_from_waves = 0.6;

bool same(const models::BondedLayer& a, const models::BondedLayer& b) {
  return a.thickness == b.thickness && a.modulus == b.modulus && a.poisson_ratio == b.poisson_ratio;
}

bool same(const models::TensionedPlate& a, const models::TensionedPlate& b) {
  return a.bending_stiffness == b.bending_stiffness && a.tension == b.tension &&
         a.grain_compliance == b.grain_compliance;
}

bool same_law(const models::RateIndependent& /*a*/, const models::RateIndependent& /*b*/) {
  return true;
}

bool same_law(const models::ConstantLoss& a, const models::ConstantLoss& b) {
  return a.loss_factor == b.loss_factor;
}

bool same_law(const models::PronySeries& a, const models::PronySeries& b) {
  return a.relaxed == b.relaxed && a.time_shift == b.time_shift &&
         std::equal(a.terms.begin(), a.terms.end(), b.terms.begin(), b.terms.end(),
                    [](const models::PronyTerm& x, const models::PronyTerm& y) {
                      return x.time == y.time && x.modulus == y.modulus;
                    });
}

bool same(const models::AnyRelaxation& a, const models::AnyRelaxation& b) {
  return a.index() == b.index() &&
         std::visit([&]<class Law>(const Law& law) { return same_law(law, std::get<Law>(b)); }, a);
}

bool same(const models::BeltOnCover& a, const models::BeltOnCover& b) {
  return same(a.cover.layer, b.cover.layer) && a.cover.curvature == b.cover.curvature &&
         a.cover.density == b.cover.density && a.cover.speed == b.cover.speed &&
         same(a.cover.relaxation, b.cover.relaxation) && same(a.belt, b.belt) && a.grip == b.grip;
}

bool same(const DrumFace& a, const DrumFace& b) {
  return a.radius == b.radius && a.circular == b.circular &&
         a.grain_compliance == b.grain_compliance;
}

/// Four rungs about a value and their shares.
struct Stencil {
  int first = 0;
  std::array<double, 4> shares{};
};

Stencil stencil_at(double value, double spacing) {
  const double place = std::log(value) / spacing;
  const double below = std::floor(place);
  const double s = place - below;
  return {static_cast<int>(below) - 1,
          {-s * (s - 1.0) * (s - 2.0) / 6.0, (s + 1.0) * (s - 1.0) * (s - 2.0) / 2.0,
           -(s + 1.0) * s * (s - 2.0) / 2.0, (s + 1.0) * s * (s - 1.0) / 6.0}};
}

}  // namespace

bool same_nip(const models::BeltOnCover& a, const models::BeltOnCover& b) {
  return same(a, b);
}

bool same_face(const DrumFace& a, const DrumFace& b) {
  return same(a, b);
}

bool may_interpolate(const BeltSetup& station, double interference) {
  return !station.options.moving ||
         (station.belt_speed > 0.0 && rayleigh_ratio(station, interference) < farthest_from_waves);
}

bool DrumLadder::serves(const Family& family) const {
  models::BeltOnCover nip = family.nip;
  if (family_.axes.modulus) nip.cover.layer.modulus = family_.nip.cover.layer.modulus;
  if (family_.axes.speed) {
    // The way that the belt runs is no number.
    if (std::signbit(nip.cover.speed) != std::signbit(family_.nip.cover.speed)) return false;
    nip.cover.speed = family_.nip.cover.speed;
    nip.belt.tension = family_.nip.belt.tension;
    if (family.set_tension != family_.set_tension || family.belt_mass != family_.belt_mass)
      return false;
  }
  return family.deepest == family_.deepest && same(family.face, family_.face) &&
         same(nip, family_.nip);
}

double DrumLadder::tension_at(double speed) const {
  return std::max(
      0.0, family_.set_tension - models::centrifugal_tension(family_.belt_mass, std::abs(speed)));
}

std::shared_ptr<Drum> DrumLadder::rung(Place place) {
  const auto found = rungs_.find(place);
  if (found != rungs_.end()) return found->second;
  models::BeltOnCover nip = family_.nip;
  nip.cover.layer.modulus = std::exp(modulus_spacing * place.first);
  if (family_.axes.speed) {
    nip.cover.speed = std::copysign(std::exp(speed_spacing * place.second), nip.cover.speed);
    nip.belt.tension = tension_at(nip.cover.speed);
  }
  std::shared_ptr<Drum> made;
  try {
    made = std::make_shared<Drum>(nip, family_.face, family_.deepest, pairs_);
  } catch (const NumericsError&) {
    // The drum itself may still be one that can be followed.
  }
  return rungs_.emplace(place, std::move(made)).first->second;
}

std::unique_ptr<Drum> DrumLadder::between(const models::BeltOnCover& nip) {
  const Stencil modulus = stencil_at(nip.cover.layer.modulus, modulus_spacing);
  Stencil speed{0, {1.0}};
  if (family_.axes.speed) {
    speed = stencil_at(std::abs(nip.cover.speed), speed_spacing);
    // A belt that is about to go slack: what is left of its tension has a kink.
    if (family_.set_tension > 0.0 && tension_at(std::exp(speed_spacing * (speed.first + 3))) == 0.0)
      return nullptr;
  }
  std::vector<std::shared_ptr<Drum>> rungs;
  std::vector<double> shares;
  for (std::size_t j = 0; j < 4; ++j) {
    for (std::size_t i = 0; i < 4 && speed.shares[j] != 0.0; ++i) {
      rungs.push_back(
          rung({modulus.first + static_cast<int>(i), speed.first + static_cast<int>(j)}));
      if (!rungs.back()) return nullptr;
      shares.push_back(modulus.shares[i] * speed.shares[j]);
    }
  }
  try {
    return std::make_unique<Drum>(nip, std::move(rungs), std::move(shares), pairs_);
  } catch (const NumericsError&) {
    return nullptr;
  }
}

}  // namespace drumlin::sim::fast
