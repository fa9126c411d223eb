#include "viz/page_file.hpp"

#include <stdexcept>

#include <fmt/format.h>
#include <unistd.h>

#include "viz/atomic_file.hpp"

namespace drumlin::viz {
namespace fs = std::filesystem;

void expect_page_writable(const fs::path& file, bool overwrite) {
  const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
  if (!file.has_filename())
    throw std::runtime_error(fmt::format("{}: expected a file name", file.string()));
  if (!fs::is_directory(folder))
    throw std::runtime_error(
        fmt::format("{}: there is no folder {}", file.string(), folder.string()));
  if (fs::exists(file) && !fs::is_regular_file(file))
    throw std::runtime_error(fmt::format("{}: is not a file; name the page itself", file.string()));
  if (fs::exists(file) && !overwrite)
    throw std::runtime_error(fmt::format(
        "{}: exists already; name another file, or give --overwrite to replace it", file.string()));
  if (access(folder.c_str(), W_OK) != 0)
    throw std::runtime_error(
        fmt::format("{}: the folder {} cannot be written", file.string(), folder.string()));
}

void write_page(const fs::path& file, std::string_view html, bool overwrite) {
  expect_page_writable(file, overwrite);
  write_whole_file(file, html);
}

}  // namespace drumlin::viz
