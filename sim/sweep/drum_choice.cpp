#include "sim/sweep/drum_choice.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <memory>
#include <utility>
#include <variant>

#include "sim/drum_state.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {
namespace {

/// Rows that are looked at.
constexpr std::uint64_t looked_at = 64;
/// Rows of a study from which on drums come from between rungs. It would pay from some hundreds on;
/// but then a row is no more its own single run to the last bit, and a minute saved is worth that
/// only where it is many.
constexpr std::uint64_t rows_for_rungs = 100'000;
/// Ladders that are no more trouble than one.
constexpr std::size_t few = 4;

/// What the drums of one station have in common over the rows looked at.
class Seen {
 public:
  void add(const BeltSetup& station) {
    const fast::DrumLadder::Family family{
        .nip = nip_of(station, std::max(estimated_interference(station) +
                                            station.interference_offset + cover_growth(station),
                                        0.0)),
        .face = {.radius = station.radius,
                 .circular = station.options.curved,
                 .grain_compliance = station.belt.grain_compliance},
        .deepest = station.cover.thickness,
        .set_tension = station.belt.tension,
        .belt_mass = station.belt_mass,
        .axes = {}};
    add(family, {}, drums_);
    add(family, {.modulus = true, .speed = false}, of_modulus_);
    add(family, {.modulus = true, .speed = station.options.moving}, of_both_);
    // Where the nip's interference is solved for, every row has its own.
    const bool set = std::holds_alternative<cases::InterferenceSetting>(station.setting) &&
                     station.frame_compliance <= 0.0;
    if ((station.options.finite_strain || station.options.moving) && !set) solved_for_ = true;
  }

  [[nodiscard]] fast::LadderAxes axes(std::uint64_t rows, std::size_t kept) const {
    if (rows < rows_for_rungs || (drums_.size() <= kept && !solved_for_)) return {};
    if (of_modulus_.size() <= few) return {.modulus = true, .speed = false};
    if (of_both_.size() <= few) return {.modulus = true, .speed = true};
    return {};
  }

 private:
  using Ladders = std::vector<fast::DrumLadder>;

  static void add(fast::DrumLadder::Family family, fast::LadderAxes axes, Ladders& ladders) {
    family.axes = axes;
    if (std::none_of(ladders.begin(), ladders.end(),
                     [&](const fast::DrumLadder& ladder) { return ladder.serves(family); }))
      ladders.emplace_back(std::move(family), nullptr);
  }

  Ladders drums_, of_modulus_, of_both_;
  bool solved_for_ = false;
};

}  // namespace

std::vector<fast::LadderAxes> drum_axes(const cases::Study& study, const RowPlan& plan,
                                        std::size_t kept) {
  std::vector<Seen> seen;
  const std::uint64_t stride = std::max<std::uint64_t>(study.rows() / looked_at, 1);
  for (std::uint64_t row = 0; row < study.rows() && study.rows() >= rows_for_rungs; row += stride) {
    try {
      const Setup setup = set_up(study.with(plan.values(row)));
      seen.resize(std::max(seen.size(), setup.stations.size()));
      for (std::size_t i = 0; i < setup.stations.size(); ++i)
        if (const auto* belt = std::get_if<BeltSetup>(&setup.stations[i])) seen[i].add(*belt);
    } catch (const cases::CaseError&) {
      continue;
    }
  }
  std::vector<fast::LadderAxes> axes;
  for (const Seen& station : seen)
    axes.push_back(station.axes(study.rows(), kept));
  return axes;
}

}  // namespace drumlin::sim
