#include "viz/study/table.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <string>

#include <fmt/format.h>

namespace drumlin::viz {
namespace {

Handle word_type(std::size_t width) {
  Handle type(H5Tcopy(H5T_C_S1), H5Tclose, "word type");
  expect_done(H5Tset_size(type.id(), width), "word type");
  expect_done(H5Tset_strpad(type.id(), H5T_STR_NULLPAD), "word type");
  expect_done(H5Tset_cset(type.id(), H5T_CSET_UTF8), "word type");
  return type;
}

Handle number_type() {
  return {H5Tcopy(H5T_IEEE_F64LE), H5Tclose, "number type"};
}

Handle block_list(hsize_t rows_per_block) {
  constexpr unsigned deflate_level = 1;  // higher ones take twice the time for some per cent
  Handle list(H5Pcreate(H5P_DATASET_CREATE), H5Pclose, "dataset creation list");
  expect_done(H5Pset_obj_track_times(list.id(), false), "dataset creation list");
  expect_done(H5Pset_chunk(list.id(), 1, &rows_per_block), "blocks");
  expect_done(H5Pset_shuffle(list.id()), "shuffle");
  expect_done(H5Pset_deflate(list.id(), deflate_level), "deflate");
  expect_done(H5Pset_fletcher32(list.id()), "checksum");
  return list;
}

hsize_t block_length(hid_t set) {
  const Handle list(H5Dget_create_plist(set), H5Pclose, "dataset creation list");
  hsize_t rows = 0;
  if (H5Pget_chunk(list.id(), 1, &rows) != 1) throw std::runtime_error("HDF5: no blocks");
  return rows;
}

void put_text(hid_t owner, const char* name, const std::string& text) {
  const Handle type = word_type(std::max<std::size_t>(text.size(), 1));
  const Handle space(H5Screate(H5S_SCALAR), H5Sclose, "scalar space");
  const Handle attribute(H5Acreate2(owner, name, type.id(), space.id(), H5P_DEFAULT, H5P_DEFAULT),
                         H5Aclose, name);
  expect_done(H5Awrite(attribute.id(), type.id(), text.data()), name);
}

std::vector<char> padded(const std::vector<std::string>& words, std::size_t width) {
  std::vector<char> bytes(words.size() * width, '\0');
  for (std::size_t i = 0; i < words.size(); ++i)
    std::copy_n(words[i].begin(), std::min(width, words[i].size()),
                bytes.begin() + static_cast<std::ptrdiff_t>(i * width));
  return bytes;
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

std::size_t length(const sim::StudyValues& values) {
  return std::visit([](const auto& list) { return list.size(); }, values);
}

std::vector<std::size_t> word_widths(const std::vector<sim::StudyValues>& columns) {
  std::vector<std::size_t> widths;
  for (const sim::StudyValues& values : columns) {
    std::size_t longest = 0;
    if (const auto* words = std::get_if<std::vector<std::string>>(&values))
      for (const std::string& word : *words)
        longest = std::max(longest, word.size());
    widths.push_back(longest);
  }
  return widths;
}

TableWriter::TableWriter(hid_t group, const std::vector<sim::StudyColumn>& columns,
                         std::uint64_t rows, std::uint64_t rows_per_block,
                         std::span<const std::size_t> widths) {
  const hsize_t all = rows;
  const Handle space(H5Screate_simple(1, &all, nullptr), H5Sclose, "rows");
  const Handle list = block_list(std::clamp<hsize_t>(rows_per_block, 1, std::max<hsize_t>(all, 1)));
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const sim::StudyColumn& column = columns[i];
    const bool words = column.kind == sim::StudyColumn::Kind::text;
    const std::size_t width = std::max<std::size_t>(widths[i], 1);
    Handle type = words ? word_type(width) : number_type();
    Handle set(H5Dcreate2(group, column.name.c_str(), type.id(), space.id(), H5P_DEFAULT, list.id(),
                          H5P_DEFAULT),
               H5Dclose, column.name);
    put_text(set.id(), "unit", column.unit);
    put_text(set.id(), "meaning", column.meaning);
    put_text(set.id(), "role", column.role);
    columns_.push_back({column.name, std::move(type), std::move(set), width});
  }
}

void TableWriter::write(const Column& column, const sim::StudyValues& values) const {
  const hsize_t count = length(values);
  const hsize_t from = written_;
  const Handle given(H5Screate_simple(1, &count, nullptr), H5Sclose, "rows");
  const Handle place(H5Dget_space(column.set.id()), H5Sclose, column.name);
  expect_done(H5Sselect_hyperslab(place.id(), H5S_SELECT_SET, &from, nullptr, &count, nullptr),
              column.name);
  const auto put = [&](hid_t type, const void* memory) {
    expect_done(H5Dwrite(column.set.id(), type, given.id(), place.id(), H5P_DEFAULT, memory),
                column.name);
  };
  if (const auto* numbers = std::get_if<std::vector<double>>(&values))
    put(H5T_NATIVE_DOUBLE, numbers->data());
  else
    put(column.type.id(), padded(std::get<std::vector<std::string>>(values), column.width).data());
}

void TableWriter::append(const std::vector<sim::StudyValues>& columns) {
  if (columns.size() != columns_.size() || columns.empty())
    throw std::logic_error("a study's chunk has the columns of its header");
  const std::size_t count = length(columns.front());
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (length(columns[i]) != count)
      throw std::logic_error("the columns of a study's chunk are equally long");
    write(columns_[i], columns[i]);
  }
  written_ += count;
}

void TableWriter::append_block(hid_t from, const std::vector<sim::StudyValues>& columns) {
  if (columns.size() != columns_.size() || columns.empty())
    throw std::logic_error("a study's chunk has the columns of its header");
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (!copy_block(from, columns_[i])) write(columns_[i], columns[i]);
  written_ += length(columns.front());
}

/// Blocks of the same type and length are the same bytes after their filters.
bool TableWriter::copy_block(hid_t from, const Column& column) const {
  const Handle set(H5Dopen2(from, column.name.c_str(), H5P_DEFAULT), H5Dclose, column.name);
  const Handle type(H5Dget_type(set.id()), H5Tclose, column.name);
  if (H5Tequal(type.id(), column.type.id()) <= 0 ||
      block_length(set.id()) != block_length(column.set.id()))
    return false;
  const hsize_t first = 0;
  const hsize_t to = written_;
  hsize_t bytes = 0;
  expect_done(H5Dget_chunk_storage_size(set.id(), &first, &bytes), column.name);
  std::vector<char> block(bytes);
  std::uint32_t left_out = 0;
  expect_done(H5Dread_chunk(set.id(), H5P_DEFAULT, &first, &left_out, block.data()), column.name);
  expect_done(H5Dwrite_chunk(column.set.id(), H5P_DEFAULT, left_out, &to, bytes, block.data()),
              column.name);
  return true;
}

std::size_t kept_word_width(hid_t group, const sim::StudyColumn& column) {
  if (column.kind == sim::StudyColumn::Kind::number) return 0;
  const Handle set(H5Dopen2(group, column.name.c_str(), H5P_DEFAULT), H5Dclose, column.name);
  const Handle type(H5Dget_type(set.id()), H5Tclose, column.name);
  return H5Tget_size(type.id());
}

std::uint64_t kept_rows(hid_t group, const sim::StudyColumn& column) {
  const Handle set(H5Dopen2(group, column.name.c_str(), H5P_DEFAULT), H5Dclose, column.name);
  const Handle space(H5Dget_space(set.id()), H5Sclose, column.name);
  const hssize_t rows = H5Sget_simple_extent_npoints(space.id());
  if (rows < 0) throw std::runtime_error(fmt::format("HDF5: {} has no rows", column.name));
  return static_cast<std::uint64_t>(rows);
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
