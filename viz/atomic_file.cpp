#include "viz/atomic_file.hpp"

#include <cerrno>
#include <cstdio>
#include <fstream>
#include <stdexcept>
#include <string>
#include <system_error>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

namespace drumlin::viz {
namespace fs = std::filesystem;
namespace {

fs::path folder_of(const fs::path& path) {
  return path.has_parent_path() ? path.parent_path() : fs::path(".");
}

}  // namespace

void fail(const fs::path& path, std::string_view what, int error) {
  throw std::runtime_error(
      fmt::format("{}: {}: {}", path.string(), what, std::generic_category().message(error)));
}

void bring_to_disk(const fs::path& path) {
  const int file = open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (file < 0) fail(path, "cannot be opened", errno);
  const int result = fsync(file);
  const int error = errno;
  close(file);
  // Some file systems cannot sync a folder and say EINVAL; there is nothing more to be done there.
  if (result != 0 && error != EINVAL) fail(path, "cannot be brought to the disk", error);
}

AtomicFile::AtomicFile(const fs::path& path)
    : path_(path),
      partial_(folder_of(path) / fmt::format(".{}.partial", path.filename().string())) {
  fs::remove(partial_);
}

AtomicFile::~AtomicFile() {
  if (committed_) return;
  std::error_code ignored;  // the next writer removes what cannot be removed now
  fs::remove(partial_, ignored);
}

void AtomicFile::commit() {
  bring_to_disk(partial_);
  if (std::rename(partial_.c_str(), path_.c_str()) != 0)
    fail(path_, "cannot take its place", errno);
  committed_ = true;
  bring_to_disk(folder_of(path_));
}

void write_whole_file(const fs::path& path, std::string_view text) {
  AtomicFile file(path);
  std::ofstream out(file.path(), std::ios::binary);
  out << text;
  out.close();
  if (!out) fail(path, "cannot be written", errno);
  file.commit();
}

}  // namespace drumlin::viz
