#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>
#include <variant>
#include <vector>

namespace drumlin::app {

/// The user asked for something that cannot be: a flag, a folder, a name. Exit code 2.
class InputError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// `drumlin run CASE.toml --out DIR`: computes a case and writes its folder of results.
struct RunCommand {
  std::filesystem::path case_file;
  std::filesystem::path out;
  bool overwrite = false;  ///< replace an older folder of results
  bool strict = false;     ///< exit code 1 if the limits are not all kept
  bool pictures = true;
  bool quiet = false;  ///< nothing on stdout, no progress
};

/// `drumlin check CASE.toml`: reads and checks a case and shows how it was understood.
struct CheckCommand {
  std::filesystem::path case_file;
};

/// `drumlin materials [NAME]`: what the library knows, with bands and sources.
struct MaterialsCommand {
  std::optional<std::string> name;  ///< absent: everything, one line each
};

/// `drumlin compare A.toml B.toml ...`: computes cases and says what sets them apart, and why.
struct CompareCommand {
  std::vector<std::filesystem::path> case_files;
  std::filesystem::path out;  ///< page; empty: text on the terminal only
  bool overwrite = false;     ///< replace an older page
  bool answers = false;       ///< print the answers: the trainer's copy
  bool quiet = false;
};

/// `drumlin report DIR`: computes the case that a folder of results keeps once more, compares, and
/// writes the folder's report anew.
struct ReportCommand {
  std::filesystem::path folder;
  std::filesystem::path out;  ///< page; empty: report.html in the folder
};

/// `drumlin lesson CASE.toml --out FILE.html`: a page for a class, with sliders and questions.
struct LessonCommand {
  std::filesystem::path case_file;
  std::filesystem::path out;
  bool overwrite = false;
  bool answers = false;  ///< print the trainer's copy of the sheet
  bool quiet = false;
};

/// `drumlin sweep STUDY.toml --out DIR`: computes every row of a study.
struct SweepCommand {
  std::filesystem::path study_file;
  std::filesystem::path out;
  unsigned threads = 0;              ///< 0: as many as there are cores
  bool resume = false;               ///< go on where an earlier call was stopped
  std::string shard;                 ///< "i/n": this call's part of the study; empty: all of it
  bool csv = false;                  ///< also as comma-separated values
  bool dry_run = false;              ///< say what it would take, write nothing
  std::optional<std::uint64_t> row;  ///< only this row: show it, and write its case to `out`
  bool quiet = false;
};

/// `drumlin merge DIR ... --out DIR`: packs the shards of a study into one file.
struct MergeCommand {
  std::vector<std::filesystem::path> folders;
  std::filesystem::path out;
  bool csv = false;
  bool quiet = false;
};

/// `drumlin window STUDY.toml --out DIR`: a map over two settings of what is accepted.
struct WindowCommand {
  std::filesystem::path study_file;
  std::filesystem::path out;
  bool overwrite = false;
  unsigned threads = 0;  ///< 0: as many as there are cores
  bool pictures = true;
  bool quiet = false;
};

/// Nothing left to do: help or version, or a mistake on the command line.
struct AnswerOnly {
  int exit_code = 0;
  std::string text;  ///< for stdout with exit code 0, for stderr otherwise
};

/// Registration: a new command adds its struct here, its function below and its flags in
/// command_line.cpp.
using Command =
    std::variant<AnswerOnly, RunCommand, CheckCommand, MaterialsCommand, CompareCommand,
                 ReportCommand, LessonCommand, SweepCommand, MergeCommand, WindowCommand>;

/// Understands the command line.
///
/// Never throws for what a user typed: mistakes come back as an AnswerOnly with exit code 2, with
/// the nearest command or flag as a suggestion.
[[nodiscard]] Command parse_command_line(int argc, const char* const* argv);

/// Each carries out one command.
/// @return  exit code 0, or 1 for a run with `strict` that is not accepted.
/// @throws  InputError, cases::CaseError, sim::NumericsError, sim::Stopped.
[[nodiscard]] int carry_out(const AnswerOnly& answer);
[[nodiscard]] int carry_out(const RunCommand& command);
[[nodiscard]] int carry_out(const CheckCommand& command);
[[nodiscard]] int carry_out(const MaterialsCommand& command);
[[nodiscard]] int carry_out(const CompareCommand& command);
[[nodiscard]] int carry_out(const ReportCommand& command);
[[nodiscard]] int carry_out(const LessonCommand& command);
[[nodiscard]] int carry_out(const SweepCommand& command);
[[nodiscard]] int carry_out(const MergeCommand& command);
[[nodiscard]] int carry_out(const WindowCommand& command);

}  // namespace drumlin::app
