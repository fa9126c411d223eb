#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <stop_token>
#include <vector>

#include "cases/study.hpp"
#include "sim/study_result.hpp"
#include "sim/sweep_result.hpp"

namespace drumlin::sim {

/// Runs rows of a study on all cores.
///
/// A row's numbers depend on the study and its index alone: not on threads, on other rows, on the
/// order or on what was run before. Bands and studies that a single run adds are left out; nothing
/// grows with the number of rows but what is returned.
class RowRunner {
 public:
  /// @param study    must outlive the object.
  /// @param threads  0: as many as there are cores.
  /// @throws cases::CaseError or NumericsError if not one of the study's cases could be run to
  /// learn
  ///         what columns there are.
  RowRunner(const cases::Study& study, unsigned threads = 0);
  ~RowRunner();
  RowRunner(const RowRunner&) = delete;
  RowRunner& operator=(const RowRunner&) = delete;
  RowRunner(RowRunner&&) = delete;
  RowRunner& operator=(RowRunner&&) = delete;

  [[nodiscard]] const std::vector<StudyColumn>& columns() const noexcept;

  /// Outputs of the first case that ran to learn the columns: what materials, models and the
  /// machine's arithmetic make of it.
  [[nodiscard]] const std::vector<std::optional<double>>& first_outputs() const noexcept;

  /// Rows by their index in the study, in the order asked for.
  /// @throws Stopped
  [[nodiscard]] std::vector<Row> run(std::span<const std::uint64_t> indices,
                                     const std::stop_token& stop = {});

  /// Rows from `first` up to, not with, `end`.
  [[nodiscard]] std::vector<Row> run(std::uint64_t first, std::uint64_t end,
                                     const std::stop_token& stop = {});

  /// Ranges of rows on all cores at once, until there are none left or a stop is asked for.
  ///
  /// @param next  the next range, none at the end; asked by one thread at a time.
  /// @param take  gets a range's rows once they are done, ranges in any order; several threads may
  ///              call it at once. What it throws ends the work.
  /// @throws Stopped; ranges that were taken before are whole.
  void stream(const std::function<std::optional<RowRange>()>& next,
              const std::function<void(RowRange, std::vector<Row>)>& take,
              const std::stop_token& stop = {});

  /// Threads that rows are run on.
  [[nodiscard]] unsigned threads() const noexcept;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace drumlin::sim
