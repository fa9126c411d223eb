#pragma once

#include <variant>

#include "models/burr/bead.hpp"
#include "models/burr/rolled.hpp"
#include "models/burr/stub.hpp"
#include "models/burr/wall.hpp"

namespace drumlin::models {

/// An edge as cut clean: nothing stands on the face.
struct NoBurr {
  static constexpr std::string_view name = "none";
};

/// Registration: a new burr kind adds its header above and its name here.
using AnyBurr = std::variant<NoBurr, WallBurr, RolledBurr, Bead, Stub>;

}  // namespace drumlin::models
