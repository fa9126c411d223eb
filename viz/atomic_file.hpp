#pragma once

#include <filesystem>
#include <string_view>

namespace drumlin::viz {

/// A file that appears whole or not at all, also when the process is killed on the way. It is
/// written beside its place as `.NAME.partial`, brought to the disk and renamed; an older file of
/// that name is lost only when the new one has taken its place. One writer at a time.
class AtomicFile {
 public:
  /// Removes what a killed writer left.
  explicit AtomicFile(const std::filesystem::path& path);
  /// Removes the partial file if there was no commit.
  ~AtomicFile();
  AtomicFile(const AtomicFile&) = delete;
  AtomicFile& operator=(const AtomicFile&) = delete;
  AtomicFile(AtomicFile&&) = delete;
  AtomicFile& operator=(AtomicFile&&) = delete;

  /// Where to write.
  [[nodiscard]] const std::filesystem::path& path() const noexcept { return partial_; }

  /// Gives the file its name. @throws std::runtime_error; then nothing has changed.
  void commit();

 private:
  std::filesystem::path path_;
  std::filesystem::path partial_;
  bool committed_ = false;
};

/// Writes a text into a file that appears whole or not at all.
/// @throws std::runtime_error; then nothing has changed.
void write_whole_file(const std::filesystem::path& path, std::string_view text);

/// @throws std::runtime_error: the path, what failed, and the system's words for the error number.
[[noreturn]] void fail(const std::filesystem::path& path, std::string_view what, int error);

/// Brings a file, or the entries of a folder, to the disk. @throws std::runtime_error.
void bring_to_disk(const std::filesystem::path& path);

}  // namespace drumlin::viz
