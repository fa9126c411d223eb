#include "viz/study/kept_chunk.hpp"

#include <algorithm>
#include <array>
#include <span>
#include <stdexcept>
#include <string>

#include <fmt/format.h>

#include "viz/study/chunk_shape.hpp"
#include "viz/study/table.hpp"

namespace drumlin::viz {
namespace {

Block kept(const Handle& set, std::span<const hsize_t> at, std::size_t width) {
  hsize_t bytes = 0;
  expect_done(H5Dget_chunk_storage_size(set.id(), at.data(), &bytes), "a block");
  Block block{std::vector<char>(bytes), width};
  std::uint32_t left_out = 0;
  expect_done(H5Dread_chunk(set.id(), H5P_DEFAULT, at.data(), &left_out, block.bytes.data()),
              "a block");
  if (left_out != 0 || !is_whole(block.bytes))
    throw std::runtime_error("the checksum of a block does not fit");
  return block;
}

void expect_shape(const Handle& set, std::span<const hsize_t> shape, std::uint64_t block) {
  const Handle space(H5Dget_space(set.id()), H5Sclose, "rows");
  const Handle list(H5Dget_create_plist(set.id()), H5Pclose, "dataset creation list");
  std::array<hsize_t, 2> found{};
  std::array<hsize_t, 2> blocks{};
  const auto rank = static_cast<int>(shape.size());
  if (H5Sget_simple_extent_ndims(space.id()) != rank ||
      H5Sget_simple_extent_dims(space.id(), found.data(), nullptr) != rank ||
      H5Pget_chunk(list.id(), rank, blocks.data()) != rank ||
      !std::equal(shape.begin(), shape.end(), found.begin()) ||
      blocks.at(shape.size() - 1) != block)
    throw std::runtime_error("a dataset has a wrong number of rows");
}

Handle opened(const H5Reader& file, const std::string& name) {
  return {H5Dopen2(file.id(), name.c_str(), H5P_DEFAULT), H5Dclose, name};
}

}  // namespace

/// What goes wrong while a file is read names the file.
template <class Read>
auto KeptChunk::reading(const Read& read) const {
  const QuietErrors quiet;
  try {
    return read();
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(fmt::format("{}: damaged: {}", path_.string(), error.what()));
  }
}

KeptChunk::KeptChunk(const std::filesystem::path& path, const sim::StudyHeader& header,
                     std::uint64_t number)
    : path_(path), header_(header), rows_(header.rows_of(number)), file_([&] {
        try {
          return H5Reader(path);
        } catch (const std::runtime_error& error) {
          throw std::runtime_error(fmt::format("{}: damaged: {}", path.string(), error.what()));
        }
      }()) {
  reading([&] {
    if (file_.attribute("/", "identity") != header.identity)
      throw std::runtime_error("it belongs to another study");
    const std::array<hsize_t, 2> shape{columns_of_numbers(header), rows_};
    expect_shape(opened(file_, numbers_name), shape, rows_per_block(header));
  });
}

std::vector<std::size_t> KeptChunk::word_widths() const {
  return reading([&] {
    std::vector<std::size_t> widths(header_.columns.size(), 0);
    for (std::size_t i = 0; i < widths.size(); ++i) {
      if (!holds_words(header_.columns[i])) continue;
      const Handle set = opened(file_, header_.columns[i].name);
      const hsize_t rows = rows_;
      expect_shape(set, {&rows, 1}, rows_per_block(header_));
      const Handle type(H5Dget_type(set.id()), H5Tclose, header_.columns[i].name);
      widths[i] = H5Tget_size(type.id());
    }
    return widths;
  });
}

Block KeptChunk::words(const sim::StudyColumn& column, std::size_t width) const {
  const Handle set = opened(file_, column.name);
  const Handle type(H5Dget_type(set.id()), H5Tclose, column.name);
  if (H5Tget_size(type.id()) == width) return kept(set, std::array<hsize_t, 1>{0}, width);
  return packed(read_rows(file_.id(), column, 0, rows_), rows_per_block(header_), width);
}

std::vector<Block> KeptChunk::blocks(const std::vector<std::size_t>& widths) const {
  return reading([&] {
    const Handle numbers = opened(file_, numbers_name);
    std::vector<Block> blocks;
    hsize_t line = 0;
    for (std::size_t i = 0; i < widths.size(); ++i)
      blocks.push_back(holds_words(header_.columns[i])
                           ? words(header_.columns[i], widths[i])
                           : kept(numbers, std::array<hsize_t, 2>{line++, 0}, sizeof(double)));
    return blocks;
  });
}

}  // namespace drumlin::viz
