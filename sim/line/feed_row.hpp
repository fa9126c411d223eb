#pragma once

#include <cstddef>
#include <vector>

#include "sim/line/drum.hpp"
#include "sim/line/plain_nip.hpp"

namespace drumlin::sim::line {

/// The plain nip along the feed: pressure where it presses, gap beside it.
class FeedRow {
 public:
  /// @param room  gap that must be told on both sides [mm].
  FeedRow(const Drum& drum, const PlainPass& plain, double room);

  /// Between places [mm].
  [[nodiscard]] double spacing() const noexcept { return spacing_; }
  /// [MPa] at each place.
  [[nodiscard]] const std::vector<double>& pressure() const noexcept { return pressure_; }
  /// Where a drum that stands `gap` off the face there comes to, and where it leaves it [mm].
  [[nodiscard]] double begins(double gap) const;
  [[nodiscard]] double ends(double gap) const;
  /// Mean pressure between two places [MPa].
  [[nodiscard]] double mean_pressure(double from, double to) const;
  /// [mm] between drum and face at a place from the axis; 0 where they touch.
  [[nodiscard]] double gap(double offset) const { return read(gap_, offset); }
  /// Place of the pressure's middle [mm].
  [[nodiscard]] double centre() const;
  /// Of place i from the axis [mm].
  [[nodiscard]] double offset(std::size_t i) const noexcept {
    return first_ + static_cast<double>(i) * spacing_;
  }

 private:
  [[nodiscard]] double read(const std::vector<double>& values, double offset) const;

  double first_ = 0;
  double spacing_ = 0;
  std::vector<double> pressure_;
  std::vector<double> load_;  // [N/mm] up to the end of each place
  std::vector<double> gap_;   // [mm], 0 where it presses
};

}  // namespace drumlin::sim::line
