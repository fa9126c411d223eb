#include <filesystem>
#include <iostream>

#include "sim/app/commands.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/study_analysis.hpp"
#include "sim/app/sweep_parts.hpp"
#include "sim/app/terminal.hpp"
#include "sim/app/user_fault.hpp"
#include "viz/atomic_folder.hpp"
#include "viz/study/study_store.hpp"

namespace drumlin::app {

int carry_out(const MergeCommand& command) {
  return for_the_user([&] {
    const sim::StudyHeader header = viz::header_in(command.folders.front());
    std::string says;
    ProgressLine line(stderr, !command.quiet && stderr_is_terminal());
    {
      viz::AtomicFolder folder(command.out, false);
      viz::pack_study(command.folders, header, folder.path() / "study.h5",
                      [&](double share) { line.show(share, "packing"); });
      const viz::StudyFile packed(folder.path() / "study.h5");
      if (command.csv) viz::write_study_csv(packed, folder.path() / "study.csv");
      says =
          write_analysis(packed, "STUDY.toml", folder.path(), command.out.string(), stdout_style());
      folder.commit();
    }
    line.wipe();
    if (!command.quiet) std::cout << says;
    return static_cast<int>(done);
  });
}

}  // namespace drumlin::app
