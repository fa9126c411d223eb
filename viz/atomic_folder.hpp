#pragma once

#include <filesystem>

namespace drumlin::viz {

/// A folder that appears whole or not at all, also when the process is killed on the way.
///
/// Everything is written into a hidden sibling `.NAME.partial-<process id>`. `commit` brings every
/// file to the disk and then renames the sibling; an older folder is exchanged for it in one step
/// and deleted afterwards. Where the file system cannot exchange two folders, the older one is set
/// aside as `.NAME.aside-<process id>` first; killed just there, the next run puts it back.
/// What dead processes left behind is removed on the next run.
class AtomicFolder {
 public:
  /// Makes the hidden sibling. @throws std::runtime_error as `expect_writable` does.
  AtomicFolder(const std::filesystem::path& dir, bool overwrite);
  /// Removes the hidden sibling if there was no commit.
  ~AtomicFolder();
  AtomicFolder(const AtomicFolder&) = delete;
  AtomicFolder& operator=(const AtomicFolder&) = delete;
  AtomicFolder(AtomicFolder&&) = delete;
  AtomicFolder& operator=(AtomicFolder&&) = delete;

  /// Where to write.
  [[nodiscard]] const std::filesystem::path& path() const noexcept { return partial_; }

  /// Gives the folder its name. @throws std::runtime_error; then nothing has changed.
  void commit();

 private:
  void take_place();

  std::filesystem::path dir_;
  std::filesystem::path partial_;
  bool overwrite_ = false;
  bool committed_ = false;
  int lock_ = -1;  ///< of the hidden sibling: tells others that its writer lives
};

/// Removes hidden siblings of `dir` whose process is dead, after putting an older folder back that
/// was set aside and not replaced.
void tidy_after_dead_writers(const std::filesystem::path& dir);

}  // namespace drumlin::viz
