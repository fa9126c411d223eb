#include "models/belt/tensioned_plate.hpp"

namespace drumlin::models {

double combined_compliance(const TensionedPlate& belt, double q, double cover_compliance) noexcept {
  const double q2 = q * q;
  const double plate = (belt.bending_stiffness * q2 + belt.tension) * q2;
  return cover_compliance / (1.0 + plate * cover_compliance) + belt.grain_compliance;
}

}  // namespace drumlin::models
