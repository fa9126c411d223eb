#include <iostream>
#include <variant>

#include "sim/app/commands.hpp"
#include "sim/app/exit_codes.hpp"

// The function object is small enough to be held in place: making it cannot throw.
int main(int argc, char** argv) {  // NOLINT(bugprone-exception-escape)
  namespace app = drumlin::app;
  const auto command = [&] {
    return std::visit([](const auto& chosen) { return app::carry_out(chosen); },
                      app::parse_command_line(argc, argv));
  };
  return app::guarded(command, std::cerr);
}
