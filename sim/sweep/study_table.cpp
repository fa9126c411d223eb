#include "sim/sweep/study_table.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>

#include <fmt/format.h>

namespace drumlin::sim {
namespace {

constexpr std::uint64_t most_rows_in_chunk = 65536;  // 80 MB of numbers
constexpr std::uint64_t chunks_wanted = 64;
constexpr std::uint64_t most_chunk_files = 131072;  // more than ranks take at once, by far

using Kind = StudyColumn::Kind;

StudyColumn factor_column(const cases::Factor& factor) {
  const bool words = !factor.words.empty();
  return {.name = factor.key,
          .unit = words                 ? "text"
                  : factor.unit.empty() ? "1"
                                        : factor.unit,
          .meaning = factor.meaning.empty() ? "key of the case" : factor.meaning,
          .role = "factor",
          .kind = words ? Kind::text : Kind::number};
}

StudyValues factor_values(const cases::Factor& factor, std::size_t k,
                          const std::vector<Row>& rows) {
  if (!factor.words.empty()) {
    std::vector<std::string> words;
    for (const Row& row : rows)
      words.push_back(factor.words[static_cast<std::size_t>(row.values[k])]);
    return words;
  }
  std::vector<double> numbers;
  for (const Row& row : rows)
    numbers.push_back(factor.shown(row.values[k]));
  return numbers;
}

template <class Value, class Read>
std::vector<Value> each(const std::vector<Row>& rows, const Read& read) {
  std::vector<Value> values;
  values.reserve(rows.size());
  for (const Row& row : rows)
    values.push_back(read(row));
  return values;
}

/// What a reader of the table must know of its numbers.
std::vector<std::string> notes_of(const cases::Case& scenario) {
  const cases::Numerics& numerics = scenario.numerics;
  std::vector<std::string> notes{
      fmt::format("model {}: cover_geometry = {}, cover_motion = {}, belt_grip = {}, cover_strain "
                  "= {}",
                  numerics.model, numerics.cover_geometry, numerics.cover_motion,
                  numerics.belt_grip, numerics.cover_strain)};
  if (numerics.model == "fast")
    notes.emplace_back(
        "error estimate: against the line model 2 % on the plain face, 15 % (or 0.7 um) at burrs, "
        "seen on the shipped cases and random edges; single rows can be run again with "
        "numerics.model = \"line\"");
  if (numerics.model == "fast")
    notes.emplace_back(
        "in studies of 100,000 rows and more whose drums differ in modulus or belt speed, rows "
        "take "
        "them from between fixed rungs: line load and half-width within 2e-6 of a single run's, "
        "the "
        "plain nip's peak pressure within 1.1 %");
  notes.emplace_back(
      "uncalibrated unless the case says otherwise; bands of inputs are not propagated row by row: "
      "let the inputs vary, or run single rows with bands");
  for (const auto& unused : scenario.unused)
    notes.push_back(fmt::format("not used: {} ({})", unused.key, unused.text));
  for (const std::string& value : scenario.defaults)
    notes.push_back("by default: " + value);
  return notes;
}

/// The numbers of a row to six digits: what materials and models make of the case.
std::string fingerprint(const std::vector<std::optional<double>>& outputs) {
  std::string text;
  for (const auto& value : outputs)
    text += value ? fmt::format("{:.5e};", *value) : ";";
  return text;
}

}  // namespace

std::uint64_t rows_per_chunk(std::uint64_t rows, const std::string& model) {
  const bool fast = model == "fast";
  const std::uint64_t least = fast ? 512 : 1;
  const std::uint64_t enough = fast ? 4096 : 16;
  const std::uint64_t wanted = std::max(std::clamp(rows / chunks_wanted, least, enough),
                                        std::min(rows / most_chunk_files, most_rows_in_chunk));
  return std::clamp<std::uint64_t>(wanted, 1, std::max<std::uint64_t>(rows, 1));
}

StudyHeader header_of(const cases::Study& study, const RowRunner& runner, const Hash& hash) {
  StudyHeader header;
  header.version = DRUMLIN_VERSION;
  header.model = study.base.numerics.model;
  header.case_text = study.base.text;
  header.case_sha256 = study.base.sha256;
  header.study_text = study.text;
  header.study_sha256 = study.sha256;
  header.notes = notes_of(study.base);
  header.seed = study.seed;
  header.rows = study.rows();
  header.rows_per_chunk = rows_per_chunk(header.rows, header.model);
  header.columns.push_back({"row", "1", "number of the row in the study, from 0", "status"});
  if (study.replicates > 1)
    header.columns.push_back({"replicate", "1", "which drawing of the design, from 0", "status"});
  for (const cases::Factor& factor : study.factors)
    header.columns.push_back(factor_column(factor));
  header.columns.insert(header.columns.end(), runner.columns().begin(), runner.columns().end());
  header.columns.push_back({"status", "text",
                            "done, not accepted, not known (done; a limit is on something that the "
                            "model does not give), left out, bad input, not converged",
                            "status", Kind::text});
  header.columns.push_back({"reason", "text",
                            "the limit that decides, the filter, or why there are no numbers",
                            "status", Kind::text});
  std::string all = header.version + '\0' + header.model + '\0' + study.text + '\0' +
                    study.base.text + '\0' + fingerprint(runner.first_outputs());
  for (const auto& line : study.list)
    for (const double value : line)
      all += fmt::format("{};", value);
  for (const StudyColumn& column : header.columns)
    all += column.name + '\0' + column.unit + '\0';
  header.identity = hash(all);
  return header;
}

StudyChunk chunk_of(const cases::Study& study, const StudyHeader& header, std::uint64_t number,
                    const std::vector<Row>& rows) {
  StudyChunk chunk{.number = number, .columns = {}};
  chunk.columns.reserve(header.columns.size());
  chunk.columns.emplace_back(
      each<double>(rows, [](const Row& row) { return static_cast<double>(row.index); }));
  if (study.replicates > 1)
    chunk.columns.emplace_back(each<double>(
        rows, [&](const Row& row) { return static_cast<double>(row.index / study.points); }));
  for (std::size_t k = 0; k < study.factors.size(); ++k)
    chunk.columns.push_back(factor_values(study.factors[k], k, rows));
  const std::size_t outputs = rows.empty() ? 0 : rows.front().outputs.size();
  for (std::size_t k = 0; k < outputs; ++k)
    chunk.columns.emplace_back(each<double>(rows, [k](const Row& row) {
      return row.outputs[k].value_or(std::numeric_limits<double>::quiet_NaN());
    }));
  chunk.columns.emplace_back(
      each<std::string>(rows, [](const Row& row) { return std::string(to_text(row.status)); }));
  chunk.columns.emplace_back(each<std::string>(rows, [](const Row& row) { return row.reason; }));
  if (chunk.columns.size() != header.columns.size())
    throw std::logic_error("a chunk has the columns of its study's header");
  return chunk;
}

RowRange range_of(const StudyHeader& header, std::uint64_t chunk) {
  const std::uint64_t first = header.first_row(chunk);
  return {.first = first, .end = first + header.rows_of(chunk)};
}

}  // namespace drumlin::sim
