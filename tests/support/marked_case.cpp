#include "tests/support/marked_case.hpp"

#include <algorithm>
#include <stdexcept>

namespace drumlin::support {
namespace {

constexpr std::string_view text = R"(title = "Marked panel"
seed = 7
#@
[part]
material = "DX51D"
thickness = "1.5 mm"
thickness_tolerance = "0.07 mm"
width = "300 mm"
length = "400 mm"
angle = "0 deg"
#@ part
[part.coating]
material = "zinc"
thickness = "20 um"
#@ part.coating
[[part.feature]]
name = "hole-6"
kind = "hole"
size = "6 mm"
side = "trailing"
#@ part.feature
[part.feature.burr]
kind = "wall"
height = "0.15 mm"
root = "0.14 mm"
taper = "5 deg"
flow_stress = "350 MPa"
#@ part.feature.burr
[[station]]
kind = "belt"
speed = "8 m/s"
direction = "with-feed"
#@ station
[station.drum]
radius = "100 mm"
cover = "15 mm"
hardness = "20 Shore A"
poisson = 0.47
density = "1100 kg/m3"
#@ station.drum
[station.drum.relaxation]
relaxed = "0.5 MPa"
#@ station.drum.relaxation
[[station.drum.relaxation.terms]]
time = "0.3 ms"
modulus = "0.2 MPa"
#@ station.drum.relaxation.terms
[station.belt]
grit = "P120"
abrasive = "ceramic"
backing = "X"
tension = "2 N/mm"
removal_coefficient = "4e-5 1/MPa"
threshold_pressure = "0.01 MPa"
bending_stiffness = "0.5 N mm"
grain_compliance = "1e-3 mm/MPa"
mass = "0.9 kg/m2"
#@ station.belt
[station.setting]
interference = "0.5 mm"
#@ station.setting
[conveyor]
speed = "1.6 m/min"
passes = 1
#@ conveyor
[conveyor.grip]
#@ conveyor.grip
[cost]
#@ cost
[environment]
#@ environment
[accept]
burr_height = "<= 0.03 mm"
#@ accept
[[accept.feature]]
kind = "hole"
coating_left = ">= 9 um"
beyond = "2 mm"
#@ accept.feature
[numerics]
resolution = "5 um"
steps = 400
bands = true
#@ numerics
)";

}  // namespace

std::string whole_case() {
  return std::string(text);
}

std::string with(std::string_view line, std::string_view instead) {
  // A line break before the first line makes every line look alike.
  std::string result = "\n" + std::string(text);
  const std::string whole = "\n" + std::string(line) + "\n";
  const std::size_t at = result.find(whole);
  if (at == std::string::npos) throw std::logic_error("no such line: " + std::string(line));
  if (result.find(whole, at + 1) != std::string::npos)
    throw std::logic_error("line is there twice: " + std::string(line));
  return result.replace(at + 1, line.size(), instead).substr(1);
}

std::string without_relaxation(std::string text) {
  const std::size_t at = text.find("[station.drum.relaxation]");
  const std::size_t end = text.find("[station.belt]");
  if (at == std::string::npos || end < at) throw std::logic_error("no relaxation in the text");
  return text.erase(at, end - at);
}

std::string with_added(std::string_view section, std::string_view line) {
  const std::string marker = section.empty() ? std::string("#@") : "#@ " + std::string(section);
  return with(marker, line);
}

Marked take_mark(std::string marked) {
  const std::size_t at = marked.find('^');
  if (at == std::string::npos) throw std::logic_error("no mark in the text");
  const auto end = marked.begin() + static_cast<std::ptrdiff_t>(at);
  const auto line = std::count(marked.begin(), end, '\n');
  const std::size_t before = marked.rfind('\n', at);
  const std::size_t start = before == std::string::npos ? 0 : before + 1;
  marked.erase(at, 1);
  return {std::move(marked), static_cast<int>(line) + 1, static_cast<int>(at - start) + 1};
}

}  // namespace drumlin::support
