#pragma once

#include <stdexcept>

#include "sim/app/commands.hpp"

namespace drumlin::app {

/// What goes wrong with a file or folder that the user named is the user's to mend.
/// @throws InputError in place of any std::runtime_error of the call.
template <class Call>
auto for_the_user(const Call& call) {
  try {
    return call();
  } catch (const std::runtime_error& error) {
    throw InputError(error.what());
  }
}

}  // namespace drumlin::app
