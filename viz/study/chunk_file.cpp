#include "viz/study/chunk_file.hpp"

#include <array>
#include <mutex>
#include <stdexcept>
#include <variant>
#include <vector>

#include "viz/study/chunk_shape.hpp"
#include "viz/study/table.hpp"

namespace drumlin::viz {
namespace {

/// One line of rows, or one for every column, in blocks of one line each.
Handle dataset(const H5Group& root, const std::string& name, const Handle& type,
               std::span<const hsize_t> shape, hsize_t block) {
  // Without a bound, a block may be longer than the rows that there are.
  const std::array<hsize_t, 2> most{shape.front(), H5S_UNLIMITED};
  const std::array<hsize_t, 2> blocks{1, block};
  const std::size_t lines = 2 - shape.size();
  const auto rank = static_cast<int>(shape.size());
  const Handle space(H5Screate_simple(rank, shape.data(), &most.at(lines)), H5Sclose, "rows");
  const Handle list = block_list({&blocks.at(lines), shape.size()});
  return {H5Dcreate2(root.id(), name.c_str(), type.id(), space.id(), H5P_DEFAULT, list.id(),
                     H5P_DEFAULT),
          H5Dclose, name};
}

void put(const Handle& set, std::span<const hsize_t> at, const Block& block) {
  expect_done(
      H5Dwrite_chunk(set.id(), H5P_DEFAULT, 0, at.data(), block.bytes.size(), block.bytes.data()),
      "a block");
}

}  // namespace

std::string chunk_file(const sim::StudyHeader& header, const sim::StudyChunk& chunk) {
  if (chunk.columns.size() != header.columns.size())
    throw std::logic_error("a study's chunk has the columns of its header");
  const hsize_t rows = header.rows_of(chunk.number);
  const hsize_t block = rows_per_block(header);
  std::vector<Block> blocks;
  for (const sim::StudyValues& values : chunk.columns) {
    if (std::visit([](const auto& list) { return list.size(); }, values) != rows)
      throw std::logic_error("the columns of a study's chunk are equally long");
    blocks.push_back(packed(values, block));
  }
  static std::mutex library;
  const std::lock_guard lock(library);
  const QuietErrors quiet;
  const H5Group root = H5Group::create_in_memory();
  root.attribute("identity", header.identity);
  root.attribute("chunk", static_cast<double>(chunk.number));
  root.attribute("how to read",
                 "numbers: a line for every column of numbers, in the order that the header in "
                 "manifest.sqlite gives; columns of words by their names");
  const std::array<hsize_t, 2> shape{columns_of_numbers(header), rows};
  {
    const Handle numbers = dataset(root, numbers_name, number_type(), shape, block);
    hsize_t line = 0;
    for (std::size_t i = 0; i < blocks.size(); ++i)
      if (!holds_words(header.columns[i]))
        put(numbers, std::array<hsize_t, 2>{line++, 0}, blocks[i]);
  }
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    if (!holds_words(header.columns[i])) continue;
    const Handle set =
        dataset(root, header.columns[i].name, word_type(blocks[i].width), {&rows, 1}, block);
    put(set, std::array<hsize_t, 1>{0}, blocks[i]);
  }
  return root.file_bytes();
}

double bytes_per_row(const sim::StudyHeader& header, const sim::StudyChunk& chunk) {
  const std::uint64_t rows = header.rows_of(chunk.number);
  double bytes = 0;
  for (const sim::StudyValues& values : chunk.columns)
    bytes += static_cast<double>(packed(values, rows).bytes.size());
  return bytes / static_cast<double>(rows);
}

}  // namespace drumlin::viz
