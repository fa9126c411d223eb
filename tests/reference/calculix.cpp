#include "tests/reference/calculix.hpp"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>

#include <fmt/format.h>

#include "tests/support/temporary_folder.hpp"

namespace drumlin::reference {
namespace {

std::string node_set(const std::string& name, const std::vector<std::size_t>& nodes) {
  std::string text = fmt::format("*NSET, NSET={}\n", name);
  for (const std::size_t node : nodes)
    text += fmt::format("{},\n", node + 1);
  return text;
}

std::string material_text(const Material& material) {
  std::string text = "*MATERIAL, NAME=COVER\n";
  const double e = material.modulus;
  const double nu = material.poisson_ratio;
  if (material.finite_strain) {
    const double shear = e / (2.0 * (1.0 + nu));
    const double bulk = e / (3.0 * (1.0 - 2.0 * nu));
    text += fmt::format("*HYPERELASTIC, NEO HOOKE\n{:.16g}, {:.16g}\n", 0.5 * shear, 2.0 / bulk);
  } else {
    text += fmt::format("*ELASTIC\n{:.16g}, {:.16g}\n", e, nu);
  }
  // Asked for by the step that stores the matrices; does not enter the stiffness.
  return text + "*DENSITY\n1e-9\n";
}

}  // namespace

bool calculix_is_here() {
  // NOLINTNEXTLINE(concurrency-mt-unsafe): tests run in one thread
  return std::system("command -v ccx >/dev/null 2>&1") == 0;
}

std::string model_text(const CoverMesh& mesh, const Material& material) {
  std::string text = "*NODE, NSET=ALL\n";
  for (std::size_t i = 0; i < mesh.nodes.size(); ++i) {
    text += fmt::format("{}, {:.13g}, {:.13g}, 0\n", i + 1, mesh.nodes[i].x, mesh.nodes[i].y);
  }
  text += fmt::format("*ELEMENT, TYPE={}, ELSET=COVER\n",
                      material.integration == Integration::reduced ? "CPE8R" : "CPE8");
  for (std::size_t e = 0; e < mesh.elements.size(); ++e) {
    text += fmt::format("{}", e + 1);
    for (const std::size_t node : mesh.elements[e])
      text += fmt::format(", {}", node + 1);
    text += '\n';
  }
  text += material_text(material) + "*SOLID SECTION, ELSET=COVER, MATERIAL=COVER\n";
  text += node_set("HUB", mesh.hub) + node_set("MIRRORS", mesh.mirrors) +
          node_set("SURFACE", mesh.surface);
  return text + "*BOUNDARY\nHUB, 1, 2\nMIRRORS, 1, 1\n";
}

void run_calculix(const std::filesystem::path& folder) {
  const std::string command =
      fmt::format("cd '{}' && OMP_NUM_THREADS=1 ccx job >job.log 2>&1", folder.string());
  // NOLINTNEXTLINE(concurrency-mt-unsafe): tests run in one thread
  const int status = std::system(command.c_str());
  std::ifstream in(folder / "job.log");
  const std::string log((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
  // It ends with 0 after some errors too.
  if (status == 0 && log.find("Job finished") != std::string::npos &&
      log.find("*ERROR") == std::string::npos) {
    return;
  }
  throw std::runtime_error("CalculiX failed:\n" +
                           log.substr(log.size() - std::min<std::size_t>(log.size(), 1500)));
}

Stiffness stiffness(const CoverMesh& mesh, const Material& material) {
  const support::TemporaryFolder folder;
  support::write_bytes(
      folder.path() / "job.inp",
      model_text(mesh, material) + "*STEP\n*FREQUENCY, SOLVER=MATRIXSTORAGE\n*END STEP\n");
  run_calculix(folder.path());
  Stiffness k;
  k.column_x.assign(mesh.nodes.size(), -1);
  k.column_y.assign(mesh.nodes.size(), -1);
  std::ifstream columns(folder.path() / "job.dof");
  int count = 0;
  for (std::string line; std::getline(columns, line); ++count) {
    const std::size_t dot = line.find('.');
    const std::size_t node = std::stoul(line) - 1;
    (line.at(dot + 1) == '1' ? k.column_x : k.column_y).at(node) = count;
  }
  std::vector<Eigen::Triplet<double>> entries;
  std::ifstream values(folder.path() / "job.sti");
  int i = 0;
  int j = 0;
  for (double value = 0; values >> i >> j >> value;) {
    entries.emplace_back(i - 1, j - 1, value);
    if (i != j) entries.emplace_back(j - 1, i - 1, value);
  }
  if (count == 0 || entries.empty()) throw std::runtime_error("CalculiX stored no matrix");
  k.matrix.resize(count, count);
  k.matrix.setFromTriplets(entries.begin(), entries.end());
  return k;
}

std::vector<NodeRow> last_block(const std::filesystem::path& file, const std::string& heading) {
  std::ifstream in(file);
  std::vector<NodeRow> rows;
  bool inside = false;
  for (std::string line; std::getline(in, line);) {
    if (line.find_first_not_of(' ') == std::string::npos) continue;
    std::istringstream words(line);
    std::size_t node = 0;
    double x = 0;
    double y = 0;
    if (words >> node >> x >> y) {
      if (inside) rows.push_back({node - 1, x, y});
      continue;
    }
    inside = line.find(heading) != std::string::npos;
    if (inside) rows.clear();
  }
  return rows;
}

SurfaceState press(const CoverMesh& mesh, const Material& material,
                   const std::vector<bool>& pressed, const std::vector<double>& rise,
                   int increments) {
  const support::TemporaryFolder folder;
  std::string text = model_text(mesh, material);
  text += material.finite_strain ? "*STEP, NLGEOM, INC=1000\n" : "*STEP\n";
  text += material.finite_strain ? fmt::format("*STATIC\n{:.6g}, 1.\n", 1.0 / increments)
                                 : std::string("*STATIC\n");
  text += "*BOUNDARY\n";
  for (std::size_t i = 0; i < mesh.surface.size(); ++i) {
    if (pressed[i]) text += fmt::format("{}, 2, 2, {:.13g}\n", mesh.surface[i] + 1, rise[i]);
  }
  text += "*NODE PRINT, NSET=SURFACE\nU, RF\n*END STEP\n";
  support::write_bytes(folder.path() / "job.inp", text);
  run_calculix(folder.path());
  std::vector<std::size_t> place(mesh.nodes.size(), 0);
  for (std::size_t i = 0; i < mesh.surface.size(); ++i)
    place[mesh.surface[i]] = i;
  SurfaceState result;
  result.force.assign(mesh.surface.size(), 0.0);
  result.rise = result.slide = result.force;
  for (const NodeRow& row : last_block(folder.path() / "job.dat", "displacements")) {
    result.slide[place[row.node]] = row.x;
    result.rise[place[row.node]] = row.y;
  }
  for (const NodeRow& row : last_block(folder.path() / "job.dat", "forces")) {
    if (pressed[place[row.node]]) result.force[place[row.node]] = row.y;
  }
  return result;
}

}  // namespace drumlin::reference
