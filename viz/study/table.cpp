#include "viz/study/table.hpp"

#include <algorithm>
#include <stdexcept>

namespace drumlin::viz {
namespace {

void put_text(hid_t owner, const char* name, const std::string& text) {
  const Handle type = word_type(std::max<std::size_t>(text.size(), 1));
  const Handle space(H5Screate(H5S_SCALAR), H5Sclose, "scalar space");
  const Handle attribute(H5Acreate2(owner, name, type.id(), space.id(), H5P_DEFAULT, H5P_DEFAULT),
                         H5Aclose, name);
  expect_done(H5Awrite(attribute.id(), type.id(), text.data()), name);
}

std::vector<std::string> unpadded(const std::vector<char>& bytes, std::size_t width) {
  std::vector<std::string> words;
  for (std::size_t at = 0; at + width <= bytes.size(); at += width) {
    std::string word(bytes.data() + at, width);
    word.resize(word.find_last_not_of('\0') + 1);  // npos + 1 is 0
    words.push_back(std::move(word));
  }
  return words;
}

}  // namespace

std::uint64_t rows_per_block(const sim::StudyHeader& header) {
  return std::clamp<std::uint64_t>(header.rows_per_chunk, 1,
                                   std::max<std::uint64_t>(header.rows, 1));
}

Handle word_type(std::size_t width) {
  Handle type(H5Tcopy(H5T_C_S1), H5Tclose, "word type");
  expect_done(H5Tset_size(type.id(), std::max<std::size_t>(width, 1)), "word type");
  expect_done(H5Tset_strpad(type.id(), H5T_STR_NULLPAD), "word type");
  expect_done(H5Tset_cset(type.id(), H5T_CSET_UTF8), "word type");
  return type;
}

Handle number_type() {
  return {H5Tcopy(H5T_IEEE_F64LE), H5Tclose, "number type"};
}

Handle block_list(std::span<const hsize_t> shape) {
  Handle list(H5Pcreate(H5P_DATASET_CREATE), H5Pclose, "dataset creation list");
  expect_done(H5Pset_obj_track_times(list.id(), false), "dataset creation list");
  expect_done(H5Pset_chunk(list.id(), static_cast<int>(shape.size()), shape.data()), "blocks");
  expect_done(H5Pset_shuffle(list.id()), "shuffle");
  expect_done(H5Pset_deflate(list.id(), deflate_level), "deflate");
  expect_done(H5Pset_fletcher32(list.id()), "checksum");
  return list;
}

TableWriter::TableWriter(hid_t group, const sim::StudyHeader& header,
                         std::span<const std::size_t> widths)
    : rows_per_block_(rows_per_block(header)) {
  const hsize_t all = header.rows;
  const Handle space(H5Screate_simple(1, &all, nullptr), H5Sclose, "rows");
  const Handle list = block_list({&rows_per_block_, 1});
  for (std::size_t i = 0; i < header.columns.size(); ++i) {
    const sim::StudyColumn& column = header.columns[i];
    const bool words = column.kind == sim::StudyColumn::Kind::text;
    const Handle type = words ? word_type(widths[i]) : number_type();
    Handle set(H5Dcreate2(group, column.name.c_str(), type.id(), space.id(), H5P_DEFAULT, list.id(),
                          H5P_DEFAULT),
               H5Dclose, column.name);
    put_text(set.id(), "unit", column.unit);
    put_text(set.id(), "meaning", column.meaning);
    put_text(set.id(), "role", column.role);
    columns_.push_back(std::move(set));
  }
}

void TableWriter::append(const std::vector<Block>& blocks) {
  if (blocks.size() != columns_.size())
    throw std::logic_error("a study's chunk has the columns of its header");
  for (std::size_t i = 0; i < blocks.size(); ++i)
    expect_done(H5Dwrite_chunk(columns_[i].id(), H5P_DEFAULT, 0, &written_, blocks[i].bytes.size(),
                               blocks[i].bytes.data()),
                "a block");
  written_ += rows_per_block_;
}

sim::StudyValues read_rows(hid_t group, const sim::StudyColumn& column, std::uint64_t first,
                           std::uint64_t count) {
  const Handle set(H5Dopen2(group, column.name.c_str(), H5P_DEFAULT), H5Dclose, column.name);
  const Handle place(H5Dget_space(set.id()), H5Sclose, column.name);
  const hsize_t from = first;
  const hsize_t rows = count;
  expect_done(H5Sselect_hyperslab(place.id(), H5S_SELECT_SET, &from, nullptr, &rows, nullptr),
              column.name);
  const Handle asked(H5Screate_simple(1, &rows, nullptr), H5Sclose, "rows");
  if (column.kind == sim::StudyColumn::Kind::number) {
    std::vector<double> numbers(count);
    expect_done(
        H5Dread(set.id(), H5T_NATIVE_DOUBLE, asked.id(), place.id(), H5P_DEFAULT, numbers.data()),
        column.name);
    return numbers;
  }
  const Handle type(H5Dget_type(set.id()), H5Tclose, column.name);
  const std::size_t width = H5Tget_size(type.id());
  std::vector<char> bytes(count * width);
  expect_done(H5Dread(set.id(), type.id(), asked.id(), place.id(), H5P_DEFAULT, bytes.data()),
              column.name);
  return unpadded(bytes, width);
}

}  // namespace drumlin::viz
