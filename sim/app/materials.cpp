#include <iostream>

#include "sim/app/commands.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/materials_text.hpp"
#include "sim/app/terminal.hpp"

namespace drumlin::app {

int carry_out(const MaterialsCommand& command) {
  const cases::Library library;
  const Style style = stdout_style();
  std::cout << (command.name ? entry_text(library, *command.name, style)
                             : library_text(library, style));
  return done;
}

}  // namespace drumlin::app
