#include "viz/study/chunk_file.hpp"

#include <stdexcept>
#include <string>

#include <fmt/format.h>

#include "viz/atomic_file.hpp"
#include "viz/study/table.hpp"

namespace drumlin::viz {
namespace {

/// Text attribute of the root group of a file that is being read; empty where there is none.
std::string text_attribute(hid_t owner, const char* name) {
  if (H5Aexists(owner, name) <= 0) return {};
  const Handle attribute(H5Aopen(owner, name, H5P_DEFAULT), H5Aclose, name);
  const Handle type(H5Aget_type(attribute.id()), H5Tclose, name);
  if (H5Tis_variable_str(type.id()) <= 0) return {};
  char* text = nullptr;
  expect_done(H5Aread(attribute.id(), type.id(), static_cast<void*>(&text)), name);
  std::string out = text == nullptr ? "" : text;
  H5free_memory(text);
  return out;
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
  const QuietErrors quiet;
  try {
    const Handle file(H5Fopen(path.c_str(), H5F_ACC_RDONLY, H5P_DEFAULT), H5Fclose, "opening");
    if (text_attribute(file.id(), "identity") != header.identity)
      throw std::runtime_error("it belongs to another study");
    sim::StudyChunk chunk{number, {}};
    for (const sim::StudyColumn& column : header.columns) {
      chunk.columns.push_back(read_column(file.id(), column));
      if (length(chunk.columns.back()) != header.rows_of(number))
        throw std::runtime_error(fmt::format("{} has a wrong number of rows", column.name));
    }
    return chunk;
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(fmt::format("{}: damaged: {}", path.string(), error.what()));
  }
}

}  // namespace drumlin::viz
