#include "viz/hdf5_reader.hpp"

namespace drumlin::viz {
namespace {

hid_t opened(const std::filesystem::path& path) {
  const QuietErrors quiet;
  return H5Fopen(path.c_str(), H5F_ACC_RDONLY, H5P_DEFAULT);
}

/// Text of variable length, as drumlin writes it; `read` fills the pointer.
template <class Read>
std::optional<std::string> variable_text(hid_t type_id, const Read& read) {
  const Handle type(type_id, H5Tclose, "type");
  if (H5Tis_variable_str(type.id()) <= 0) return {};
  char* pointer = nullptr;
  if (read(type.id(), &pointer) < 0 || pointer == nullptr) return {};
  std::string text(pointer);
  H5free_memory(pointer);
  return text;
}

hid_t attribute_id(hid_t file, const char* group, const char* name) {
  return H5Aopen_by_name(file, group, name, H5P_DEFAULT, H5P_DEFAULT);
}

}  // namespace

H5Reader::H5Reader(const std::filesystem::path& path)
    : file_(opened(path), H5Fclose, path.string()) {}

std::optional<std::string> H5Reader::attribute(const char* group, const char* name) const {
  const QuietErrors quiet;
  const hid_t id = attribute_id(file_.id(), group, name);
  if (id < 0) return {};
  const Handle attribute(id, H5Aclose, name);
  return variable_text(H5Aget_type(id), [&](hid_t type, char** pointer) {
    return H5Aread(attribute.id(), type, static_cast<void*>(pointer));
  });
}

std::optional<int> H5Reader::number(const char* group, const char* name) const {
  const QuietErrors quiet;
  const hid_t id = attribute_id(file_.id(), group, name);
  if (id < 0) return {};
  const Handle attribute(id, H5Aclose, name);
  int value = 0;
  if (H5Aread(attribute.id(), H5T_NATIVE_INT, &value) < 0) return {};
  return value;
}

std::optional<std::string> H5Reader::text(const char* dataset) const {
  const QuietErrors quiet;
  const hid_t id = H5Dopen2(file_.id(), dataset, H5P_DEFAULT);
  if (id < 0) return {};
  const Handle set(id, H5Dclose, dataset);
  return variable_text(H5Dget_type(id), [&](hid_t type, char** pointer) {
    return H5Dread(set.id(), type, H5S_ALL, H5S_ALL, H5P_DEFAULT, static_cast<void*>(pointer));
  });
}

}  // namespace drumlin::viz
