#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numeric>
#include <optional>
#include <utility>
#include <vector>

#include "sim/line/plain_nip.hpp"

namespace drumlin::sim::line {

/// A plain face under the drum on even cells, the axis over the middle one.
class PlainRow {
 public:
  PlainRow(const Drum& drum, double spacing, double half_span, double window)
      : drum_(drum),
        spacing_(spacing),
        half_(static_cast<std::size_t>(std::ceil(half_span / spacing))),
        compliance_(
            LineCompliance(drum.belt_and_cover(), drum.grain_compliance(), spacing, 2 * half_ + 1,
                           drum.long_waves(window, 2.0 * (half_span + spacing))),
            drum.tilt(half_span + spacing, window)),
        metal_(2 * half_ + 1, 1),
        overlap_(metal_.size()),
        pressure_(metal_.size(), 0.0) {
    compliance_.tilt().place(
        metal_.size(), [&](std::size_t i) { return offset(i); },
        [&](std::size_t) { return spacing_; });
  }

  /// Takes another nip's pressure as a guess.
  void guess(const PlainRow& other);
  /// Presses without wear.
  void press(double interference);
  /// Presses while the columns pass through and wear; no value if that was not found.
  std::optional<PlainPass> wear(const PlainFace& face, double interference);
  /// The same from where a drum that has come a long way stands at the end.
  PlainPass march(const PlainFace& face, double interference, double window);

  [[nodiscard]] double offset(std::size_t cell) const noexcept {
    return (static_cast<double>(cell) - static_cast<double>(half_)) * spacing_;
  }
  [[nodiscard]] double line_load() const {
    return std::accumulate(pressure_.begin(), pressure_.end(), 0.0) * spacing_;
  }
  [[nodiscard]] double peak_pressure() const {
    return *std::max_element(pressure_.begin(), pressure_.end());
  }
  /// Farthest pressed place towards -x and towards +x [mm].
  [[nodiscard]] std::pair<double, double> pressed() const;
  [[nodiscard]] double line_load_slope();
  [[nodiscard]] double lean() const;
  [[nodiscard]] double rolling_loss();

 private:
  void lay_over(double interference);
  void check(const ContactReport& report) const;
  template <class Law>
  void wear_columns(const PlainFace& face);
  /// What stands for the slope of each cell's removal in the linearised problem.
  enum class Slopes { own, even };
  [[nodiscard]] bool solve_wearing(const PlainFace& face, double interference, Slopes slopes);

  const Drum& drum_;
  double spacing_;
  std::size_t half_;
  Tilted<LineCompliance> compliance_;
  ContactSolver solver_;
  std::vector<std::uint8_t> metal_;
  std::vector<double> overlap_, pressure_;
  std::vector<double> removed_, slope_;  // to each cell's middle [mm]; of a cell's removal [mm/MPa]
  double left_coating_ = 0;
  double left_top_ = 0;
  double removed_in_all_ = 0;
};

}  // namespace drumlin::sim::line
