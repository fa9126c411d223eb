#pragma once

#include <functional>

#include "cases/case.hpp"
#include "cases/key_path.hpp"

namespace drumlin::cases {

/// Puts a number [inner unit] into a case where its key keeps it.
using DirectSetter = std::function<void(Case&, double)>;

/// How a number of a case is set through its key's member, with the band that a given number has
/// (none). Nothing is checked, and nothing that the reader would derive from the number is derived:
/// whether that makes a difference is for the caller to see.
///
/// @param scenario  with its stations and features as they will be.
/// @param path      every entry numbered.
/// @return          empty for a key that has no member of its own here.
[[nodiscard]] DirectSetter direct_setter(const Case& scenario, const KeyPath& path);

}  // namespace drumlin::cases
