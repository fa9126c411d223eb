#pragma once

#include <string>

#include "cases/library.hpp"
#include "sim/app/text.hpp"

namespace drumlin::app {

/// Everything in the library by kind.
/// @throws InputError where the library cannot be read.
[[nodiscard]] std::string library_text(const cases::Library& library, const Style& style);

/// One entry with every value, its band and its source.
/// @throws InputError with the nearest names where the library has no such name.
[[nodiscard]] std::string entry_text(const cases::Library& library, const std::string& name,
                                     const Style& style);

}  // namespace drumlin::app
