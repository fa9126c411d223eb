#include "sim/line/drum.hpp"

#include <cmath>
#include <numbers>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "models/belt/nip_compliance.hpp"
#include "sim/line/plain_nip.hpp"
#include "tests/reference/kernel_nip.hpp"
#include "tests/reference/with_calculix.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;
using namespace drumlin::reference;

namespace {

struct RoundDrum : WithCalculix {};

/// Annulus on a rigid hub pressed on a plate, R 100 mm, E 1 MPa.
struct Setting {
  double thickness, poisson_ratio, interference;
};

const std::vector<Setting> settings = {{10, 0.45, 0.25}, {10, 0.45, 0.5},  {10, 0.45, 1.0},
                                       {10, 0.45, 2.0},  {20, 0.45, 0.25}, {20, 0.45, 0.5},
                                       {20, 0.45, 1.0},  {20, 0.45, 2.0},  {10, 0.49, 1.0}};

HalfCover drum(const Setting& p) {
  return {
      .radius = 100.0, .thickness = p.thickness, .interference = p.interference, .elements = 40};
}

models::Cover cover_of(const Setting& p) {
  return {.layer = {.thickness = p.thickness, .modulus = 1.0, .poisson_ratio = p.poisson_ratio},
          .curvature = 0.01};
}

Row row_of(const Setting& p, std::size_t cells) {
  const double reach = 1.25 * std::sqrt(200.0 * p.interference);
  return {
      .from = -reach,
      .to = reach,
      .cells = cells,
      .window = 200.0 * std::numbers::pi,
      .overlap = [p](double s) { return p.interference - 100.0 * (1.0 - std::cos(s / 100.0)); }};
}

std::string name_of(const Setting& p) {
  return fmt::format("t {} nu {} delta {}", p.thickness, p.poisson_ratio, p.interference);
}

}  // namespace

// Load: 0.03 %, three times what 40 against 60 elements differ by; 0.006 % seen. Peak: 0.05 %, one
// node's neighbourhood and cells a two-hundredth of the half-width wide; 0.01 % seen. Profile: as
// on the flat layer.
TEST_F(RoundDrum, IsPressedByTheNipsKernelAsCalculixDoes) {
  for (const Setting& p : settings) {
    SCOPED_TRACE(name_of(p));
    const CoverMesh mesh = mesh_of(drum(p));
    const NodalContact contact =
        press_small(drum(p), mesh, {.modulus = 1.0, .poisson_ratio = p.poisson_ratio});
    const Nip outside = nip_of(mesh, contact);
    const models::NipCompliance kernel({.cover = cover_of(p)});
    const KernelNip own = press_drum_kernel(kernel, 0.01, row_of(p, 501));
    EXPECT_NEAR(own.line_load() / outside.line_load, 1.0, 3e-4);
    EXPECT_NEAR(own.peak() / outside.peak, 1.0, 5e-4);
    EXPECT_LT(profile_distance(mesh, contact, own), 5e-4);
  }
}

// The nip that a case is solved with, on its own grid: 0.1 % of the line load, 0.4 % of the peak (a
// grid of some hundred cells to the half-width), the half-width to a cell and a bit.
TEST_F(RoundDrum, IsPressedByItsStaticNip) {
  for (const Setting& p : settings) {
    SCOPED_TRACE(name_of(p));
    const CoverMesh mesh = mesh_of(drum(p));
    const Nip outside = nip_of(
        mesh, press_small(drum(p), mesh, {.modulus = 1.0, .poisson_ratio = p.poisson_ratio}));
    sim::BeltSetup station = tests::bare_drum(40);
    station.cover = cover_of(p).layer;
    station.options.curved = true;
    const sim::line::StaticNip own = static_nip(sim::line::Drum(station, p.interference),
                                                p.interference, 200.0 * std::numbers::pi);
    EXPECT_NEAR(own.line_load / outside.line_load, 1.0, 1e-3);
    EXPECT_NEAR(own.peak_pressure / outside.peak, 1.0, 4e-3);
    EXPECT_NEAR(own.half_width / outside.half_width, 1.0, 2e-2);
  }
}

// Why the flat layer is not the drum: with the same thickness it carries 5 to 16 % more.
TEST_F(RoundDrum, CarriesLessThanTheFlatLayer) {
  for (const Setting& p : {Setting{10, 0.45, 0.25}, Setting{10, 0.45, 2.0}}) {
    SCOPED_TRACE(name_of(p));
    const auto load = [&](bool curved) {
      HalfCover cover = drum(p);
      cover.curved = curved;
      const CoverMesh mesh = mesh_of(cover);
      return press_small(cover, mesh, {.modulus = 1.0, .poisson_ratio = p.poisson_ratio}).load;
    };
    const double less = 1.0 - load(true) / load(false);
    EXPECT_GT(less, 0.045);
    EXPECT_LT(less, 0.165);
  }
}
