#pragma once

#include <chrono>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <sys/types.h>

namespace drumlin::support {

/// What a program left behind.
struct Outcome {
  int exit_code = -1;  ///< minus the signal's number where a signal ended it
  std::string out;     ///< stdout
  std::string err;     ///< stderr
  long peak_memory_kib = 0;
};

/// A started drumlin with its stdout and stderr going to files (not to a terminal).
class RunningProgram {
 public:
  explicit RunningProgram(const std::vector<std::string>& arguments);
  ~RunningProgram();
  RunningProgram(const RunningProgram&) = delete;
  RunningProgram& operator=(const RunningProgram&) = delete;
  RunningProgram(RunningProgram&&) = delete;
  RunningProgram& operator=(RunningProgram&&) = delete;

  void send(int signal) const;
  [[nodiscard]] Outcome wait();

 private:
  std::filesystem::path folder_;
  pid_t id_ = -1;
};

/// Runs drumlin to its end.
[[nodiscard]] Outcome run_program(const std::vector<std::string>& arguments);

/// A folder of its own for one test, removed at its end.
class ScratchFolder {
 public:
  ScratchFolder();
  ~ScratchFolder();
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  ScratchFolder(ScratchFolder&&) = delete;
  ScratchFolder& operator=(ScratchFolder&&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const noexcept { return path_; }
  /// Writes a file and gives its path.
  [[nodiscard]] std::string file(const std::string& name, const std::string& text) const;
  /// Path of something in the folder.
  [[nodiscard]] std::string at(const std::string& name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

[[nodiscard]] std::string read_file(const std::filesystem::path& file);

/// Every file below a folder: relative name to content.
[[nodiscard]] std::map<std::string, std::string> files_of(const std::filesystem::path& folder);

}  // namespace drumlin::support
