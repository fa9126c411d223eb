#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What a row of a study gives: a flat line of numbers, with columns that say what they are.
namespace drumlin::sim {

/// What became of a row.
enum class RowStatus {
  done,           ///< and accepted, as far as the case sets limits
  not_accepted,   ///< done; a limit is not met
  not_known,      ///< done; a limit is on something that the model does not give
  left_out,       ///< by a filter of the study
  bad_input,      ///< its values make no case
  not_converged,  ///< the numbers gave out
};

/// "done", "not accepted", "not known", "left out", "bad input", "not converged".
[[nodiscard]] std::string_view to_text(RowStatus status) noexcept;

struct Row {
  std::uint64_t index = 0;     ///< in the study
  std::vector<double> values;  ///< of the factors [inner unit, or number of the word]
  RowStatus status = RowStatus::done;
  std::string reason;  ///< why it is not done or not accepted; empty otherwise
  /// One per column, in the column's unit; no value where the model gives none.
  std::vector<std::optional<double>> outputs;
  double wall_s = 0;  ///< taken by the row; differs from run to run, so it is no part of the table
};

/// Neighbouring rows of a study: from `first` up to, not with, `end`.
struct RowRange {
  std::uint64_t first = 0;
  std::uint64_t end = 0;
};

}  // namespace drumlin::sim
