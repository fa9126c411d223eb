#include "viz/study/study_file.hpp"

#include <stdexcept>

#include <fmt/format.h>

#include "viz/hdf5_reader.hpp"
#include "viz/study/header_json.hpp"
#include "viz/study/table.hpp"

namespace drumlin::viz {
namespace {

sim::StudyHeader header_in(const H5Reader& file, const std::filesystem::path& path) {
  const auto format = file.attribute("/", "format");
  const auto header = file.text("/provenance/header");
  if (!format || *format != study_format || !header)
    throw std::runtime_error(path.string() + ": is no study of drumlin");
  try {
    return header_from_json(*header);
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(fmt::format("{}: damaged: {}", path.string(), error.what()));
  }
}

}  // namespace

StudyFile::StudyFile(const std::filesystem::path& path)
    : path_(path), file_(std::make_unique<H5Reader>(path)), header_(header_in(*file_, path)) {}

StudyFile::~StudyFile() = default;
StudyFile::StudyFile(StudyFile&& other) noexcept = default;

sim::StudyValues StudyFile::read(std::size_t column, std::uint64_t first,
                                 std::uint64_t count) const {
  const QuietErrors quiet;
  try {
    const Handle rows(H5Gopen2(file_->id(), "/rows", H5P_DEFAULT), H5Gclose, "rows");
    return read_rows(rows.id(), header_.columns.at(column), first, count);
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(fmt::format("{}: damaged: {}", path_.string(), error.what()));
  }
}

void StudyFile::each(
    const std::vector<std::size_t>& columns,
    const std::function<void(std::uint64_t, const std::vector<sim::StudyValues>&)>& take) const {
  for (std::uint64_t chunk = 0; chunk < header_.chunks(); ++chunk) {
    std::vector<sim::StudyValues> values;
    values.reserve(columns.size());
    for (const std::size_t column : columns)
      values.push_back(read(column, header_.first_row(chunk), header_.rows_of(chunk)));
    take(header_.first_row(chunk), values);
  }
}

}  // namespace drumlin::viz
