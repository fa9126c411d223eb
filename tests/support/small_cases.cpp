#include "tests/support/small_cases.hpp"

namespace drumlin::support {

namespace {

const std::string part = R"(title = "Plate of the tests"
[part]
material = "DX51D"
thickness = "1.5 mm"
[part.coating]
material = "zinc"
mass_class = "Z200"
)";

const std::string hole = R"([[part.feature]]
name = "hole-6"
kind = "hole"
size = "6 mm"
side = "trailing"
burr = { kind = "wall", height = "0.12 mm", root = "0.12 mm" }
)";

const std::string line = R"([[station]]
kind = "belt"
drum = { radius = "100 mm", cover = "15 mm", hardness = "20 Shore A", poisson = 0.47 }
belt = { grit = "P120", abrasive = "alumina" }
setting = { interference = "0.5 mm" }
speed = "8 m/s"
)";

std::string conveyor(int passes) {
  return "[conveyor]\nspeed = \"4 m/min\"\npasses = " + std::to_string(passes) + "\n";
}

}  // namespace

std::string plate_case(const std::string& limit) {
  return part + line + conveyor(1) + "[accept]\n" + limit + "\n";
}

std::string hole_case() {
  return part + hole + line + conveyor(1) +
         "[accept]\nburr_height = \"<= 0.03 mm\"\n"
         "[numerics]\nresolution = \"20 um\"\nsteps = 60\n";
}

std::string long_case() {
  return part + hole + line + conveyor(50) + "[numerics]\nresolution = \"2 um\"\nsteps = 4000\n";
}

std::string case_with_three_mistakes() {
  return part + R"([[station]]
kind = "belt"
drum = { radius = "100 mm", cover = "15 mm", hardness = 40, poisson = 0.47 }
belt = { grit = "240", abrasive = "alumina" }
setting = { interference = "0.5 mm" }
speed = "8 m/s"
[[station]]
kind = "belt"
drum = { radius = "100 mm", cover = "15 mm", hardnes = "40 Shore A", poisson = 0.47 }
belt = { grit = "P240", abrasive = "alumina" }
setting = { interference = "0.5 mm" }
speed = "8 m/s"
)" + conveyor(1);
}

}  // namespace drumlin::support
