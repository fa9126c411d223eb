#include "viz/report.hpp"

#include <cstdio>
#include <iostream>

#include <fmt/format.h>

#include "cases/file_text.hpp"
#include "cases/reader.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/computed.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/stop_signal.hpp"
#include "sim/app/terminal.hpp"
#include "sim/app/user_fault.hpp"
#include "sim/setup.hpp"
#include "viz/atomic_file.hpp"
#include "viz/kept_result.hpp"

namespace drumlin::app {

namespace fs = std::filesystem;

namespace {

fs::path page_of(const ReportCommand& command) {
  if (command.out.empty()) return command.folder / "report.html";
  if (command.out.extension() != ".html" && command.out.extension() != ".htm")
    throw InputError(fmt::format("{}: a report is a page; expected a name that ends in .html",
                                 command.out.string()));
  if (fs::is_directory(command.out))
    throw InputError(fmt::format("{}: is a folder; expected a file", command.out.string()));
  const fs::path parent = command.out.parent_path();
  if (!parent.empty() && !fs::is_directory(parent))
    throw InputError(
        fmt::format("{}: the folder {} is not there", command.out.string(), parent.string()));
  return command.out;
}

/// Own materials of a case are not kept in the folder: they are read again from where they lay.
std::string about_materials(const viz::KeptCase& kept) {
  const fs::path beside = fs::path(kept.file).parent_path();
  return fmt::format(
      "The folder keeps the case's text, but not materials of your own: they are looked for where "
      "the case file lay, in {}, seen from here.",
      (beside.empty() ? fs::path("materials") : beside / "materials").string());
}

cases::Case case_of(const viz::KeptCase& kept, const fs::path& folder) {
  if (cases::sha256(kept.text) != kept.sha256)
    throw InputError(
        fmt::format("{}: the case in it does not match its own checksum: it was edited "
                    "or is damaged; nothing was changed",
                    (folder / "results.h5").string()));
  try {
    return cases::parse(kept.text, kept.file);
  } catch (const cases::CaseError& error) {
    throw InputError(fmt::format(
        "{}: the case kept in it, by drumlin {}, cannot be read by this version:\n{}\n{}",
        (folder / "results.h5").string(), kept.version, error.what(), about_materials(kept)));
  }
}

std::string moved_text(const std::vector<std::string>& moved, const viz::KeptCase& kept,
                       const sim::Result& result, const fs::path& folder) {
  constexpr std::size_t most = 5;
  std::string text =
      fmt::format("{}: computed again, {} value{} of it moved; no page was written\n",
                  (folder / "summary.json").string(), moved.size(), moved.size() == 1 ? "" : "s");
  for (std::size_t i = 0; i < std::min(most, moved.size()); ++i)
    text += "  " + moved[i] + '\n';
  if (moved.size() > most) text += fmt::format("  and {} more\n", moved.size() - most);
  text += kept.version == result.provenance.version
              ? "The folder was made by this version: the file was edited or damaged, or the "
                "library of materials is another now. " +
                    about_materials(kept)
              : fmt::format("The folder was made by drumlin {}, this is {}.", kept.version,
                            result.provenance.version);
  return text + " Run the case again for a folder of this version.";
}

}  // namespace

int carry_out(const ReportCommand& command) {
  const fs::path page = page_of(command);
  const viz::KeptCase kept = for_the_user([&] { return viz::kept_case(command.folder); });
  const sim::Setup setup = sim::set_up(case_of(kept, command.folder));
  const StopOnSignal stop;
  ProgressLine line(stderr, stderr_is_terminal());
  sim::Result result = explained(setup, line, stop.token());
  line.wipe();
  const auto moved = for_the_user([&] { return viz::moved_values(command.folder, result); });
  if (!moved.empty()) throw InputError(moved_text(moved, kept, result, command.folder));
  for_the_user([&] { viz::write_whole_file(page, viz::report_html(result)); });
  std::cout << "written: " << page.string() << '\n';
  return done;
}

}  // namespace drumlin::app
