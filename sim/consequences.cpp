#include "sim/consequences.hpp"

#include "sim/finish.hpp"

namespace drumlin::sim {

void add_consequences(const Setup& setup, StatedAnswer& answer) {
  add_finish(setup, answer.stations);
}

}  // namespace drumlin::sim
