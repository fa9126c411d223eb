#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "cases/study.hpp"
#include "sim/study_analysis_result.hpp"

/// What a finished study says, from its table alone: memory is bounded whatever its length.
namespace drumlin::sim {

/// Takes some columns of neighbouring rows.
using TakeRows = std::function<void(std::uint64_t first, const std::vector<StudyValues>& columns)>;

/// A finished table, read a stretch of rows at a time.
struct StudyTable {
  const StudyHeader* header = nullptr;
  /// Hands over the columns asked for, stretch by stretch, from the first row to the last.
  std::function<void(const std::vector<std::size_t>& columns, const TakeRows& take)> each;
};

/// Rows that percentiles, corners, limits and pictures are made from; evenly spread over the study
/// where it is longer.
inline constexpr std::uint64_t most_rows_looked_at = 1'000'000;
/// Numbers kept of those rows: 128 MB. Many columns mean fewer rows.
inline constexpr std::uint64_t most_numbers_kept = 16'000'000;
/// Rows that rank correlations, shares by classes and the surface are made from.
inline constexpr std::size_t most_rows_fitted = 20'000;
/// Numbers of one output that shares of a pick-freeze design are made from: the first whole points.
inline constexpr std::uint64_t most_numbers_shared = std::uint64_t{1} << 20U;

/// @param wishes  aims with their bounds in the columns' units.
/// Throws what `table` throws.
[[nodiscard]] StudyAnalysis analyse(const StudyTable& table, const cases::StudyWishes& wishes);

/// Columns that an aim may name: those that hold numbers, outputs and factors.
[[nodiscard]] std::vector<std::size_t> columns_to_aim_at(const StudyHeader& header);

}  // namespace drumlin::sim
