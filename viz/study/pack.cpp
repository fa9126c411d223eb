#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>
#include <map>
#include <stdexcept>
#include <string>

#include <fmt/format.h>

#include "viz/atomic_file.hpp"
#include "viz/study/chunk_file.hpp"
#include "viz/study/study_store.hpp"
#include "viz/study/table.hpp"

namespace drumlin::viz {
namespace fs = std::filesystem;
namespace {

/// Every chunk's file, by its number. @throws std::runtime_error if one is missing.
std::vector<fs::path> chunk_files(const std::vector<fs::path>& folders,
                                  const sim::StudyHeader& header) {
  std::map<std::uint64_t, fs::path> found;
  for (const fs::path& folder : folders) {
    const Manifest manifest = Manifest::open(folder / "manifest.sqlite");
    if (manifest.fact("identity") != header.identity)
      throw std::runtime_error(folder.string() + ": holds another study");
    for (const auto& [number, chunk] : manifest.chunks())
      found[number] = folder / chunk.file;
  }
  std::vector<fs::path> files;
  for (std::uint64_t number = 0; number < header.chunks(); ++number) {
    const auto at = found.find(number);
    if (at == found.end())
      throw std::runtime_error(fmt::format(
          "rows {} to {} are not done yet: {} of {} chunks are missing", header.first_row(number),
          header.first_row(number) + header.rows_of(number) - 1, header.chunks() - found.size(),
          header.chunks()));
    files.push_back(at->second);
  }
  return files;
}

/// Longest words over all chunks.
std::vector<std::size_t> widest(const std::vector<fs::path>& files,
                                const sim::StudyHeader& header) {
  std::vector<std::size_t> widths(header.columns.size(), 0);
  for (const fs::path& file : files) {
    const std::vector<std::size_t> here = kept_word_widths(file, header);
    std::transform(here.begin(), here.end(), widths.begin(), widths.begin(),
                   [](std::size_t a, std::size_t b) { return std::max(a, b); });
  }
  return widths;
}

std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

std::string cell(const sim::StudyValues& values, std::size_t row) {
  if (const auto* numbers = std::get_if<std::vector<double>>(&values))
    return std::isnan((*numbers)[row]) ? std::string() : fmt::format("{}", (*numbers)[row]);
  return quoted(std::get<std::vector<std::string>>(values)[row]);
}

std::string heading(const sim::StudyColumn& column) {
  const bool bare = column.unit.empty() || column.unit == "1" || column.unit == "text" ||
                    column.role == "output";  // an output's name carries its unit
  return quoted(bare ? column.name : fmt::format("{} [{}]", column.name, column.unit));
}

}  // namespace

void pack_study(const std::vector<fs::path>& folders, const sim::StudyHeader& header,
                const fs::path& file) {
  const std::vector<fs::path> chunks = chunk_files(folders, header);
  const std::vector<std::size_t> widths = widest(chunks, header);
  AtomicFile out(file);
  {
    const QuietErrors quiet;
    const H5Group root = H5Group::create_file(out.path());
    root.attribute("format", "drumlin study 1");
    root.attribute("identity", header.identity);
    const H5Group about = root.group("provenance");
    about.attribute("version", header.version);
    about.attribute("model", header.model);
    about.attribute("seed", fmt::format("{}", header.seed));
    about.attribute("rows", fmt::format("{}", header.rows));
    about.text("study", header.study_text, "study file as it was read");
    about.text("case", header.case_text, "case file as it was read");
    const H5Group rows = root.group("rows");
    rows.attribute("meaning",
                   "one value per row in every dataset; NaN where the model gives no value");
    TableWriter table(rows.id(), header.columns, header.rows, header.rows_per_chunk, widths);
    for (std::size_t i = 0; i < chunks.size(); ++i)
      table.append(read_chunk(chunks[i], header, i).columns);
  }
  out.commit();
}

void write_study_csv(const std::vector<fs::path>& folders, const sim::StudyHeader& header,
                     const fs::path& file) {
  const std::vector<fs::path> chunks = chunk_files(folders, header);
  AtomicFile out(file);
  std::ofstream text(out.path(), std::ios::binary);
  for (std::size_t i = 0; i < header.columns.size(); ++i)
    text << (i == 0 ? "" : ",") << heading(header.columns[i]);
  text << "\r\n";
  for (std::size_t i = 0; i < chunks.size(); ++i) {
    const sim::StudyChunk chunk = read_chunk(chunks[i], header, i);
    for (std::size_t row = 0; row < header.rows_of(i); ++row) {
      for (std::size_t k = 0; k < chunk.columns.size(); ++k)
        text << (k == 0 ? "" : ",") << cell(chunk.columns[k], row);
      text << "\r\n";
    }
  }
  text.close();
  if (!text) throw std::runtime_error(file.string() + ": could not be written");
  out.commit();
}

}  // namespace drumlin::viz
