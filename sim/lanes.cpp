#include "sim/lanes.hpp"

#include <algorithm>
#include <cmath>

#include "models/line/cost_per_part.hpp"

namespace drumlin::sim {

double across(const cases::Part& part, double angle) noexcept {
  return part.width * std::abs(std::cos(angle)) + part.length * std::abs(std::sin(angle));
}

double along(const cases::Part& part, double angle) noexcept {
  return part.length * std::abs(std::cos(angle)) + part.width * std::abs(std::sin(angle));
}

double widest_chord(const cases::Part& part, double angle) noexcept {
  // A line at an angle leaves a rectangle through its ends or through its sides.
  const double c = std::abs(std::cos(angle));
  const double s = std::abs(std::sin(angle));
  if (s * part.width <= c * part.length) return part.width / c;
  return part.length / s;
}

int lanes_at(const cases::Part& part, const cases::Conveyor& conveyor, double angle) noexcept {
  // As they lie the parts take lanes (width + gap) with one gap to spare; rounding must not lose
  // the last lane of them.
  const double taken = std::max(conveyor.lanes, 1) * (across(part, part.angle) + conveyor.gap);
  const double fit = taken / (across(part, angle) + conveyor.gap);
  return std::max(static_cast<int>(std::floor(fit * (1.0 + 1e-9))), 1);
}

double throughput(const cases::Part& part, const cases::Conveyor& conveyor, double angle) noexcept {
  return models::parts_per_time(lanes_at(part, conveyor, angle), conveyor.speed, along(part, angle),
                                conveyor.gap, conveyor.passes);
}

}  // namespace drumlin::sim
