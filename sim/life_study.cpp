#include "sim/life_study.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "sim/belt_life.hpp"
#include "sim/belt_wear.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/verdict.hpp"

namespace drumlin::sim {
namespace {

Quantity with_band(double value, const BeltWearSetup& wear) {
  return Banded{.value = value, .low = value * wear.life_low, .high = value * wear.life_high};
}

BeltLife life_of(const Setup& fresh, const BeltLives& lives, std::size_t index) {
  const BeltWearSetup& wear = fresh.belt(index).wear;
  const cases::Belt& belt = std::get<cases::BeltStation>(fresh.scenario.stations[index]).belt;
  const double parts = lives.parts_at(index, 1.0);
  BeltLife life;
  life.station = static_cast<int>(index);
  life.parts = with_band(parts, wear);
  life.time = with_band(lives.time_of(parts), wear);
  life.length = with_band(lives.length_of(parts), wear);
  life.worn_share = sharpness_at(wear, fresh.belt(index).top.clogging, 1.0);
  life.origin = belt.life ? "the case"
                          : fmt::format("grinding ratio {:.3g} of {} grain",
                                        belt.abrasive.grinding_ratio.value, belt.abrasive.name);
  return life;
}

class Study {
 public:
  Study(const Setup& fresh, const Rerun& rerun, const BeltLives& lives)
      : fresh_(fresh), rerun_(rerun), lives_(lives) {}

  [[nodiscard]] LifePoint at(std::string when, double parts) const;
  /// Parts at which the verdict turns, to a hundredth of the life.
  [[nodiscard]] double turning(double end) const;

 private:
  const Setup& fresh_;
  const Rerun& rerun_;
  const BeltLives& lives_;
};

LifePoint Study::at(std::string when, double parts) const {
  const Setup line = worn_line(fresh_, lives_, parts);
  StatedAnswer answer = rerun_(line);
  LifePoint point;
  point.when = std::move(when);
  point.parts = parts;
  point.time = lives_.time_of(parts);
  for (const auto& station : line.stations)
    if (const auto* belt = std::get_if<BeltSetup>(&station))
      point.sharpness.push_back(belt->wear.sharpness);
  for (const auto& station : answer.stations)
    if (station.power) point.power += station.power->value;
  point.verdict = judge(line.scenario.accept, answer.part);
  point.part = std::move(answer.part);
  return point;
}

double Study::turning(double end) const {
  double holds = 0.0;
  double lost = end;
  while (lost - holds > 0.01 * end) {
    const double middle = 0.5 * (holds + lost);
    (at({}, middle).verdict.accepted ? holds : lost) = middle;
  }
  return 0.5 * (holds + lost);
}

double face_removal(const Setup& setup, fast::Drums& drums, const std::stop_token& stop) {
  const auto answer = fast::state(setup, fast::simulate(setup, drums, stop), /*waves=*/false);
  return answer.part.face.removal->value;
}

/// Feed at which worn belts take off the face what fresh ones do [mm/s]. Removal falls about as the
/// feed rises, so what is missing tells the next guess.
std::optional<double> equal_feed(Setup fresh, const BeltLives& lives, double parts,
                                 const std::stop_token& stop) {
  fresh.scenario.part.features.clear();
  fast::Drums drums;
  const double wanted = face_removal(fresh, drums, stop);
  Setup worn = worn_line(fresh, lives, parts);
  double feed = fresh.scenario.conveyor.speed;
  for (int i = 0; i < 20; ++i) {
    const double made = face_removal(worn, drums, stop);
    if (made <= 0.0) return std::nullopt;
    if (std::abs(made / wanted - 1.0) < 1e-4) return feed;
    feed *= made / wanted;
    set_feed(worn, feed);
  }
  return std::nullopt;
}

}  // namespace

std::optional<LifeStudy> study_life(const Setup& fresh, const Rerun& rerun,
                                    const std::stop_token& stop) {
  const bool any = std::any_of(fresh.stations.begin(), fresh.stations.end(),
                               [](const auto& s) { return std::holds_alternative<BeltSetup>(s); });
  if (!any) return std::nullopt;
  const BeltLives lives(fresh, stop);
  LifeStudy study;
  study.model = fresh.scenario.numerics.model;
  study.feed = fresh.scenario.conveyor.speed;
  double end = std::numeric_limits<double>::infinity();
  double low = 1.0;
  double high = 1.0;
  for (std::size_t i = 0; i < fresh.stations.size(); ++i) {
    if (!lives.wears(i)) continue;
    study.belts.push_back(life_of(fresh, lives, i));
    if (study.belts.back().parts->value >= end) continue;
    end = study.belts.back().parts->value;
    low = fresh.belt(i).wear.life_low;
    high = fresh.belt(i).wear.life_high;
  }
  if (study.belts.empty()) return std::nullopt;
  const Study line(fresh, rerun, lives);
  study.points = {line.at("fresh", 0.0), line.at("half life", 0.5 * end),
                  line.at("end of life", end)};
  if (study.points.front().verdict.accepted && !study.points.back().verdict.accepted) {
    const double parts = line.turning(end);
    study.lost_after = Banded{.value = parts, .low = parts * low, .high = parts * high};
    study.lost = study.points.back().verdict.decided_by;
  }
  study.feed_for_equal_removal = equal_feed(fresh, lives, end, stop);
  return study;
}

}  // namespace drumlin::sim
