#pragma once

#include <optional>
#include <span>
#include <stop_token>
#include <string>
#include <vector>

#include "cases/study.hpp"
#include "sim/fast/drums.hpp"
#include "sim/study_result.hpp"
#include "sim/verdict_result.hpp"

namespace drumlin::sim {

/// What scatter does to a row of a study: how often its limits are met, and the spread of the
/// margin that decides. All rows are drawn alike, so that they compare.
class RowDraws {
 public:
  /// @param scatter  must outlive the object.
  explicit RowDraws(const cases::RowScatter& scatter);

  /// Takes in the limits of a row, which get a column each.
  void learn(const Verdict& verdict);

  [[nodiscard]] std::vector<StudyColumn> columns() const;

  /// One value per column. Draws that could not be computed count as not met.
  /// @throws Stopped
  [[nodiscard]] std::vector<std::optional<double>> values(std::span<const double> row,
                                                          fast::Drums& drums,
                                                          const std::stop_token& stop) const;

 private:
  struct Tally;

  const cases::RowScatter& scatter_;
  std::vector<std::vector<double>> draws_;
  std::vector<std::string> limits_;
};

}  // namespace drumlin::sim
