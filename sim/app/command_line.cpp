// The one file that knows CLI11.
#include <algorithm>
#include <memory>
#include <sstream>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cases/suggest.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit_codes.hpp"

namespace drumlin::app {

namespace {

/// What the flags are written into; one object per call.
struct Flags {
  RunCommand run;
  CheckCommand check;
  MaterialsCommand materials;
  CompareCommand compare;
  ReportCommand report;
  LessonCommand lesson;
  SweepCommand sweep;
  MergeCommand merge;
  WindowCommand window;
  std::string material;
  bool no_pictures = false;
};

void add_run(CLI::App& app, Flags& flags) {
  CLI::App* run = app.add_subcommand("run", "compute a case and write its folder of results");
  run->add_option("case", flags.run.case_file, "case file")->required()->type_name("CASE.toml");
  run->add_option("--out", flags.run.out, "folder for the results; must not exist yet")
      ->required()
      ->type_name("DIR");
  run->add_flag("--overwrite", flags.run.overwrite, "replace DIR if it holds older results");
  run->add_flag("--strict", flags.run.strict, "exit code 1 if the limits are not kept");
  run->add_flag("--no-pictures", flags.no_pictures, "leave out the PNG pictures");
  run->add_flag("--quiet", flags.run.quiet, "print nothing but errors");
}

void add_check(CLI::App& app, Flags& flags) {
  CLI::App* check = app.add_subcommand(
      "check", "read and check a case, show how it was understood, write nothing");
  check->add_option("case", flags.check.case_file, "case file")->required()->type_name("CASE.toml");
}

void add_materials(CLI::App& app, Flags& flags) {
  CLI::App* materials =
      app.add_subcommand("materials", "show what the library knows, with bands and sources");
  materials->add_option("name", flags.material, "metal, layer, abrasive, backing or grit")
      ->type_name("NAME");
}

void add_compare(CLI::App& app, Flags& flags) {
  CLI::App* compare =
      app.add_subcommand("compare", "compute cases and show side by side what differs, and why");
  compare->add_option("cases", flags.compare.case_files, "two to six case files")
      ->required()
      ->type_name("CASE.toml");
  compare
      ->add_option("--out", flags.compare.out, "page to write; left out: text on the terminal only")
      ->type_name("FILE.html");
  compare->add_flag("--overwrite", flags.compare.overwrite, "replace FILE.html if it is there");
  compare->add_flag("--answers", flags.compare.answers,
                    "print the answers too: the trainer's copy; without, blanks to fill in");
  compare->add_flag("--quiet", flags.compare.quiet, "print nothing but errors");
}

void add_report(CLI::App& app, Flags& flags) {
  CLI::App* report = app.add_subcommand(
      "report", "compute the case of a folder of results again and write its report anew");
  report->add_option("folder", flags.report.folder, "folder that drumlin run wrote")
      ->required()
      ->type_name("DIR");
  report->add_option("--out", flags.report.out, "page to write; left out: report.html in DIR")
      ->type_name("FILE.html");
}

void add_lesson(CLI::App& app, Flags& flags) {
  CLI::App* lesson =
      app.add_subcommand("lesson", "write a page for a class: sliders, questions, sheet to print");
  lesson->add_option("case", flags.lesson.case_file, "case file")
      ->required()
      ->type_name("CASE.toml");
  lesson->add_option("--out", flags.lesson.out, "page to write; must not exist yet")
      ->required()
      ->type_name("FILE.html");
  lesson->add_flag("--overwrite", flags.lesson.overwrite, "replace FILE.html if it is there");
  lesson->add_flag("--answers", flags.lesson.answers, "print the trainer's copy of the sheet");
  lesson->add_flag("--quiet", flags.lesson.quiet, "print nothing but errors");
}

void add_sweep(CLI::App& app, Flags& flags) {
  CLI::App* sweep = app.add_subcommand("sweep", "compute every row of a study into one table");
  sweep->add_option("study", flags.sweep.study_file, "study file")
      ->required()
      ->type_name("STUDY.toml");
  sweep
      ->add_option("--out", flags.sweep.out,
                   "folder for the table; must not exist yet (with --row: case file to write)")
      ->type_name("DIR");
  sweep->add_option("--threads", flags.sweep.threads, "threads; left out: one for every core")
      ->check(CLI::Range(1, 4096))
      ->type_name("N");
  sweep->add_flag("--resume", flags.sweep.resume,
                  "go on where an earlier call was stopped; starts where there is nothing yet");
  sweep
      ->add_option("--shard", flags.sweep.shard,
                   "only part i of n, for job arrays: 0/4 to 3/4 or 1/4 to 4/4; then merge")
      ->type_name("i/n");
  sweep->add_flag("--csv", flags.sweep.csv, "also as comma-separated values");
  sweep->add_flag("--dry-run", flags.sweep.dry_run,
                  "say how many rows, hours and bytes it would take; write nothing");
  sweep
      ->add_option("--row", flags.sweep.row,
                   "compute this row alone and show it; with --out write it as a case file")
      ->type_name("NUMBER");
  sweep->add_flag("--quiet", flags.sweep.quiet, "print nothing but errors");
}

void add_merge(CLI::App& app, Flags& flags) {
  CLI::App* merge = app.add_subcommand("merge", "pack the shards of a study into one table");
  merge->add_option("shards", flags.merge.folders, "folders that sweep --shard wrote")
      ->required()
      ->type_name("DIR");
  merge->add_option("--out", flags.merge.out, "folder for the table; must not exist yet")
      ->required()
      ->type_name("DIR");
  merge->add_flag("--csv", flags.merge.csv, "also as comma-separated values");
  merge->add_flag("--quiet", flags.merge.quiet, "print nothing but errors");
}

void add_window(CLI::App& app, Flags& flags) {
  CLI::App* window = app.add_subcommand(
      "window", "map over two settings: where the limits are kept, and which fails first");
  window->add_option("study", flags.window.study_file, "study file with two factors from .. to")
      ->required()
      ->type_name("STUDY.toml");
  window->add_option("--out", flags.window.out, "folder for the map; must not exist yet")
      ->required()
      ->type_name("DIR");
  window->add_flag("--overwrite", flags.window.overwrite, "replace DIR if it holds older results");
  window->add_option("--threads", flags.window.threads, "cores to use; left out: all")
      ->check(CLI::Range(1U, 4096U))
      ->type_name("N");
  window->add_flag("--no-pictures", flags.no_pictures, "leave out the SVG and PNG pictures");
  window->add_flag("--quiet", flags.window.quiet, "print nothing but errors");
}

std::vector<std::string> subcommand_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::App* command : app.get_subcommands({}))
    names.push_back(command->get_name());
  return names;
}

std::vector<std::string> flag_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::Option* option : app.get_options({}))
    for (const std::string& name : option->get_lnames())
      names.push_back("--" + name);
  return names;
}

std::string joined(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string suggestion(const std::string& word, const std::vector<std::string>& candidates,
                       std::string_view kind) {
  if (const auto best = cases::nearest(word, candidates))
    return fmt::format("; nearest is \"{}\"", *best);
  return fmt::format("; {} are: {}", kind, joined(candidates));
}

// What CLI11 could not place, with the nearest thing that it could have placed.
std::string stray_word_text(const CLI::App& app) {
  const auto chosen = app.get_subcommands();
  const CLI::App& where = chosen.empty() ? app : *chosen.front();
  for (const std::string& word : app.remaining(true)) {
    if (word.starts_with("-") && word.size() > 1) {
      const std::string name = word.substr(0, word.find('='));
      return fmt::format("unknown flag \"{}\"{}", name,
                         suggestion(name, flag_names(where), "flags"));
    }
  }
  const auto words = app.remaining(true);
  if (words.empty()) return "something on the command line was not understood";
  if (!chosen.empty()) return fmt::format("\"{}\" is one word too many", words.front());
  if (words.front().ends_with(".toml"))
    return fmt::format("\"{0}\" is no command; meant is perhaps: drumlin run {0} --out DIR",
                       words.front());
  return fmt::format("unknown command \"{}\"{}", words.front(),
                     suggestion(words.front(), subcommand_names(app), "commands"));
}

AnswerOnly mistake(const CLI::App& app, const std::string& text) {
  const auto chosen = app.get_subcommands();
  const std::string help =
      chosen.empty() ? "drumlin --help" : "drumlin " + chosen.front()->get_name() + " --help";
  return {bad_input, fmt::format("error: {}\ntry: {}\n", text, help)};
}

AnswerOnly answer(const CLI::App& app, const CLI::ParseError& error) {
  if (error.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success)) {
    std::ostringstream out;
    std::ostringstream ignored;
    static_cast<void>(app.exit(error, out, ignored));
    return {done, out.str()};
  }
  // A stray word says more than "--out is required": who mistypes --out has both mistakes.
  if (!app.remaining(true).empty()) return mistake(app, stray_word_text(app));
  return mistake(app, error.what());
}

Command chosen_command(const CLI::App& app, Flags flags) {
  const auto chosen = app.get_subcommands();
  if (chosen.empty()) return AnswerOnly{bad_input, app.help()};
  const std::string name = chosen.front()->get_name();
  if (name == "check") return flags.check;
  if (name == "compare") return flags.compare;
  if (name == "report") return flags.report;
  if (name == "materials") {
    if (!flags.material.empty()) flags.materials.name = flags.material;
    return flags.materials;
  }
  if (name == "lesson") return flags.lesson;
  if (name == "sweep") return flags.sweep;
  if (name == "merge") return flags.merge;
  if (name == "window") {
    flags.window.pictures = !flags.no_pictures;
    return flags.window;
  }
  flags.run.pictures = !flags.no_pictures;
  return flags.run;
}

}  // namespace

Command parse_command_line(int argc, const char* const* argv) {
  CLI::App app("Contact pressure and removal in belt-and-brush deburring of sheet metal.",
               "drumlin");
  Flags flags;
  app.set_version_flag("--version", "drumlin " DRUMLIN_VERSION);
  app.require_subcommand(0, 1);
  add_run(app, flags);
  add_check(app, flags);
  add_materials(app, flags);
  add_compare(app, flags);
  add_report(app, flags);
  add_lesson(app, flags);
  add_sweep(app, flags);
  add_merge(app, flags);
  add_window(app, flags);
  app.footer(
      "Exit codes: 0 done, 1 done and not accepted with --strict, 2 bad input, 3 numerical "
      "failure,\n130 stopped. A process estimate, not a safety assessment.");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return answer(app, error);
  }
  return chosen_command(app, flags);
}

}  // namespace drumlin::app
