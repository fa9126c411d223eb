#pragma once

#include <memory>

#include "models/belt/nip_compliance.hpp"
#include "sim/numerics/line_response.hpp"
#include "sim/numerics/long_waves.hpp"
#include "sim/numerics/tilt.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim::line {

/// A drum with its belt as set: everything the nip's solvers take from a station.
class Drum {
 public:
  /// @param station       must outlive the drum.
  /// @param interference  delta [mm] at the plain face; finite strain goes with it.
  Drum(const BeltSetup& station, double interference);
  Drum(BeltSetup&& station, double interference) = delete;

  [[nodiscard]] const BeltSetup& station() const noexcept { return *station_; }
  /// Distance of the drum's surface from its lowest line [mm], at an arc [mm] from the axis. The
  /// flat layer of theory has the parabola.
  [[nodiscard]] double rise(double arc) const noexcept;
  /// Compliance of belt and cover, without the grains' own give.
  [[nodiscard]] Symbol belt_and_cover() const;
  /// Long-wave share of it, told once and kept; not for sharing between threads.
  ///
  /// @param window  period [mm]; doubled until it holds twice the span.
  /// @param span    largest distance that is asked for [mm].
  [[nodiscard]] const LongWaves& long_waves(double window, double span) const;
  /// With the grains' give.
  [[nodiscard]] Symbol compliance() const;
  /// What the roundness of the drum adds to it over a patch; nothing on a flat cover.
  [[nodiscard]] Tilt tilt(double half_span, double window) const;
  [[nodiscard]] double grain_compliance() const noexcept;
  [[nodiscard]] double bending_stiffness() const noexcept;
  /// Of the cover's surface through the nip along +x, 0 where motion is not followed [mm/s].
  [[nodiscard]] double cover_speed() const noexcept { return cover_speed_; }

 private:
  Drum(const BeltSetup& station, const models::BeltOnCover& nip);

  const BeltSetup* station_;
  double cover_speed_;
  models::NipCompliance nip_;
  mutable std::shared_ptr<const LongWaves> long_waves_;
};

}  // namespace drumlin::sim::line
