#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "models/elastomer/bonded_layer.hpp"
#include "sim/fast/drum_law.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;
using sim::fast::DrumLaw;
using sim::fast::LineKernel;

namespace {

/// A rigid cylinder on a bonded layer, plane strain, no friction.
struct Row {
  double nu, width_ratio, load, approach, peak;  ///< a/t, P'R/(E* t^2), delta R/t^2, p0 R/(E* t)
};

/// Chebyshev collocation of the integral equation with 18 terms (14 terms differ by less than
/// 2e-8), the problem of Meijers (1968), Appl. Sci. Res. 18, 353.
const std::vector<Row> table = {
    {0.30, 0.05, .0019670, .0045866, .025045},   {0.30, 0.1, .0079100, .0149605, .050357},
    {0.30, 0.2, .0323046, .0469557, .102847},    {0.30, 0.5, .2289700, .2049802, .293044},
    {0.30, 1, 1.221797, .6539966, .804884},      {0.30, 2, 7.912153, 2.284567, 2.756023},
    {0.30, 3, 24.97615, 4.908765, 5.949576},     {0.30, 5, 109.8737, 13.15349, 16.03152},
    {0.45, 0.05, .0019680, .0042390, .025057},   {0.45, 0.1, .0079254, .0135828, .050455},
    {0.45, 0.2, .0325516, .0415677, .103641},    {0.45, 0.5, .2388617, .1732964, .306262},
    {0.45, 1, 1.381831, .5329834, .919890},      {0.45, 2, 10.350471, 1.823759, 3.691147},
    {0.45, 3, 36.58546, 3.949115, 8.986815},     {0.45, 5, 187.5885, 10.97078, 28.46949},
    {0.47, 0.05, .0019682, .0041625, .025059},   {0.47, 0.1, .0079286, .0132787, .050476},
    {0.47, 0.2, .0326037, .0403675, .103808},    {0.47, 0.5, .2410337, .1658515, .309165},
    {0.47, 1, 1.420861, .5007643, .947946},      {0.47, 2, 11.095484, 1.670308, 3.978119},
    {0.47, 3, 40.88163, 3.570470, 10.123453},    {0.47, 5, 225.3969, 9.894778, 34.66331},
    {0.4999, 0.05, .0019685, .0040271, .025064}, {0.4999, 0.1, .0079343, .0127402, .050512},
    {0.4999, 0.2, .0326954, .0382346, .104103},  {0.4999, 0.5, .2449283, .1523148, .314373},
    {0.4999, 1, 1.494563, .4385867, 1.000959},   {0.4999, 2, 12.709752, 1.330637, 4.601498},
    {0.4999, 3, 51.76709, 2.600781, 13.020796},  {0.4999, 5, 358.1874, 6.201191, 56.74577},
};

/// Law over a layer 10 mm thick, radius large so that the parabola is the geometry.
struct Nip {
  static constexpr double thickness = 10.0;
  static constexpr double radius = 1000.0;
  models::BondedLayer layer;
  DrumLaw law;

  explicit Nip(double nu)
      : layer{thickness, 1.0, nu},
        law(LineKernel([this](double q) { return models::surface_compliance(layer, q); }),
            {.radius = radius}, 0.0, 1.5) {}
};

}  // namespace

// The customer's 2 % on load, peak and width holds over the whole table, a/t 0.05 to 5. Seen: 0.5 %
// of the load up to nu 0.47; at nu 0.4999 0.5 % up to a/t 1 and 1.0 % at a/t 5, where the load goes
// with the 2.5th power of the interference and feels the cell at the rim most. Below the first
// cells (a/t 0.05 here) the peak is Hertz's and has the half width's error.
TEST(DrumLaw, AgreesWithTheBondedLayerTable) {
  for (const double nu : {0.30, 0.45, 0.47, 0.4999}) {
    const Nip nip(nu);
    const double modulus = models::plane_strain_modulus(nip.layer);
    const double t = Nip::thickness;
    for (const Row& row : table) {
      if (row.nu != nu) continue;
      const double approach = row.approach * t * t / Nip::radius;
      const double load = nip.law.line_load(approach) * Nip::radius / (modulus * t * t);
      const double peak = nip.law.peak_pressure(approach) * Nip::radius / (modulus * t);
      const std::string where =
          "nu " + std::to_string(nu) + " a/t " + std::to_string(row.width_ratio);
      const double tolerance = nu < 0.48 ? 6e-3 : 1.2e-2;
      EXPECT_NEAR(load / row.load, 1.0, tolerance) << where;
      EXPECT_NEAR(peak / row.peak, 1.0, 1.6e-2) << where;
      EXPECT_NEAR(nip.law.half_width(approach) / t / row.width_ratio, 1.0, 0.02) << where;
    }
  }
}

// Rows with dimensions, R 100, t 15, nu 0.47, Gent moduli, no belt: load, half width, peak and
// slope of the same collocation.
TEST(DrumLaw, AgreesWithTheDrumTable) {
  struct Drum {
    double shore, load, peak, slope;
  };
  for (const Drum& d : {Drum{20, 0.8014, 0.0571, 2.520}, Drum{40, 1.8501, 0.1318, 5.818},
                        Drum{60, 3.9475, 0.2813, 12.41}, Drum{80, 10.240, 0.7296, 32.20}}) {
    const auto station = tests::bare_drum(d.shore);
    const DrumLaw law(
        LineKernel([&](double q) { return models::surface_compliance(station.cover, q); }),
        {.radius = station.radius}, 0.0, 3.0);
    EXPECT_NEAR(law.line_load(0.5) / d.load, 1.0, 4e-3) << d.shore;
    EXPECT_NEAR(law.half_width(0.5) / 9.054, 1.0, 0.02) << d.shore;
    EXPECT_NEAR(law.peak_pressure(0.5) / d.peak, 1.0, 4e-3) << d.shore;
    EXPECT_NEAR(law.line_load_slope(0.5) / d.slope, 1.0, 1e-2) << d.shore;
  }
}
