#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

#include <Eigen/Core>

#include "models/belt/nip_compliance.hpp"
#include "sim/fast/cell_pairs.hpp"
#include "sim/fast/drum_law.hpp"

namespace drumlin::sim::fast {

/// A drum with its belt, ready for every setting: all of the nip that does not depend on the
/// setting, the burr or the removal.
struct Drum {
  models::BeltOnCover nip;
  DrumLaw law;

  Drum(const models::BeltOnCover& belt_on_cover, const DrumFace& face, double deepest,
       std::shared_ptr<KeptPairs> pairs = std::make_shared<KeptPairs>());

  /// Between drums that differ from this one in their compliance alone, with shares that
  /// interpolate.
  /// @throws NumericsError as DrumLaw does.
  Drum(const models::BeltOnCover& belt_on_cover, std::vector<std::shared_ptr<Drum>> of,
       std::vector<double> shares, std::shared_ptr<KeptPairs> pairs);

  /// Highest pressure on a plain face [MPa]: the law's, straight in logarithms between
  /// interferences a seventh apart, each solved when first asked for (0.5 % off at most).
  [[nodiscard]] double peak_pressure(double interference);

  /// `CellPairs::matrix` of a section and the kernel, kept for sections cut alike; stays until so
  /// many other ones have been asked for.
  [[nodiscard]] const Eigen::MatrixXd& pairs(const Section& section);

 private:
  struct Pairs {
    std::shared_ptr<const CellPairs> cells;
    Eigen::MatrixXd matrix;
  };
  [[nodiscard]] double log_peak(std::size_t place);

  std::vector<std::shared_ptr<Drum>> of_;  // empty: a drum of its own
  std::vector<double> shares_;
  std::shared_ptr<KeptPairs> known_pairs_;
  std::vector<std::optional<double>> log_peaks_;
  std::vector<std::unique_ptr<Pairs>> pairs_;
  std::size_t oldest_ = 0;  // of the pairs, once there are as many as are kept
};

}  // namespace drumlin::sim::fast
