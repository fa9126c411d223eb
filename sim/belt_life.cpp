#include "sim/belt_life.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>
#include <variant>

#include "sim/belt_wear.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/lanes.hpp"

namespace drumlin::sim {
namespace {

/// Shares of life at which the line is solved: closer where belts dull fast.
constexpr auto ages = std::to_array<double>({0.0, 0.08, 0.2, 0.4, 0.7, 1.0});

/// What each station presses with while the plain face wears [N/mm].
std::vector<double> working_line_loads(const Setup& setup, fast::Drums& drums,
                                       const std::stop_token& stop) {
  const auto answer = fast::state(setup, fast::simulate(setup, drums, stop), /*waves=*/false);
  std::vector<double> loads;
  for (const auto& station : answer.stations)
    loads.push_back(station.working_line_load ? station.working_line_load->value : 0.0);
  return loads;
}

std::optional<cases::Amount> age_of(const Setup& setup, std::size_t station) {
  const auto* belt = std::get_if<cases::BeltStation>(&setup.scenario.stations[station]);
  return belt == nullptr ? std::nullopt : belt->belt_age;
}

}  // namespace

BeltLives::BeltLives(const Setup& fresh, const std::stop_token& stop) {
  const cases::Case& scenario = fresh.scenario;
  const cases::Part& part = scenario.part;
  part_length_ = along(part, part.angle);
  part_area_ = part.length * part.width;
  lanes_ = std::max(scenario.conveyor.lanes, 1);
  throughput_ = throughput(part, scenario.conveyor, part.angle);
  belts_.resize(fresh.stations.size());
  Setup once = fresh;
  // Only the plain face counts here.
  once.scenario.part.features.clear();
  once.scenario.conveyor.passes = 1;
  // Wear of belts leaves drums as they are.
  fast::Drums drums;
  for (const double age : ages) {
    Setup line = once;
    for (auto& station : line.stations)
      if (auto* belt = std::get_if<BeltSetup>(&station)) wear_belt(*belt, age);
    const auto loads = working_line_loads(line, drums, stop);
    for (std::size_t i = 0; i < belts_.size(); ++i) {
      const auto* belt = std::get_if<BeltSetup>(&fresh.stations[i]);
      if (belt == nullptr) continue;
      belts_[i].depth.push_back(belt->friction * loads[i] * belt->sliding_speed /
                                (belt->feed * belt->specific_energy));
    }
  }
  for (std::size_t i = 0; i < belts_.size(); ++i) {
    const auto* belt = std::get_if<BeltSetup>(&fresh.stations[i]);
    if (belt == nullptr) continue;
    belts_[i].parts_per_integral = lanes_ * belt->wear.belt_length *
                                   belt->wear.dulling.life_volume /
                                   (part_length_ * scenario.conveyor.passes);
    const auto& stated = std::get<cases::BeltStation>(scenario.stations[i]).belt.life;
    // A life that the case states takes the place of what the grain would stand.
    if (stated && wears(i)) belts_[i].parts_per_integral *= parts_of(i, *stated) / parts_at(i, 1.0);
  }
}

bool BeltLives::wears(std::size_t station) const noexcept {
  const auto& depth = belts_[station].depth;
  return !depth.empty() &&
         std::all_of(depth.begin(), depth.end(), [](double h) { return h > 0.0; });
}

double BeltLives::integral(const Belt& belt, double life_share) const {
  const auto depth = [&](double x) {
    const auto above = std::upper_bound(ages.begin() + 1, ages.end() - 1, x);
    const auto k = static_cast<std::size_t>(above - ages.begin());
    const double t = (x - ages.at(k - 1)) / (ages.at(k) - ages.at(k - 1));
    return std::lerp(belt.depth[k - 1], belt.depth[k], t);
  };
  // Simpson's rule between the ages, where everything is smooth.
  constexpr int halves = 16;
  double sum = 0.0;
  for (std::size_t k = 1; k < ages.size() && ages.at(k - 1) < life_share; ++k) {
    const double start = ages.at(k - 1);
    const double width = (std::min(ages.at(k), life_share) - start) / (2 * halves);
    for (int i = 0; i <= 2 * halves; ++i) {
      const double weight = i == 0 || i == 2 * halves ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
      sum += weight * width / 3.0 / depth(start + i * width);
    }
  }
  return sum;
}

double BeltLives::parts_at(std::size_t station, double life_share) const {
  if (!wears(station)) return std::numeric_limits<double>::infinity();
  const Belt& belt = belts_[station];
  return belt.parts_per_integral * integral(belt, std::min(life_share, 1.0));
}

double BeltLives::share_after(std::size_t station, double parts) const {
  if (!wears(station) || parts <= 0.0) return 0.0;
  if (parts >= parts_at(station, 1.0)) return 1.0;
  double low = 0.0;
  double high = 1.0;
  while (high - low > 1e-12) {
    const double middle = 0.5 * (low + high);
    (parts_at(station, middle) < parts ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

double BeltLives::parts_of(std::size_t station, const cases::Amount& amount) const {
  switch (amount.of) {
    case cases::Amount::Of::parts:
      return amount.value;
    case cases::Amount::Of::area:
      return amount.value / part_area_;
    case cases::Amount::Of::length:
      return lanes_ * amount.value / part_length_;
    case cases::Amount::Of::time:
      return amount.value * throughput_;
    case cases::Amount::Of::life:
      break;
  }
  return parts_at(station, amount.value);
}

double BeltLives::time_of(double parts) const noexcept {
  return parts / throughput_;
}

double BeltLives::length_of(double parts) const noexcept {
  return parts * part_length_ / lanes_;
}

Setup worn_line(const Setup& fresh, const BeltLives& lives, double parts) {
  Setup line = fresh;
  for (std::size_t i = 0; i < line.stations.size(); ++i) {
    auto* belt = std::get_if<BeltSetup>(&line.stations[i]);
    if (belt != nullptr && lives.wears(i)) wear_belt(*belt, lives.share_after(i, parts));
  }
  return line;
}

Setup with_belt_ages(const Setup& fresh, const BeltLives& lives) {
  Setup line = fresh;
  for (std::size_t i = 0; i < line.stations.size(); ++i) {
    const auto age = age_of(fresh, i);
    if (!age || age->value <= 0.0) continue;
    const bool as_share = age->of == cases::Amount::Of::life;
    wear_belt(line.belt(i), as_share ? age->value : lives.share_after(i, lives.parts_of(i, *age)));
  }
  return line;
}

Setup with_belt_ages(const Setup& fresh, const std::stop_token& stop) {
  for (std::size_t i = 0; i < fresh.stations.size(); ++i)
    if (age_of(fresh, i)) return with_belt_ages(fresh, BeltLives(fresh, stop));
  return fresh;
}

}  // namespace drumlin::sim
