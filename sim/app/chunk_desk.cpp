#include "sim/app/chunk_desk.hpp"

#include <mutex>
#include <utility>
#include <vector>

#include "sim/sweep/study_table.hpp"
#include "viz/study/chunk_file.hpp"

namespace drumlin::app {
namespace {

viz::RowTimes times_of(std::uint64_t chunk, const std::vector<sim::Row>& rows,
                       const std::string& computed_by, unsigned threads) {
  viz::RowTimes times{.chunk = chunk,
                      .first_row = rows.front().index,
                      .rows = rows.size(),
                      .slowest_row = rows.front().index,
                      .computed_by = computed_by,
                      .threads = threads};
  for (const sim::Row& row : rows) {
    times.rows_s += row.wall_s;
    if (row.wall_s <= times.slowest_s) continue;
    times.slowest_s = row.wall_s;
    times.slowest_row = row.index;
  }
  return times;
}

}  // namespace

void compute_chunks(const cases::Study& study, const sim::StudyHeader& header,
                    sim::RowRunner& runner, ChunkDesk& desk, const std::string& computed_by,
                    const std::stop_token& stop) {
  std::mutex taking;
  runner.stream(
      [&]() -> std::optional<sim::RowRange> {
        const auto chunk = desk.next();
        if (!chunk) return std::nullopt;
        return range_of(header, *chunk);
      },
      [&](sim::RowRange range, const std::vector<sim::Row>& rows) {
        const std::uint64_t number = range.first / header.rows_per_chunk;
        // Compressing is most of it, and every thread does it for itself.
        DoneChunk done{number, viz::chunk_file(header, chunk_of(study, header, number, rows)),
                       times_of(number, rows, computed_by, runner.threads())};
        const std::lock_guard lock(taking);
        desk.take(std::move(done));
      },
      stop);
}

}  // namespace drumlin::app
