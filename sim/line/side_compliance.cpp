#include "sim/line/side_compliance.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>
#include <vector>

#include "models/belt/nip_compliance.hpp"
#include "models/elastomer/equal_steps.hpp"

namespace drumlin::sim::line {
namespace {

/// The profile's spectrum is followed over this many lobes of a pressure as wide as it, eight
/// points to each: within 0.5 % at q_y = 0, where C varies most between points, and 4e-4 from
/// waves of some covers on.
constexpr int lobes = 10;
constexpr int points_per_lobe = 8;
/// Places that tell the profile: five to the shortest wave kept.
constexpr std::size_t profile_places = 100;

/// |g^|^2 at places q_x in the middle of even steps.
struct Spectrum {
  std::vector<double> wave;    ///< q_x [rad/mm]
  std::vector<double> weight;  ///< sums to 1
  double width = 0;            ///< of what is pressed [mm]
};

Spectrum spectrum(const FeedProfile& profile) {
  const auto p = profile.pressure;
  std::size_t first = 0;
  while (first + 1 < p.size() && p[first] <= 0.0)
    ++first;
  std::size_t last = p.size() - 1;
  while (last > first && p[last] <= 0.0)
    --last;
  const std::size_t block = std::max<std::size_t>(1, (last - first + 1) / profile_places);
  std::vector<double> coarse;
  for (std::size_t i = first; i <= last; i += block) {
    double sum = 0.0;
    for (std::size_t k = i; k < std::min(i + block, last + 1); ++k)
      sum += p[k];
    coarse.push_back(sum);
  }
  const double pitch = profile.spacing * static_cast<double>(block);
  Spectrum result;
  result.width = pitch * static_cast<double>(coarse.size());
  const double step = 2.0 * std::numbers::pi / result.width / points_per_lobe;
  double all = 0.0;
  for (int k = 0; k < lobes * points_per_lobe; ++k) {
    const double q = (k + 0.5) * step;
    const std::complex<double> turn = std::polar(1.0, q * pitch);
    std::complex<double> at = 1.0;
    std::complex<double> sum = 0.0;
    for (const double c : coarse) {
      sum += c * at;
      at *= turn;
    }
    result.wave.push_back(q);
    result.weight.push_back(std::norm(sum));
    all += result.weight.back();
  }
  for (double& w : result.weight)
    w /= all;
  return result;
}

models::BeltOnCover flattened(const BeltSetup& station, double interference) {
  models::BeltOnCover nip = nip_of(station, interference);
  if (nip.cover.curvature > 0.0) {
    const double radius = station.radius;
    nip.cover.layer.thickness = radius * std::log(radius / (radius - nip.cover.layer.thickness));
    nip.cover.curvature = 0.0;
  }
  return nip;
}

}  // namespace

/// It passes a component at v q_x / q. Tables are made for q_x / q falling by sqrt 2, down to a
/// sixty-fourth; a component that lies closer to the drum's axis is so short that the belt holds it
/// or, without one, that its rate hardly matters any more.
SideCompliance::SideCompliance(const BeltSetup& station, double interference)
    : nip_(flattened(station, interference)) {
  models::BeltOnCover bare = nip_;
  bare.belt = {.bending_stiffness = 0.0, .tension = 0.0, .grain_compliance = 0.0};
  const int tables = station.options.moving ? 13 : 1;
  for (int j = 0; j < tables; ++j) {
    bare.cover.speed = nip_.cover.speed * std::pow(2.0, -0.5 * j);
    tables_.emplace_back(bare, 1e-3);
  }
}

/// The cover alone, for components at any angle to the feed.
std::complex<double> SideCompliance::cover(double qx, double q) const {
  const double place =
      std::clamp(2.0 * std::log2(q / qx), 0.0, static_cast<double>(tables_.size() - 1));
  const auto j = static_cast<std::size_t>(place);
  const double share = place - static_cast<double>(j);
  const std::complex<double> here = tables_[j](q);
  if (share <= 0.0) return here;
  return here + share * (tables_[j + 1](q) - here);
}

Symbol SideCompliance::under(const FeedProfile& profile) const {
  const Spectrum g = spectrum(profile);
  const auto direct = [&](double qy) {
    double sum = 0.0;
    for (std::size_t k = 0; k < g.wave.size(); ++k) {
      const double qx = g.wave[k];
      const double q = std::hypot(qx, qy);
      const double belt = nip_.belt.bending_stiffness * q * q * q * q + nip_.belt.tension * qx * qx;
      const std::complex<double> c = cover(qx, q);
      sum += g.weight[k] * (c / (1.0 + belt * c)).real();
    }
    return sum;
  };
  // Over asinh of the wave number: as even as C itself for long waves, a straight line of log C
  // for short ones.
  const double length = 0.5 * g.width;
  constexpr double longest_wave_kept = 2000.0;  // [rad/mm]: two cells of 1.5 um
  constexpr std::size_t steps = 48;
  const double step = std::asinh(longest_wave_kept * length) / steps;
  std::vector<double> logs(steps + 1);
  for (std::size_t i = 0; i <= steps; ++i)
    logs[i] = std::log(direct(std::sinh(step * static_cast<double>(i)) / length));
  const auto spline = models::equal_step_spline(logs, 0.0, step, true);
  const double end = step * steps;
  return [spline, length, end](double q) {
    return std::complex<double>(std::exp(spline(std::min(std::asinh(std::abs(q) * length), end))),
                                0.0);
  };
}

}  // namespace drumlin::sim::line
