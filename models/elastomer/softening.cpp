#include "models/elastomer/softening.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace drumlin::models {
namespace {

struct Point {
  double strain;               // [-]
  double low_rate, high_rate;  // G' at 10 and 100 Hz [MPa]
};
constexpr std::array<Point, 6> measured{{{0.0003, 5.14, 6.19},
                                         {0.0010, 5.03, 5.69},
                                         {0.0021, 4.88, 5.58},
                                         {0.0047, 4.60, 5.23},
                                         {0.0068, 4.42, 5.02},
                                         {0.0100, 4.21, 4.86}}};

/// At which the relaxation of the same rubber was measured.
constexpr double reference_strain = 0.0015;

Point at(double strain) noexcept {
  if (strain <= measured.front().strain) return measured.front();
  if (strain >= measured.back().strain) return measured.back();
  const auto* const above = std::find_if(measured.begin(), measured.end(),
                                         [&](const Point& p) { return p.strain > strain; });
  const Point& a = above[-1];
  const Point& b = *above;
  const double share = std::log(strain / a.strain) / std::log(b.strain / a.strain);
  return {strain, std::lerp(a.low_rate, b.low_rate, share),
          std::lerp(a.high_rate, b.high_rate, share)};
}

}  // namespace

double strain_softening(double amplitude) noexcept {
  const Point reference = at(reference_strain);
  const Point here = at(amplitude);
  return 0.5 * (here.low_rate / reference.low_rate + here.high_rate / reference.high_rate);
}

double temperature_softening(double rise, double rate) noexcept {
  return std::exp(-rate * rise);
}

}  // namespace drumlin::models
