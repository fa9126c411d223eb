#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "cases/study.hpp"
#include "sim/design/latin_hypercube.hpp"
#include "sim/design/pick_freeze.hpp"
#include "sim/design/sobol.hpp"

namespace drumlin::sim {

/// The values of every row of a study: a function of the study and the row's number alone.
///
/// Rows go replicate by replicate, points in order. In a grid the last factor changes fastest. A
/// factor with a distribution takes the design's own coordinate in a Latin hypercube and in a Sobol
/// sequence, and a draw of its own in every row of a grid or a list.
class RowPlan {
 public:
  /// @param study  must outlive the object.
  explicit RowPlan(const cases::Study& study);

  /// One value per factor [inner unit, or number of the word].
  /// @throws std::out_of_range for a row that the study does not have.
  [[nodiscard]] std::vector<double> values(std::uint64_t row) const;

  /// The filter that leaves a row out; null if none does.
  [[nodiscard]] const cases::Filter* left_out_by(const std::vector<double>& values) const noexcept;

 private:
  [[nodiscard]] double coordinate(std::uint64_t replicate, std::uint64_t point,
                                  std::size_t factor) const;
  void set_levels(std::uint64_t point, std::vector<double>& values) const;

  const cases::Study& study_;
  std::vector<std::uint64_t> seeds_;  // of the replicates
  std::vector<LatinHypercube> hypercubes_;
  std::vector<Sobol> sobols_;
  std::vector<PickFreezePoints> pick_freezes_;
};

}  // namespace drumlin::sim
