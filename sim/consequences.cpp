#include "sim/consequences.hpp"

namespace drumlin::sim {

void add_consequences(const Setup& setup, StatedAnswer& answer) {
  static_cast<void>(setup);
  static_cast<void>(answer);
}

}  // namespace drumlin::sim
