#include <cmath>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "models/elastomer/bonded_layer.hpp"
#include "tests/reference/kernel_nip.hpp"
#include "tests/reference/with_calculix.hpp"

using namespace drumlin;
using namespace drumlin::reference;

namespace {

struct StepOnFlatLayer : WithCalculix {};

/// A hole in the sheet from s = 0 to 6 mm, with a burr standing on its left rim or not; R 100 mm,
/// E 1 MPa.
struct Sheet {
  double thickness, poisson_ratio, interference;
  double burr_height;  ///< [mm], 0.15 mm wide
  double axis;         ///< where the drum's axis is [mm]
};

constexpr double burr_width = 0.15;
constexpr double hole = 6.0;
constexpr double reach = 22.5;  // either side, more than any contact here
constexpr double far_end = 160.0;

double overlap(const Sheet& sheet, double s) {
  const double from_axis = s - sheet.axis;
  const double burr = s >= -burr_width - 1e-9 && s <= 1e-9 ? sheet.burr_height : 0.0;
  return sheet.interference - from_axis * from_axis / 200.0 + burr;
}

bool metal(double s) {
  return s <= 1e-9 || s >= hole - 1e-9;
}

void append(std::vector<double>& boundaries, const std::vector<double>& more) {
  for (const double s : more)
    if (boundaries.empty() || s > boundaries.back() + 1e-9) boundaries.push_back(s);
}

/// Fine at both rims, as fine as a plain nip asks for over the contact, coarse beyond.
CoverMesh mesh_of(const Sheet& sheet, int elements_on_burr) {
  const double fine = burr_width / elements_on_burr;
  const Grading rim{.fine = fine, .zone = 2.0 * burr_width, .growth = 1.25, .coarse = 0.4};
  const Grading outside{.fine = 0.4, .zone = 0.0, .growth = 1.3, .coarse = 8.0};
  std::vector<double> arcs;
  append(arcs, graded(-far_end, -reach, -reach, outside));
  append(arcs, graded(-reach, 0.0, 0.5 * hole, rim));
  append(arcs, graded(0.5 * hole, hole, reach, rim));
  append(arcs, graded(reach, reach, far_end, outside));
  return cover_mesh(
      arcs,
      graded(0.0, 0.0, sheet.thickness, {.fine = fine, .zone = fine, .growth = 1.3, .coarse = 1.5}),
      0.0);
}

struct Loads {
  double whole = 0, burr = 0;  ///< [N/mm]; on the burr, or within its width of the left rim
};

Loads by_calculix(const Sheet& sheet, int elements_on_burr) {
  const CoverMesh mesh = mesh_of(sheet, elements_on_burr);
  std::vector<std::size_t> candidates;
  std::vector<double> overlaps;
  for (const std::size_t place : surface_near(mesh, 0.0, reach)) {
    if (!metal(mesh.arc[place])) continue;
    candidates.push_back(place);
    overlaps.push_back(overlap(sheet, mesh.arc[place]));
  }
  const Stiffness k = stiffness(mesh, {.modulus = 1.0, .poisson_ratio = sheet.poisson_ratio});
  const NodalContact contact = touch(mesh, flexibility(k, mesh, candidates), candidates, overlaps);
  Loads loads{.whole = contact.load};
  for (const std::size_t place : candidates) {
    const double s = mesh.arc[place];
    if (s < -burr_width - 1e-9 || s > 1e-9) continue;
    // The node at the foot of the burr is the burr's where it has a height, else half of it.
    const bool foot = s < -burr_width + 1e-9 && sheet.burr_height == 0.0;
    loads.burr += (foot ? 0.5 : 1.0) * contact.force[place];
  }
  return loads;
}

Loads by_kernel(const Sheet& sheet, int cells_on_burr) {
  const models::BondedLayer layer{
      .thickness = sheet.thickness, .modulus = 1.0, .poisson_ratio = sheet.poisson_ratio};
  const double spacing = burr_width / cells_on_burr;
  const KernelNip nip =
      press_kernel([&](double q) { return models::surface_compliance(layer, q); },
                   {.from = -reach,
                    .to = reach,
                    .cells = static_cast<std::size_t>(std::lround(2.0 * reach / spacing)),
                    .window = 2.0 * far_end,
                    .overlap = [&](double s) { return overlap(sheet, s); },
                    .metal = metal});
  return {.whole = nip.line_load(), .burr = nip.load_between(-burr_width, 0.0)};
}

}  // namespace

// At the corners of burr and rims the pressure is singular, so both sides err with the first power
// of element and cell, from opposite sides (the nodes at a corner carry, the cells end there): 0.4
// to 1.5 % of the burr's force at 4 elements and 12 cells. Two levels each take that power out;
// what is left is of the second order: 0.03 % of the whole load, 0.02 % of the burr's seen.
TEST_F(StepOnFlatLayer, CarriesWhatCalculixFinds) {
  for (const Sheet& sheet : {Sheet{15, 0.47, 0.5, 0.15, 0.0}, Sheet{10, 0.45, 1.0, 0.15, 3.0},
                             Sheet{15, 0.47, 0.5, 0.0, 3.0}}) {
    SCOPED_TRACE(fmt::format("t {} nu {} delta {} burr {} axis {}", sheet.thickness,
                             sheet.poisson_ratio, sheet.interference, sheet.burr_height,
                             sheet.axis));
    const auto limit = [](const Loads& coarse, const Loads& fine) {
      return Loads{.whole = 2.0 * fine.whole - coarse.whole, .burr = 2.0 * fine.burr - coarse.burr};
    };
    const Loads outside = limit(by_calculix(sheet, 4), by_calculix(sheet, 8));
    const Loads own = limit(by_kernel(sheet, 6), by_kernel(sheet, 12));
    EXPECT_NEAR(own.whole / outside.whole, 1.0, 5e-4);
    EXPECT_NEAR(own.burr / outside.burr, 1.0, 2e-3);
  }
}
