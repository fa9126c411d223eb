#include <cmath>
#include <fstream>
#include <numeric>
#include <stdexcept>
#include <string>

#include <fmt/format.h>

#include "viz/atomic_file.hpp"
#include "viz/study/rows_csv.hpp"

namespace drumlin::viz {
namespace {

std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

}  // namespace

std::string csv_cell(const sim::StudyValues& values, std::size_t row) {
  if (const auto* numbers = std::get_if<std::vector<double>>(&values))
    return std::isnan((*numbers)[row]) ? std::string() : fmt::format("{}", (*numbers)[row]);
  return quoted(std::get<std::vector<std::string>>(values)[row]);
}

std::string csv_heading(const sim::StudyColumn& column) {
  const bool bare = column.unit.empty() || column.unit == "1" || column.unit == "text" ||
                    column.role == "output";  // an output's name carries its unit
  return quoted(bare ? column.name : fmt::format("{} [{}]", column.name, column.unit));
}

void write_study_csv(const StudyFile& study, const std::filesystem::path& file) {
  const sim::StudyHeader& header = study.header();
  AtomicFile out(file);
  std::ofstream text(out.path(), std::ios::binary);
  for (std::size_t i = 0; i < header.columns.size(); ++i)
    text << (i == 0 ? "" : ",") << csv_heading(header.columns[i]);
  text << "\r\n";
  std::vector<std::size_t> all(header.columns.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  study.each(all, [&](std::uint64_t first, const std::vector<sim::StudyValues>& columns) {
    const std::uint64_t rows = header.rows_of(first / header.rows_per_chunk);
    for (std::size_t row = 0; row < rows; ++row) {
      for (std::size_t k = 0; k < columns.size(); ++k)
        text << (k == 0 ? "" : ",") << csv_cell(columns[k], row);
      text << "\r\n";
    }
  });
  text.close();
  if (!text) throw std::runtime_error(file.string() + ": could not be written");
  out.commit();
}

}  // namespace drumlin::viz
