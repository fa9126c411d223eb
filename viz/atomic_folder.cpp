#include "viz/atomic_folder.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <csignal>
#include <cstdio>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include "viz/atomic_file.hpp"
#include "viz/writers.hpp"

namespace drumlin::viz {
namespace fs = std::filesystem;
namespace {

constexpr std::string_view partial_mark = ".partial-";
constexpr std::string_view aside_mark = ".aside-";

/// Absolute, without "." and "..", without a trailing slash; links in existing parts resolved, so
/// that the sibling lies on the same disk as the folder itself.
fs::path settled(const fs::path& dir) {
  if (dir.empty()) throw std::runtime_error("no output folder was named");
  fs::path path = fs::weakly_canonical(fs::absolute(dir));
  if (!path.has_filename()) path = path.parent_path();
  if (!path.has_filename())
    throw std::runtime_error(fmt::format("{}: cannot be an output folder", dir.string()));
  return path;
}

fs::path sibling(const fs::path& dir, std::string_view mark) {
  return dir.parent_path() / fmt::format(".{}{}{}", dir.filename().string(), mark, getpid());
}

/// Shared by nobody: an open folder that is locked belongs to a living writer, whatever machine or
/// process number it has.
int locked(const fs::path& folder) {
  const int file = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (file < 0) return -1;
  if (flock(file, LOCK_EX | LOCK_NB) == 0) return file;
  close(file);
  return -1;
}

/// Both signs must agree, since a process number may have been given away again and a folder that
/// was made a moment ago may not be locked yet.
bool writer_is_dead(const fs::path& folder, pid_t process) {
  if (process != getpid() && (kill(process, 0) == 0 || errno != ESRCH)) return false;
  const int lock = locked(folder);
  if (lock < 0) return false;
  close(lock);
  return true;
}

/// The process number behind `mark` in the name of a hidden sibling of `dir`; 0: it is none.
pid_t writer_of(const fs::path& entry, const fs::path& dir, std::string_view mark) {
  const std::string name = entry.filename().string();
  const std::string start = fmt::format(".{}{}", dir.filename().string(), mark);
  if (!name.starts_with(start)) return 0;
  pid_t process = 0;
  const char* end = name.data() + name.size();
  const auto [stop, error] = std::from_chars(name.data() + start.size(), end, process);
  return error == std::errc{} && stop == end && process > 0 ? process : 0;
}

void bring_tree_to_disk(const fs::path& folder) {
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    bring_to_disk(entry.path());
  bring_to_disk(folder);
}

fs::path nearest_existing(fs::path path) {
  while (!fs::exists(path) && path.has_parent_path() && path != path.parent_path())
    path = path.parent_path();
  return path;
}

void expect_replaceable(const fs::path& path, bool overwrite) {
  if (!fs::is_directory(path))
    throw std::runtime_error(
        fmt::format("{}: is a file; the output needs a folder of its own", path.string()));
  if (!overwrite)
    throw std::runtime_error(
        fmt::format("{}: exists already; name another folder, or give --overwrite to replace it",
                    path.string()));
  const bool window = fs::is_regular_file(path / "window.json");
  if (!fs::is_empty(path) && !window && !fs::is_regular_file(path / "summary.json"))
    throw std::runtime_error(
        fmt::format("{}: holds files but no drumlin result (no summary.json); it is not replaced",
                    path.string()));
  // What somebody put beside the results is not ours to delete.
  constexpr std::array<std::string_view, 5> of_a_run{"summary.json", "results.h5", "pass",
                                                     "pictures", "report.html"};
  constexpr std::array<std::string_view, 8> of_a_window{
      "window.json", "window.h5",  "window.vtu", "window-lines.vtp", "window-probability.vtu",
      "window.svg",  "window.png", "window.html"};
  const std::span<const std::string_view> ours =
      window ? std::span<const std::string_view>(of_a_window) : of_a_run;
  std::vector<std::string> foreign;
  for (const auto& entry : fs::directory_iterator(path)) {
    const std::string name = entry.path().filename().string();
    if (std::find(ours.begin(), ours.end(), name) == ours.end()) foreign.push_back(name);
  }
  if (foreign.empty()) return;
  std::sort(foreign.begin(), foreign.end());
  throw std::runtime_error(
      fmt::format("{}: holds \"{}\", which drumlin did not write; move it away or choose another "
                  "folder, it would be deleted",
                  path.string(), foreign.front()));
}

}  // namespace

void expect_writable(const fs::path& dir, bool overwrite) {
  const fs::path path = settled(dir);
  if (fs::exists(path)) expect_replaceable(path, overwrite);
  const fs::path parent = nearest_existing(path.parent_path());
  if (!fs::is_directory(parent))
    throw std::runtime_error(
        fmt::format("{}: cannot be made, because {} is a file", path.string(), parent.string()));
  if (access(parent.c_str(), W_OK | X_OK) != 0) fail(parent, "cannot be written to", errno);
}

void tidy_after_dead_writers(const fs::path& dir) {
  const fs::path path = settled(dir);
  if (!fs::is_directory(path.parent_path())) return;
  std::vector<fs::path> entries;
  for (const auto& entry : fs::directory_iterator(path.parent_path()))
    entries.push_back(entry.path());
  for (const fs::path& entry : entries) {
    const pid_t partial = writer_of(entry, path, partial_mark);
    const pid_t aside = writer_of(entry, path, aside_mark);
    if (partial + aside == 0 || !writer_is_dead(entry, partial + aside)) continue;
    std::error_code ignored;  // another run may be tidying at the same time
    if (aside != 0 && !fs::exists(path))
      fs::rename(entry, path, ignored);
    else
      fs::remove_all(entry, ignored);
  }
}

AtomicFolder::AtomicFolder(const fs::path& dir, bool overwrite)
    : dir_(settled(dir)), partial_(sibling(dir_, partial_mark)), overwrite_(overwrite) {
  tidy_after_dead_writers(dir_);
  expect_writable(dir_, overwrite_);
  std::error_code error;
  fs::create_directories(dir_.parent_path(), error);
  if (error) fail(dir_.parent_path(), "cannot be made", error.value());
  if (!fs::create_directory(partial_, error))
    fail(partial_, "cannot be made", error ? error.value() : EEXIST);
  lock_ = locked(partial_);
}

AtomicFolder::~AtomicFolder() {
  if (!committed_) {
    std::error_code ignored;  // the next run tidies what cannot be removed now
    fs::remove_all(partial_, ignored);
  }
  if (lock_ >= 0) close(lock_);
}

void AtomicFolder::commit() {
  bring_tree_to_disk(partial_);
  expect_writable(dir_, overwrite_);  // someone may have made it while we were writing
  take_place();
  committed_ = true;
  bring_to_disk(dir_.parent_path());
  std::error_code ignored;  // the next run tidies what cannot be removed now
  fs::remove_all(partial_, ignored);
}

void AtomicFolder::take_place() {
  constexpr unsigned no_replace = RENAME_NOREPLACE;
  constexpr unsigned exchange = RENAME_EXCHANGE;
  const bool there = fs::exists(dir_);
  if (renameat2(AT_FDCWD, partial_.c_str(), AT_FDCWD, dir_.c_str(),
                there ? exchange : no_replace) == 0)
    return;
  if (errno != EINVAL && errno != ENOSYS) fail(dir_, "cannot take its place", errno);
  const fs::path aside = sibling(dir_, aside_mark);
  if (there && std::rename(dir_.c_str(), aside.c_str()) != 0)
    fail(dir_, "cannot be set aside", errno);
  if (std::rename(partial_.c_str(), dir_.c_str()) != 0) {
    const int error = errno;
    if (there) static_cast<void>(std::rename(aside.c_str(), dir_.c_str()));
    fail(dir_, "cannot take its place", error);
  }
  std::error_code ignored;
  fs::remove_all(aside, ignored);
}

}  // namespace drumlin::viz
