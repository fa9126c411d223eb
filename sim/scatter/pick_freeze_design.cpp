#include "sim/scatter/pick_freeze_design.hpp"

namespace drumlin::sim {

PickFreezeDesign::PickFreezeDesign(std::size_t inputs, std::uint64_t size, std::uint64_t seed)
    : inputs_(inputs), size_(size), points_(inputs, seed) {}

std::vector<double> PickFreezeDesign::at(std::size_t set, std::uint64_t point) const {
  const std::uint64_t row = point * PickFreezePoints::rows_per_point(inputs_) + set;
  std::vector<double> coordinates(inputs_);
  for (std::size_t i = 0; i < inputs_; ++i)
    coordinates[i] = points_.at(row, i);
  return coordinates;
}

}  // namespace drumlin::sim
