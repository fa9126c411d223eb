#include "viz/study/rows_csv.hpp"

#include <map>

#include "viz/atomic_file.hpp"

namespace drumlin::viz {

void write_rows_csv(const StudyFile& study, const std::vector<std::uint64_t>& rows,
                    const std::vector<std::size_t>& columns, const std::filesystem::path& file) {
  const sim::StudyHeader& header = study.header();
  std::map<std::uint64_t, std::string> lines;  // by row, so that every stretch is read once
  for (const std::uint64_t row : rows)
    lines[row];
  for (auto at = lines.begin(); at != lines.end();) {
    const std::uint64_t chunk = at->first / header.rows_per_chunk;
    const std::uint64_t first = header.first_row(chunk);
    const auto end = lines.lower_bound(first + header.rows_of(chunk));
    for (std::size_t k = 0; k < columns.size(); ++k) {
      const sim::StudyValues values = study.read(columns[k], first, header.rows_of(chunk));
      for (auto line = at; line != end; ++line)
        line->second += (k == 0 ? "" : ",") + csv_cell(values, line->first - first);
    }
    at = end;
  }
  std::string text;
  for (std::size_t k = 0; k < columns.size(); ++k)
    text += (k == 0 ? "" : ",") + csv_heading(header.columns[columns[k]]);
  text += "\r\n";
  for (const std::uint64_t row : rows)
    text += lines[row] + "\r\n";
  write_whole_file(file, text);
}

}  // namespace drumlin::viz
