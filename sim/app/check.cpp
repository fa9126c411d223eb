#include <iostream>

#include "cases/reader.hpp"
#include "sim/app/check_text.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/terminal.hpp"
#include "sim/cautions.hpp"
#include "sim/setup.hpp"

namespace drumlin::app {

int carry_out(const CheckCommand& command) {
  const sim::Setup setup = sim::set_up(cases::read(command.case_file));
  std::cout << check_text(setup, sim::cautions(setup.scenario), stdout_style());
  return done;
}

}  // namespace drumlin::app
