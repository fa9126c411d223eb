#include "tests/reference/program_contact.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/reference/with_calculix.hpp"

using namespace drumlin;
using namespace drumlin::reference;

namespace {

struct ProgramContact : WithCalculix {
  /// Load by CalculiX's own contact over that of the active set, as the penalty goes to infinity:
  /// the penalty's give falls like 1 / penalty.
  static double ratio(const HalfCover& cover, const Material& material) {
    const CoverMesh mesh = mesh_of(cover);
    const double own = 2.0 * press_small(cover, mesh, material).load;
    const double soft = program_contact_load(cover, mesh, material, 300.0);
    const double stiff = program_contact_load(cover, mesh, material, 1000.0);
    return (stiff + (stiff - soft) * 300.0 / 700.0) / own;
  }
};

}  // namespace

// On a plate it makes no difference where a node slides. 0.05 %: what is left of the penalty after
// its first power is taken out.
TEST_F(ProgramContact, AgreesWithTheActiveSetOnAPlate) {
  EXPECT_NEAR(ratio({.thickness = 20.0, .interference = 1.0, .elements = 20},
                    {.modulus = 1.0, .poisson_ratio = 0.45}),
              1.0, 5e-4);
}

// On the parabola of the flat layer it does: the surface is pushed outwards, to where the parabola
// is farther away, and the program's contact follows it. drumlin's kernel does not, being linear.
TEST_F(ProgramContact, FollowsTheSlidingSurfaceOnAParabola) {
  const double less =
      1.0 - ratio({.thickness = 15.0, .interference = 0.5, .curved = false, .elements = 20},
                  {.modulus = 1.0, .poisson_ratio = 0.47});
  EXPECT_GT(less, 0.02);
  EXPECT_LT(less, 0.03);
}
