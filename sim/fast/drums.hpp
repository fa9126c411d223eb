#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

#include <Eigen/Core>

#include "models/belt/nip_compliance.hpp"
#include "sim/brush/brush_tool.hpp"
#include "sim/fast/drum_law.hpp"
#include "sim/fast/section.hpp"
#include "sim/fast/wearing_pass.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim::fast {

/// A drum with its belt, ready for every setting: all of the nip that does not depend on the
/// setting, the burr or the removal.
struct Drum {
  models::BeltOnCover nip;
  LineKernel kernel;
  DrumLaw law;

  Drum(const models::BeltOnCover& belt_on_cover, const DrumFace& face, double deepest);

  /// Highest pressure on a plain face [MPa]: the law's, straight in logarithms between
  /// interferences a seventh apart, each solved when first asked for (0.5 % off at most).
  [[nodiscard]] double peak_pressure(double interference);

  /// `pair_matrix` of the kernel and a section, kept for sections cut alike; stays until so many
  /// other ones have been asked for.
  [[nodiscard]] const Eigen::MatrixXd& pairs(const Section& section);

 private:
  struct Pairs {
    std::vector<double> from, to;  // of the cells it was made for
    Eigen::MatrixXd matrix;
  };
  [[nodiscard]] double log_peak(std::size_t place);

  std::vector<std::optional<double>> log_peaks_;
  std::vector<std::unique_ptr<Pairs>> pairs_;
  std::size_t oldest_ = 0;  // of the pairs, once there are as many as are kept
};

/// The drums and brushes of a line, kept from case to case: a case that changes neither cover, belt
/// nor belt speed of a station finds its drum made. With finite strain the cover's stiffness goes
/// with the interference, so a drum then serves one interference only.
///
/// A drum is the same whether it was made for the case or found: answers do not depend on what was
/// asked before.
class Drums {
 public:
  /// @param kept  drums per station that are kept: many for cases that come back to the same few.
  explicit Drums(std::size_t kept = 1) : kept_(kept) {}

  /// The drum of a station at an interference; stays until the station's next call.
  Drum& of(std::size_t index, const BeltSetup& station, double interference);

  [[nodiscard]] BrushTools& brushes() noexcept { return brushes_; }

  /// Drums made so far.
  [[nodiscard]] int made() const noexcept { return made_; }

 private:
  std::size_t kept_;
  std::vector<std::vector<std::unique_ptr<Drum>>> drums_;  // by station, asked for last in front
  BrushTools brushes_;
  int made_ = 0;
};

/// What a station's belt does to the part.
[[nodiscard]] Abrasion abrasion_of(const BeltSetup& station);

}  // namespace drumlin::sim::fast
