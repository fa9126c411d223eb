#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include <hdf5.h>

namespace drumlin::viz {

/// Owner of one HDF5 identifier.
class Handle {
 public:
  using Close = herr_t (*)(hid_t);

  /// @throws std::runtime_error naming `what` if the library gave no identifier.
  Handle(hid_t id, Close close, std::string_view what);
  ~Handle();
  Handle(Handle&& other) noexcept
      : id_(std::exchange(other.id_, H5I_INVALID_HID)), close_(other.close_) {}
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;
  Handle& operator=(Handle&&) = delete;

  [[nodiscard]] hid_t id() const noexcept { return id_; }

 private:
  hid_t id_;
  Close close_;
};

/// @throws std::runtime_error naming `what` if a call of the library failed.
void expect_done(herr_t result, std::string_view what);

/// Keeps the library from printing its own stack while it lives: messages go out through
/// exceptions.
class QuietErrors {
 public:
  QuietErrors() noexcept;
  ~QuietErrors();
  QuietErrors(const QuietErrors&) = delete;
  QuietErrors& operator=(const QuietErrors&) = delete;
  QuietErrors(QuietErrors&&) = delete;
  QuietErrors& operator=(QuietErrors&&) = delete;

 private:
  H5E_auto2_t function_ = nullptr;
  void* data_ = nullptr;
};

/// What a dataset says about itself.
struct Label {
  std::string_view unit;
  std::string_view meaning;
  std::string_view nan{};  ///< what NaN means in it; empty: it holds none
};

/// A group of an HDF5 file that is being written: plain calls, every dataset labelled, no object
/// times, so that the same content gives the same bytes.
class H5Group {
 public:
  /// A new file; the group is its root.
  static H5Group create_file(const std::filesystem::path& path);
  /// The same in memory only; file_bytes() gives what the file would be.
  static H5Group create_in_memory();
  [[nodiscard]] std::string file_bytes() const;
  /// Writes what the library still holds. Closing would do it too, but could not say that it
  /// failed. @throws std::runtime_error, on a full disk for instance.
  void flush() const;

  [[nodiscard]] H5Group group(std::string_view name) const;
  [[nodiscard]] hid_t id() const noexcept { return group_.id(); }

  void attribute(std::string_view name, std::string_view text) const;
  void attribute(std::string_view name, double value) const;
  void attribute(std::string_view name, int value) const;

  void text(std::string_view name, std::string_view value, std::string_view meaning) const;
  /// A list of sentences as a 1-D dataset of strings; nothing if the list is empty.
  void texts(std::string_view name, std::span<const std::string> values,
             std::string_view meaning) const;
  void scalar(std::string_view name, double value, const Label& label,
              std::optional<double> low = {}, std::optional<double> high = {}) const;
  void scalar(std::string_view name, int value, const Label& label) const;
  void array(std::string_view name, std::span<const double> values, const Label& label) const;
  void array(std::string_view name, std::span<const int> values, const Label& label) const;
  /// Rows one after the other, kept in single precision (error below 1e-7 of the value) and
  /// compressed row by row.
  void matrix(std::string_view name, std::span<const float> values, hsize_t columns,
              const Label& label) const;

 private:
  static H5Group create(const std::filesystem::path& path, hid_t access);
  explicit H5Group(Handle file, Handle group) : file_(std::move(file)), group_(std::move(group)) {}

  [[nodiscard]] Handle dataset(std::string_view name, hid_t stored, hid_t given,
                               std::span<const hsize_t> shape, const void* values,
                               const Label& label) const;

  Handle file_;
  Handle group_;
};

}  // namespace drumlin::viz
