#include <iostream>

#include "sim/app/commands.hpp"
#include "sim/app/exit_codes.hpp"

namespace drumlin::app {

int carry_out(const AnswerOnly& answer) {
  (answer.exit_code == done ? std::cout : std::cerr) << answer.text;
  return answer.exit_code;
}

}  // namespace drumlin::app
