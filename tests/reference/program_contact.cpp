#include "tests/reference/program_contact.hpp"

#include <cmath>
#include <fstream>
#include <stdexcept>

#include <fmt/format.h>

#include "tests/support/temporary_folder.hpp"

namespace drumlin::reference {
namespace {

/// Rigid block under the cover, 8-node elements along the contact; its top is the plate or the
/// parabola.
std::string block_text(const HalfCover& cover, std::size_t nodes, std::size_t elements) {
  const double width = 1.6 * std::sqrt(2.0 * cover.radius * cover.interference);
  const int columns = cover.curved ? 1 : 200;
  const double depth = cover.thickness;
  const auto top = [&](double x) { return cover.curved ? 0.0 : -x * x / (2.0 * cover.radius); };
  std::string node_text = "*NODE, NSET=BLOCK\n";
  std::string element_text = "*ELEMENT, TYPE=CPE8, ELSET=BLOCK\n";
  for (int i = 0; i <= 2 * columns; ++i) {
    // Begins beyond the mirror: the middle node must find the block below it.
    const double x = -0.1 * width + 1.1 * width * i / (2.0 * columns);
    const std::size_t first = nodes + 3 * static_cast<std::size_t>(i) + 1;
    node_text += fmt::format("{}, {:.13g}, {:.13g}, 0\n{}, {:.13g}, {:.13g}, 0\n", first, x,
                             top(x) - depth, first + 2, x, top(x));
    if (i % 2 == 0)
      node_text += fmt::format("{}, {:.13g}, {:.13g}, 0\n", first + 1, x, top(x) - 0.5 * depth);
    if (i % 2 == 1) continue;
    if (i == 2 * columns) break;
    element_text += fmt::format("{}, {}, {}, {}, {}, {}, {}, {}, {}\n",
                                elements + static_cast<std::size_t>(i / 2) + 1, first, first + 6,
                                first + 8, first + 2, first + 3, first + 7, first + 5, first + 1);
  }
  return node_text + element_text + "*SOLID SECTION, ELSET=BLOCK, MATERIAL=COVER\n" +
         "*SURFACE, NAME=MASTER, TYPE=ELEMENT\nBLOCK, S3\n";
}

std::string slave_text(const HalfCover& cover, const CoverMesh& mesh) {
  const double reach = 1.5 * std::sqrt(2.0 * cover.radius * cover.interference);
  std::string text = "*SURFACE, NAME=SLAVE, TYPE=ELEMENT\n";
  for (std::size_t e = 0; e + 1 < mesh.surface.size() / 2 + 1; ++e)
    if (mesh.arc[2 * e] < reach) text += fmt::format("{}, S1\n", e + 1);
  return text;
}

}  // namespace

double program_contact_load(const HalfCover& cover, const CoverMesh& mesh, const Material& material,
                            double penalty) {
  const support::TemporaryFolder folder;
  std::string text = model_text(mesh, material);
  text += block_text(cover, mesh.nodes.size(), mesh.elements.size()) + slave_text(cover, mesh);
  text += fmt::format(
      "*SURFACE INTERACTION, NAME=PRESSED\n*SURFACE BEHAVIOR, PRESSURE-OVERCLOSURE=LINEAR\n"
      "{:.6g}, 0., 1.\n*CONTACT PAIR, INTERACTION=PRESSED, TYPE=SURFACE TO SURFACE\n"
      "SLAVE, MASTER\n",
      penalty * material.modulus / cover.thickness);
  text += material.finite_strain ? "*STEP, NLGEOM, INC=1000\n" : "*STEP, INC=1000\n";
  // In one go: it shortens its steps itself where it has to.
  text += "*STATIC\n1., 1.\n*BOUNDARY\nBLOCK, 1, 1, 0.\n";
  text += fmt::format("BLOCK, 2, 2, {:.13g}\n", cover.interference);
  text += "*NODE PRINT, NSET=HUB\nRF\n*END STEP\n";
  support::write_bytes(folder.path() / "job.inp", text);
  run_calculix(folder.path());
  double load = 0.0;
  for (const NodeRow& row : last_block(folder.path() / "job.dat", "forces"))
    load -= row.y;
  if (load <= 0.0) throw std::runtime_error("program_contact_load: nothing touches");
  return 2.0 * load;
}

}  // namespace drumlin::reference
