#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "sim/study_analysis/analyse.hpp"
#include "sim/study_analysis/front_archive.hpp"
#include "sim/sweep_result.hpp"

/// The parts of a study's analysis.
namespace drumlin::sim {

/// Columns that an analysis reads.
struct ReadColumns {
  std::size_t status = 0;
  std::size_t reason = 0;
  std::vector<std::size_t> factors;
  std::vector<std::size_t> outputs;  ///< the main ones: aims first
  std::vector<std::size_t> limits;   ///< their margins
};

[[nodiscard]] ReadColumns columns_of(const StudyHeader& header,
                                     const std::vector<AimedColumn>& aims);

/// Some rows of the study, column by column.
struct LookedAt {
  std::vector<std::uint64_t> rows;
  std::vector<RowStatus> statuses;
  std::vector<std::vector<double>> factors;     ///< numbers of the words where it holds words
  std::vector<std::vector<std::string>> words;  ///< per factor, sorted; empty for numbers
  std::vector<std::vector<double>> outputs;
  std::vector<std::vector<double>> limits;
};

[[nodiscard]] bool has_numbers(RowStatus status) noexcept;
[[nodiscard]] bool has_failed(RowStatus status) noexcept;
[[nodiscard]] RowStatus status_of(const std::string& text);

/// Which rows are looked at: of every stretch of equal length one row at a random place, so that
/// the step of a grid is not met. Of a pick-freeze design only the rows A and B, which are
/// independent of each other, while the others repeat their values.
class Choice {
 public:
  /// @param columns  kept of each row.
  Choice(std::uint64_t rows, std::size_t columns, std::size_t factors, bool pick_freeze);
  [[nodiscard]] bool takes(std::uint64_t row) const noexcept;

 private:
  std::uint64_t per_point_;  // rows of which the first two count; 1: all count
  std::uint64_t stride_;
};

/// Both fronts, row by row.
class Fronts {
 public:
  explicit Fronts(std::vector<AimedColumn> aims)
      : aims_(std::move(aims)), accepted_(aims_.size()), all_(aims_.size()) {}

  /// @param values  of the aims' columns.
  void offer(std::uint64_t row, RowStatus status, std::span<const double> values);
  /// Whether every row has to be offered to `strike` too.
  [[nodiscard]] bool thinned() const { return accepted_.thinned() || all_.thinned(); }
  void strike(RowStatus status, std::span<const double> values);
  void put_into(StudyAnalysis& analysis) const;

 private:
  /// Aims with the smaller the better; nothing where one is not a number.
  [[nodiscard]] std::optional<std::vector<double>> turned(std::span<const double> values) const;
  [[nodiscard]] bool in_bounds(std::span<const double> values) const;
  [[nodiscard]] Front front(const FrontArchive& archive) const;

  std::vector<AimedColumn> aims_;
  FrontArchive accepted_;
  FrontArchive all_;
};

/// One pass over the table: counts into `analysis`, fronts, and the rows that are looked at.
[[nodiscard]] LookedAt look(const StudyTable& table, const ReadColumns& columns, bool pick_freeze,
                            StudyAnalysis& analysis);

/// Rows of a kind by quarters of a factor, or by its values where it has few.
/// @param counted  rows that could be of the kind; @param hit  those that are.
[[nodiscard]] std::vector<Corner> corners(const LookedAt& rows, const ReadColumns& columns,
                                          const std::vector<bool>& counted,
                                          const std::vector<bool>& hit);

/// Shares of the variance and rank correlations of some of the outputs.
/// @param targets  indices into `columns.outputs`.
void add_shares(const StudyTable& table, const cases::StudyWishes& wishes, const LookedAt& rows,
                const ReadColumns& columns, const std::vector<std::size_t>& targets,
                StudyAnalysis& analysis);

/// Rows farthest from a quadratic surface through all.
void add_odd_rows(const LookedAt& rows, const ReadColumns& columns,
                  const std::vector<std::size_t>& targets, StudyAnalysis& analysis);

/// Indices into the rows looked at of at most `most_rows_fitted` of them that have the number.
[[nodiscard]] std::vector<std::size_t> rows_with(const LookedAt& rows, std::size_t output);

}  // namespace drumlin::sim
