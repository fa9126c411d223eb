#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "viz/hdf5_tree.hpp"

namespace drumlin::viz {

/// Texts and numbers of an HDF5 file, by their paths; no value where there is none of that kind.
class H5Reader {
 public:
  /// @throws std::runtime_error if the file cannot be opened as HDF5.
  explicit H5Reader(const std::filesystem::path& path);

  [[nodiscard]] hid_t id() const noexcept { return file_.id(); }
  [[nodiscard]] std::optional<std::string> attribute(const char* group, const char* name) const;
  [[nodiscard]] std::optional<int> number(const char* group, const char* name) const;
  [[nodiscard]] std::optional<std::string> text(const char* dataset) const;

 private:
  Handle file_;
};

}  // namespace drumlin::viz
