#pragma once

#include <memory>
#include <vector>

#include <Eigen/Core>

#include "sim/fast/line_kernel.hpp"
#include "sim/fast/section.hpp"

namespace drumlin::sim::fast {

/// All pairs of a section's cells, placed in the kernels' table: what their matrix needs that does
/// not depend on the drum.
class CellPairs {
 public:
  explicit CellPairs(const Section& section);

  /// How far belt and cover sink at one cell for pressure on another, times the cell's width
  /// [mm^3/N]: row the cell that sinks, column the one that is pressed; rows padded with zeros to
  /// whole groups.
  [[nodiscard]] Eigen::MatrixXd matrix(const LineKernel& kernel) const;

  /// Whether a section has these very cells.
  [[nodiscard]] bool serves(const Section& section) const {
    return section.from == from_ && section.to == to_;
  }

 private:
  std::vector<double> from_, to_;
  std::vector<Eigen::Index> low_;  // of each cell the number of its lower end
  Eigen::Index ends_ = 0;
  LineKernel::Places places_;  // of ends, all pairs i < j, j by j
};

/// The pairs of sections asked for last. Made or found they are the same.
class KeptPairs {
 public:
  [[nodiscard]] std::shared_ptr<const CellPairs> of(const Section& section);

 private:
  std::vector<std::shared_ptr<const CellPairs>> kept_;
  std::size_t oldest_ = 0;
};

}  // namespace drumlin::sim::fast
