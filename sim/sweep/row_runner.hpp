#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
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

  /// Rows by their index in the study, in the order asked for.
  /// @throws Stopped
  [[nodiscard]] std::vector<Row> run(std::span<const std::uint64_t> indices,
                                     const std::stop_token& stop = {});

  /// Rows from `first` up to, not with, `end`.
  [[nodiscard]] std::vector<Row> run(std::uint64_t first, std::uint64_t end,
                                     const std::stop_token& stop = {});

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace drumlin::sim
