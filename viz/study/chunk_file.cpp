#include "viz/study/chunk_file.hpp"

#include <stdexcept>
#include <string>

#include <fmt/format.h>
#include <unistd.h>

#include "viz/atomic_file.hpp"
#include "viz/hdf5_reader.hpp"
#include "viz/study/table.hpp"

namespace drumlin::viz {
namespace {

/// What goes wrong while a file is read names the file.
template <class Read>
auto reading(const std::filesystem::path& path, const Read& read) {
  const QuietErrors quiet;
  try {
    return read();
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(fmt::format("{}: damaged: {}", path.string(), error.what()));
  }
}

}  // namespace

void write_chunk(const std::filesystem::path& path, const sim::StudyHeader& header,
                 const sim::StudyChunk& chunk) {
  AtomicFile file(path);
  {
    const QuietErrors quiet;
    const H5Group root = H5Group::create_file(file.path());
    root.attribute("identity", header.identity);
    root.attribute("chunk", static_cast<double>(chunk.number));
    TableWriter(root.id(), header.columns, header.rows_of(chunk.number), header.rows_per_chunk,
                word_widths(chunk.columns))
        .append(chunk.columns);
  }
  file.commit();
}

sim::StudyChunk read_chunk(const std::filesystem::path& path, const sim::StudyHeader& header,
                           std::uint64_t number) {
  return reading(path, [&] {
    const H5Reader file(path);
    if (file.attribute("/", "identity") != header.identity)
      throw std::runtime_error("it belongs to another study");
    sim::StudyChunk chunk{number, {}};
    for (const sim::StudyColumn& column : header.columns) {
      const std::uint64_t rows = header.rows_of(number);
      if (kept_rows(file.id(), column) != rows)
        throw std::runtime_error(fmt::format("{} has a wrong number of rows", column.name));
      chunk.columns.push_back(read_rows(file.id(), column, 0, rows));
    }
    return chunk;
  });
}

std::vector<std::size_t> kept_word_widths(const std::filesystem::path& path,
                                          const sim::StudyHeader& header) {
  return reading(path, [&] {
    const H5Reader file(path);
    std::vector<std::size_t> widths;
    for (const sim::StudyColumn& column : header.columns)
      widths.push_back(kept_word_width(file.id(), column));
    return widths;
  });
}

double bytes_per_row(const sim::StudyHeader& header, const sim::StudyChunk& chunk) {
  const std::filesystem::path path =
      std::filesystem::temp_directory_path() / fmt::format("drumlin-sample-{}.h5", getpid());
  const auto bytes_of = [&](std::uint64_t rows) {
    sim::StudyHeader some = header;
    some.rows = some.rows_per_chunk = rows;
    sim::StudyChunk first = chunk;
    for (sim::StudyValues& values : first.columns)
      std::visit([rows](auto& list) { list.resize(rows); }, values);
    write_chunk(path, some, first);
    const auto bytes = static_cast<double>(std::filesystem::file_size(path));
    std::filesystem::remove(path);
    return bytes;
  };
  // The difference of two files: what a file takes without any row is not counted.
  const std::uint64_t all = header.rows_of(chunk.number);
  const std::uint64_t half = (all + 1) / 2;
  if (half == all) return bytes_of(all);
  return (bytes_of(all) - bytes_of(half)) / static_cast<double>(all - half);
}

}  // namespace drumlin::viz
