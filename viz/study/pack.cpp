#include <algorithm>
#include <map>
#include <stdexcept>
#include <string>

#include <fmt/format.h>

#include "viz/atomic_file.hpp"
#include "viz/hdf5_tree.hpp"
#include "viz/study/header_json.hpp"
#include "viz/study/kept_chunk.hpp"
#include "viz/study/study_file.hpp"
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
  for (std::size_t number = 0; number < files.size(); ++number) {
    const std::vector<std::size_t> here = KeptChunk(files[number], header, number).word_widths();
    std::transform(here.begin(), here.end(), widths.begin(), widths.begin(),
                   [](std::size_t a, std::size_t b) { return std::max(a, b); });
  }
  return widths;
}

template <class Write>
void writing(const fs::path& file, const Write& write) {
  try {
    write();
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(
        fmt::format("{}: cannot be written; is the disk full? ({})", file.string(), error.what()));
  }
}

}  // namespace

void pack_study(const std::vector<fs::path>& folders, const sim::StudyHeader& header,
                const fs::path& file, const std::function<void(double)>& progress) {
  const std::vector<fs::path> chunks = chunk_files(folders, header);
  const std::vector<std::size_t> widths = widest(chunks, header);
  AtomicFile out(file);
  {
    const QuietErrors quiet;
    const H5Group root = H5Group::create_file(out.path());
    root.attribute("format", study_format);
    root.attribute("identity", header.identity);
    root.attribute("how to read",
                   "every dataset below /rows is a column, one value per row; its attributes are "
                   "unit, meaning and role (factor, output or status); /provenance/columns names "
                   "them in their order");
    const H5Group about = root.group("provenance");
    about.attribute("version", header.version);
    about.attribute("model", header.model);
    about.attribute("seed", fmt::format("{}", header.seed));
    about.attribute("rows", fmt::format("{}", header.rows));
    about.attribute("case_sha256", header.case_sha256);
    about.attribute("study_sha256", header.study_sha256);
    about.texts("notes", header.notes, "how the numbers were made and how far they go");
    about.text("study", header.study_text, "study file as it was read");
    about.text("case", header.case_text, "case file as it was read");
    about.text("header", header_json(header), "all that the table says of itself, as JSON");
    std::vector<std::string> names;
    for (const sim::StudyColumn& column : header.columns)
      names.push_back(column.name);
    about.texts("columns", names, "columns in their order");
    const H5Group rows = root.group("rows");
    rows.attribute("meaning",
                   "one value per row in every dataset; NaN where the model gives no value");
    {
      TableWriter table(rows.id(), header, widths);
      for (std::size_t i = 0; i < chunks.size(); ++i) {
        const std::vector<Block> blocks = KeptChunk(chunks[i], header, i).blocks(widths);
        writing(file, [&] { table.append(blocks); });
        if (progress) progress(static_cast<double>(i + 1) / static_cast<double>(chunks.size()));
      }
    }
    writing(file, [&] { root.flush(); });
  }
  out.commit();
}

}  // namespace drumlin::viz
