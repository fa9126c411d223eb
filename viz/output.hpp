#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "viz/writers.hpp"

namespace drumlin::viz {

class Offscreen;

/// Where the writers put their files, and what they share: the options, the report and the one
/// off-screen window that all pictures are drawn in.
class Output {
 public:
  Output(std::filesystem::path folder, const WriteOptions& options);
  ~Output();
  Output(const Output&) = delete;
  Output& operator=(const Output&) = delete;
  Output(Output&&) = delete;
  Output& operator=(Output&&) = delete;

  /// Full path of a file that is named relative to the folder; makes the folders on the way.
  [[nodiscard]] std::filesystem::path place(const std::filesystem::path& relative) const;

  [[nodiscard]] const std::filesystem::path& folder() const noexcept { return folder_; }

  [[nodiscard]] bool wants_pictures() const noexcept { return options_.pictures; }

  /// Window to draw in, made at the first call; null where pictures are not wanted or not possible,
  /// which is then among the remarks.
  [[nodiscard]] Offscreen* screen();

  /// Says something about the output; the same sentence only once.
  void remark(const std::string& text);

  [[nodiscard]] const WriteReport& report() const noexcept { return report_; }

 private:
  std::filesystem::path folder_;
  WriteOptions options_;
  WriteReport report_;
  bool screen_tried_ = false;
  std::unique_ptr<Offscreen> screen_;
};

/// One file (or family of files) of the output: a function and the name it goes by in messages.
struct Writer {
  const char* name;
  void (*write)(const sim::Result& result, Output& out);
};

void write_summary_json(const sim::Result& result, Output& out);
void write_hdf5(const sim::Result& result, Output& out);
void write_vtk_series(const sim::Result& result, Output& out);
void write_pictures(const sim::Result& result, Output& out);
void write_report(const sim::Result& result, Output& out);

}  // namespace drumlin::viz
