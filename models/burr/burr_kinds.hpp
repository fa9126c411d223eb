#pragma once

#include <variant>

#include "models/burr/wall.hpp"

namespace drumlin::models {

/// An edge as cut clean: nothing stands on the face.
struct NoBurr {
  static constexpr std::string_view name = "none";
};

/// Registration: a new burr kind adds its header above and its name here.
using AnyBurr = std::variant<NoBurr, WallBurr>;

}  // namespace drumlin::models
