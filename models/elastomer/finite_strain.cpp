#include "models/elastomer/finite_strain.hpp"

#include <algorithm>
#include <cmath>

namespace drumlin::models {

double finite_strain_factor(double depth, double poisson_ratio, double slenderness) noexcept {
  const double d = std::clamp(depth, 0.0, 0.25);
  const double b = 1.0 - 2.0 * std::clamp(poisson_ratio, 0.45, 0.5);
  const double width2 = d * std::clamp(slenderness, 4.0, 14.0);
  const double x = std::sqrt(width2);
  const double y = b * width2 / (b * width2 + 0.2);
  // Least squares of the relative error over the table of the theory page.
  return 1.0 + d * ((3.328 - 1.912 * d) * x - (0.878 - 1.299 * d) * width2 -
                    y * (5.232 - (7.129 - 2.107 * x) * std::sqrt(d)));
}

}  // namespace drumlin::models
