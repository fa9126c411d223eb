#include "sim/sweep/forecast.hpp"

#include <algorithm>
#include <numeric>

#include "sim/sweep/study_table.hpp"

namespace drumlin::sim {
namespace {

constexpr std::uint64_t fast_rows_tried = 256;
constexpr std::uint64_t other_rows_tried = 6;

}  // namespace

Forecast forecast(const cases::Study& study, RowRunner& runner) {
  Forecast made;
  const bool fast = study.base.numerics.model == "fast";
  const std::uint64_t tried = std::min(study.rows(), fast ? fast_rows_tried : other_rows_tried);
  std::vector<std::uint64_t> numbers(tried);
  // In the middle of equal stretches: the first row of a grid is a corner.
  for (std::uint64_t i = 0; i < tried; ++i)
    numbers[i] = std::min(study.rows() - 1, study.rows() / tried * i + study.rows() / tried / 2);
  const std::vector<Row> rows = runner.run(numbers);
  made.header = header_of(study, runner, [](const std::string&) { return std::string("sample"); });
  made.header.rows = tried;
  made.header.rows_per_chunk = tried;
  made.sample = chunk_of(study, made.header, 0, rows);
  made.tried = rows.size();
  for (const Row& row : rows) {
    made.row_s += row.wall_s / static_cast<double>(rows.size());
    if (row.status == RowStatus::bad_input || row.status == RowStatus::not_converged) ++made.failed;
  }
  return made;
}

}  // namespace drumlin::sim
