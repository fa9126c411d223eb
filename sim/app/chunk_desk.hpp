#pragma once

#include <cstdint>
#include <optional>
#include <stop_token>
#include <string>

#include "cases/study.hpp"
#include "sim/study_result.hpp"
#include "sim/sweep/row_runner.hpp"
#include "viz/study/times_file.hpp"

namespace drumlin::app {

/// Rows that are computed, as the file that keeps them.
struct DoneChunk {
  std::uint64_t number = 0;
  std::string file;
  viz::RowTimes times;
};

/// Where the chunks of a study come from and where they go to: a folder of this machine, or another
/// process that holds it.
class ChunkDesk {
 public:
  virtual ~ChunkDesk() = default;

  /// The next chunk to compute, none at the end; asked by one thread at a time.
  [[nodiscard]] virtual std::optional<std::uint64_t> next() = 0;

  /// Takes a chunk that is done; called by one thread at a time, while another may ask for the
  /// next.
  /// @throws std::runtime_error if it cannot be kept.
  virtual void take(DoneChunk chunk) = 0;

 protected:
  ChunkDesk() = default;
  ChunkDesk(const ChunkDesk&) = default;
  ChunkDesk(ChunkDesk&&) = default;
  ChunkDesk& operator=(const ChunkDesk&) = default;
  ChunkDesk& operator=(ChunkDesk&&) = default;
};

/// Computes chunks on all threads of the runner until the desk has none left.
/// @param computed_by  what times.csv calls this process.
/// @throws sim::Stopped; what the desk throws.
void compute_chunks(const cases::Study& study, const sim::StudyHeader& header,
                    sim::RowRunner& runner, ChunkDesk& desk, const std::string& computed_by,
                    const std::stop_token& stop);

}  // namespace drumlin::app
