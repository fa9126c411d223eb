#include "sim/consequences.hpp"

#include "sim/finish.hpp"
#include "sim/heat/part_heat.hpp"

namespace drumlin::sim {

void add_consequences(const Setup& setup, StatedAnswer& answer) {
  add_finish(setup, answer.stations);
  add_heat(setup, answer);
}

}  // namespace drumlin::sim
