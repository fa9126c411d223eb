#include "viz/writers.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

#include <fmt/format.h>

#include "viz/atomic_folder.hpp"
#include "viz/output.hpp"
#ifdef DRUMLIN_WITH_VTK
#include "viz/offscreen.hpp"
#endif

namespace drumlin::viz {
namespace fs = std::filesystem;

#ifndef DRUMLIN_WITH_VTK
/// Nothing to draw in: this build has no pictures.
class Offscreen {};
#endif

namespace {

/// Registration: a new writer adds its line here.
constexpr auto writers = std::to_array<Writer>({
    {"summary.json", write_summary_json},
    {"results.h5", write_hdf5},
#ifdef DRUMLIN_WITH_VTK
    {"VTK series", write_vtk_series},
#endif
    {"pictures", write_pictures},
    {"report.html", write_report},
});

std::vector<std::string> files_below(const fs::path& folder) {
  std::vector<std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file())
      files.push_back(entry.path().lexically_relative(folder).generic_string());
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace

Output::Output(fs::path folder, const WriteOptions& options)
    : folder_(std::move(folder)), options_(options) {
#ifndef DRUMLIN_WITH_VTK
  remark("no VTK series and no PNG pictures: this program was built without VTK");
#endif
}

Output::~Output() = default;

fs::path Output::place(const fs::path& relative) const {
  fs::path path = folder_ / relative;
  fs::create_directories(path.parent_path());
  return path;
}

Offscreen* Output::screen() {
#ifdef DRUMLIN_WITH_VTK
  if (!screen_tried_ && options_.pictures) {
    screen_tried_ = true;
    OffscreenOrReason made = open_offscreen();
    screen_ = std::move(made.screen);
    if (!screen_) remark("no PNG pictures: " + made.reason);
  }
#endif
  return screen_.get();
}

void Output::remark(const std::string& text) {
  auto& remarks = report_.remarks;
  if (std::find(remarks.begin(), remarks.end(), text) == remarks.end()) remarks.push_back(text);
}

WriteReport write(const sim::Result& result, const fs::path& dir, const WriteOptions& options) {
  AtomicFolder folder(dir, options.overwrite);
  WriteReport report;
  {
    Output out(folder.path(), options);
    for (const Writer& writer : writers) {
      try {
        writer.write(result, out);
      } catch (const std::exception& error) {
        throw std::runtime_error(fmt::format("{}: {} could not be written: {}", dir.string(),
                                             writer.name, error.what()));
      }
    }
    report = out.report();
  }
  report.files = files_below(folder.path());
  folder.commit();
  return report;
}

}  // namespace drumlin::viz
