#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "cases/file_text.hpp"
#include "sim/app/sweep_parts.hpp"
#include "sim/sweep/forecast.hpp"
#include "sim/sweep/study_table.hpp"
#include "viz/study/chunk_file.hpp"

namespace drumlin::app {
namespace {

constexpr std::size_t reasons_shown = 5;

std::string duration_text(double seconds) {
  if (seconds < 100.0) return fmt::format("{:.2g} s", seconds);
  if (seconds < 6000.0) return fmt::format("{:.0f} min", seconds / 60.0);
  return fmt::format("{:.1f} h", seconds / 3600.0);
}

std::string bytes_text(double bytes) {
  if (bytes < 1e6) return fmt::format("{:.0f} kB", bytes / 1e3);
  if (bytes < 1e9) return fmt::format("{:.0f} MB", bytes / 1e6);
  return fmt::format("{:.1f} GB", bytes / 1e9);
}

}  // namespace

std::string study_text(const sim::StudyAnalysis& analysis, const std::string& folder,
                       const Style& style) {
  const sim::StudyHeader& header = analysis.header;
  Table table{{{"what became of the rows", "rows"}}, {}};
  for (const sim::CountedText& status : analysis.statuses)
    table.rows.push_back({status.text, fmt::format("{}", status.rows)});
  std::vector<std::string> lines;
  for (const sim::CountedText& reason : analysis.reasons)
    if (lines.size() < reasons_shown)
      lines.push_back(fmt::format("{} rows: {}", reason.rows, reason.text));
  return heading(fmt::format("{} rows of the {} model", header.rows, header.model), style) +
         to_text(table, style) + list("Most frequent reasons", lines, Paint::plain, style) + "\n" +
         wrapped(fmt::format("{} columns in {}/study.h5: every number with its unit, the texts of "
                             "case and study with them. What each row took is in times.csv. Bands "
                             "of single results are not in it: they come from drumlin run.",
                             header.columns.size(), folder),
                 "", style);
}

std::string row_text(const cases::Study& study, sim::RowRunner& runner, std::uint64_t number,
                     const Style& style) {
  if (number >= study.rows())
    throw InputError(fmt::format("--row {}: the study has rows 0 to {}", number, study.rows() - 1));
  const sim::Row row = runner.run(number, number + 1).front();
  const sim::StudyHeader header = sim::header_of(study, runner, cases::sha256);
  const sim::StudyChunk chunk = sim::chunk_of(study, header, 0, {row});
  Table table{{{"column", "value", "unit"}}, {}};
  for (std::size_t i = 0; i < header.columns.size(); ++i) {
    const sim::StudyColumn& column = header.columns[i];
    const bool text = column.kind == sim::StudyColumn::Kind::text;
    if (column.role == "status") continue;
    const std::string value =
        text ? std::get<std::vector<std::string>>(chunk.columns[i])[0]
             : significant(std::get<std::vector<double>>(chunk.columns[i])[0], 6);
    table.rows.push_back({column.name, value, text || column.unit == "1" ? "" : column.unit});
  }
  const std::string state(to_text(row.status));
  return heading(fmt::format("Row {} of {}: {}", number, study.title, state), style) +
         (row.reason.empty() ? "" : wrapped(row.reason, "  ", style)) + to_text(table, style);
}

std::string forecast_text(const cases::Study& study, sim::RowRunner& runner,
                          const viz::Shard& shard, const std::string& said_of, const Style& style) {
  const sim::Forecast forecast = sim::forecast(study, runner);
  const auto rows = static_cast<double>(study.rows()) / static_cast<double>(shard.count);
  const double seconds = rows * forecast.row_s / runner.threads();
  const double bytes = rows * viz::bytes_per_row(forecast.header, forecast.sample);
  std::string text = heading(fmt::format("{}: {} rows", said_of, study.rows()), style);
  for (const cases::Factor& factor : study.factors)
    text += wrapped(
        fmt::format("{}{}{}", factor.key, factor.meaning.empty() ? "" : ": ", factor.meaning), "  ",
        style);
  text += wrapped(
      fmt::format("{} columns by the {} model. {} rows tried here took {:.3g} ms each; {} of the "
                  "{} did not run.",
                  forecast.header.columns.size(), forecast.header.model, forecast.tried,
                  1e3 * forecast.row_s, forecast.failed, forecast.tried),
      "  ", style);
  text += wrapped(fmt::format("{}about {} on {} threads of this machine, {} of disk; as much again "
                              "while the chunks are packed. Nothing was written.",
                              shard.count > 1 ? "This part: " : "", duration_text(seconds),
                              runner.threads(), bytes_text(bytes)),
                  "  ", style);
  return text;
}

}  // namespace drumlin::app
