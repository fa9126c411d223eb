#include "viz/hdf5_tree.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <vector>

#include <fmt/format.h>

namespace drumlin::viz {
namespace {

Handle text_type() {
  Handle type(H5Tcopy(H5T_C_S1), H5Tclose, "text type");
  expect_done(H5Tset_size(type.id(), H5T_VARIABLE), "text type");
  expect_done(H5Tset_cset(type.id(), H5T_CSET_UTF8), "text type");
  return type;
}

Handle scalar_space() {
  return {H5Screate(H5S_SCALAR), H5Sclose, "scalar space"};
}

void put_attribute(hid_t owner, std::string_view name, hid_t type, const void* value) {
  const Handle space = scalar_space();
  const Handle attribute(
      H5Acreate2(owner, std::string(name).c_str(), type, space.id(), H5P_DEFAULT, H5P_DEFAULT),
      H5Aclose, name);
  expect_done(H5Awrite(attribute.id(), type, value), name);
}

void put_attribute(hid_t owner, std::string_view name, std::string_view text) {
  const Handle type = text_type();
  const std::string copy(text);
  const char* pointer = copy.c_str();
  put_attribute(owner, name, type.id(), &pointer);
}

/// Small datasets stay in one piece; larger ones are cut into rows, shuffled and deflated.
Handle creation_list(std::span<const hsize_t> shape, bool numbers) {
  constexpr hsize_t worth_packing = 256;
  constexpr hsize_t row_limit = 16384;
  constexpr unsigned deflate_level = 4;
  Handle list(H5Pcreate(H5P_DATASET_CREATE), H5Pclose, "dataset creation list");
  expect_done(H5Pset_obj_track_times(list.id(), false), "dataset creation list");
  if (!numbers || shape.empty() || shape.back() < worth_packing) return list;
  std::vector<hsize_t> chunk(shape.size(), 1);
  chunk.back() = std::min(shape.back(), row_limit);
  if (shape.size() == 2) chunk.front() = std::min<hsize_t>(shape.front(), 8);
  expect_done(H5Pset_chunk(list.id(), static_cast<int>(chunk.size()), chunk.data()), "chunks");
  expect_done(H5Pset_shuffle(list.id()), "shuffle");
  expect_done(H5Pset_deflate(list.id(), deflate_level), "deflate");
  return list;
}

Handle shared(const Handle& handle, std::string_view what, Handle::Close close) {
  expect_done(H5Iinc_ref(handle.id()), what);
  return {handle.id(), close, what};
}

Handle group_list() {
  Handle list(H5Pcreate(H5P_GROUP_CREATE), H5Pclose, "group creation list");
  expect_done(H5Pset_obj_track_times(list.id(), false), "group creation list");
  return list;
}

/// Every file is closed by who opened it. After a failed write the library would fall over what is
/// left when the process exits.
void leave_exits_alone() noexcept {
  static const herr_t once = H5dont_atexit();
  static_cast<void>(once);
}

}  // namespace

void expect_done(herr_t result, std::string_view what) {
  if (result < 0) throw std::runtime_error(fmt::format("HDF5: {} failed", what));
}

QuietErrors::QuietErrors() noexcept {
  leave_exits_alone();
  H5Eget_auto2(H5E_DEFAULT, &function_, &data_);
  H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
}

QuietErrors::~QuietErrors() {
  H5Eset_auto2(H5E_DEFAULT, function_, data_);
}

Handle::Handle(hid_t id, Close close, std::string_view what) : id_(id), close_(close) {
  if (id_ < 0) throw std::runtime_error(fmt::format("HDF5: {} failed", what));
}

Handle::~Handle() {
  if (id_ >= 0) close_(id_);
}

H5Group H5Group::create(const std::filesystem::path& path, hid_t access) {
  const QuietErrors quiet;
  const Handle list(H5Pcreate(H5P_FILE_CREATE), H5Pclose, "file creation list");
  expect_done(H5Pset_obj_track_times(list.id(), false), "file creation list");
  Handle file(H5Fcreate(path.c_str(), H5F_ACC_EXCL, list.id(), access), H5Fclose, path.string());
  Handle root(H5Gopen2(file.id(), "/", H5P_DEFAULT), H5Gclose, "root group");
  return H5Group(std::move(file), std::move(root));
}

H5Group H5Group::create_file(const std::filesystem::path& path) {
  return create(path, H5P_DEFAULT);
}

H5Group H5Group::create_in_memory() {
  constexpr std::size_t grows_by = std::size_t{1} << 20U;
  const Handle access(H5Pcreate(H5P_FILE_ACCESS), H5Pclose, "file access list");
  expect_done(H5Pset_fapl_core(access.id(), grows_by, false), "file access list");
  return create("in memory", access.id());
}

void H5Group::flush() const {
  expect_done(H5Fflush(file_.id(), H5F_SCOPE_GLOBAL), "the last of the file");
}

std::string H5Group::file_bytes() const {
  flush();
  const ssize_t size = H5Fget_file_image(file_.id(), nullptr, 0);
  if (size < 0) throw std::runtime_error("HDF5: file in memory failed");
  std::string bytes(static_cast<std::size_t>(size), '\0');
  if (H5Fget_file_image(file_.id(), bytes.data(), bytes.size()) != size)
    throw std::runtime_error("HDF5: file in memory failed");
  return bytes;
}

H5Group H5Group::group(std::string_view name) const {
  const QuietErrors quiet;
  const Handle list = group_list();
  Handle made(
      H5Gcreate2(group_.id(), std::string(name).c_str(), H5P_DEFAULT, list.id(), H5P_DEFAULT),
      H5Gclose, name);
  return H5Group(shared(file_, "file", H5Fclose), std::move(made));
}

void H5Group::attribute(std::string_view name, std::string_view text) const {
  put_attribute(group_.id(), name, text);
}

void H5Group::attribute(std::string_view name, double value) const {
  put_attribute(group_.id(), name, H5T_NATIVE_DOUBLE, &value);
}

void H5Group::attribute(std::string_view name, int value) const {
  put_attribute(group_.id(), name, H5T_NATIVE_INT, &value);
}

Handle H5Group::dataset(std::string_view name, hid_t stored, hid_t given,
                        std::span<const hsize_t> shape, const void* values,
                        const Label& label) const {
  const QuietErrors quiet;
  const Handle space =
      shape.empty()
          ? scalar_space()
          : Handle(H5Screate_simple(static_cast<int>(shape.size()), shape.data(), nullptr),
                   H5Sclose, name);
  const Handle list = creation_list(shape, H5Tget_class(stored) != H5T_STRING);
  Handle set(H5Dcreate2(group_.id(), std::string(name).c_str(), stored, space.id(), H5P_DEFAULT,
                        list.id(), H5P_DEFAULT),
             H5Dclose, name);
  expect_done(H5Dwrite(set.id(), given, H5S_ALL, H5S_ALL, H5P_DEFAULT, values), name);
  put_attribute(set.id(), "unit", label.unit);
  put_attribute(set.id(), "meaning", label.meaning);
  if (!label.nan.empty()) put_attribute(set.id(), "nan", label.nan);
  return set;
}

void H5Group::text(std::string_view name, std::string_view value, std::string_view meaning) const {
  const Handle type = text_type();
  const std::string copy(value);
  const char* pointer = copy.c_str();
  static_cast<void>(dataset(name, type.id(), type.id(), {}, &pointer, {"text", meaning}));
}

void H5Group::texts(std::string_view name, std::span<const std::string> values,
                    std::string_view meaning) const {
  if (values.empty()) return;
  const Handle type = text_type();
  std::vector<const char*> pointers;
  for (const std::string& value : values)
    pointers.push_back(value.c_str());
  const std::array<hsize_t, 1> shape{values.size()};
  static_cast<void>(dataset(name, type.id(), type.id(), shape, pointers.data(), {"text", meaning}));
}

void H5Group::scalar(std::string_view name, double value, const Label& label,
                     std::optional<double> low, std::optional<double> high) const {
  const Handle set = dataset(name, H5T_IEEE_F64LE, H5T_NATIVE_DOUBLE, {}, &value, label);
  if (low) put_attribute(set.id(), "band_low", H5T_NATIVE_DOUBLE, &*low);
  if (high) put_attribute(set.id(), "band_high", H5T_NATIVE_DOUBLE, &*high);
}

void H5Group::scalar(std::string_view name, int value, const Label& label) const {
  static_cast<void>(dataset(name, H5T_STD_I32LE, H5T_NATIVE_INT, {}, &value, label));
}

void H5Group::array(std::string_view name, std::span<const double> values,
                    const Label& label) const {
  const std::array<hsize_t, 1> shape{values.size()};
  static_cast<void>(dataset(name, H5T_IEEE_F64LE, H5T_NATIVE_DOUBLE, shape, values.data(), label));
}

void H5Group::array(std::string_view name, std::span<const int> values, const Label& label) const {
  const std::array<hsize_t, 1> shape{values.size()};
  static_cast<void>(dataset(name, H5T_STD_I32LE, H5T_NATIVE_INT, shape, values.data(), label));
}

void H5Group::matrix(std::string_view name, std::span<const float> values, hsize_t columns,
                     const Label& label) const {
  const std::array<hsize_t, 2> shape{columns == 0 ? 0 : values.size() / columns, columns};
  static_cast<void>(dataset(name, H5T_IEEE_F32LE, H5T_NATIVE_FLOAT, shape, values.data(), label));
}

}  // namespace drumlin::viz
