#include "models/belt/critical_speed.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <utility>

#include <Eigen/Dense>

#include "models/elastomer/waves.hpp"

namespace drumlin::models {
namespace {

using Complex = std::complex<double>;

/// A wave of strength W swells to 2 W / tan delta times its give at rest. At 0.01 even the least
/// lossy rubbers (tan delta 0.02) keep it below that: the many waves trapped between hub and a belt
/// that is stiff to them, just above the shear wave speed, do not count.
constexpr double least_strength = 0.01;

/// Steady wave along belt and cover at a speed: what it takes to hold its crest up.
class TravellingWave {
 public:
  TravellingWave(BeltOnCover nip, double belt_mass, double modulus_factor)
      : nip_(std::move(nip)), belt_mass_(belt_mass) {
    nip_.cover.layer.modulus *= modulus_factor;
    shear_speed_ = shear_wave_speed(nip_.cover.layer, nip_.cover.density);
  }

  [[nodiscard]] double shear_speed() const { return shear_speed_; }

  /// D q^4 + (T - m' v^2) q^2 + 1 / C_layer [MPa/mm].
  [[nodiscard]] double stiffness(double q, double v) const {
    const double q2 = q * q;
    const TensionedPlate& belt = nip_.belt;
    return (belt.bending_stiffness * q2 + belt.tension - belt_mass_ * v * v) * q2 +
           1.0 / layer(q, v);
  }

 private:
  /// Compliance of the flat layer in motion by its four partial waves, eq. (8) of the theory page.
  [[nodiscard]] double layer(double q, double v) const {
    const BondedLayer& cover = nip_.cover.layer;
    const double w = q * cover.thickness;
    const double nu = cover.poisson_ratio;
    // At the shear wave speed itself two of the waves are one and the system has no answer.
    const double at_speed = v * v / (shear_speed_ * shear_speed_);
    const double x = std::abs(at_speed - 1.0) < 1e-8 ? 1.0 + 1e-8 : at_speed;
    const double eta = (1.0 - 2.0 * nu) / (2.0 * (1.0 - nu));
    const Complex d = std::sqrt(Complex(1.0 - eta * x));
    const Complex s = std::sqrt(Complex(1.0 - x));
    const Complex ed = std::exp(-d * w);
    const Complex es = std::exp(-s * w);
    const double f = 2.0 - x;
    // Columns: the waves that grow (one at the surface) and those that fall (one at the hub), of
    // dilatation and of shear. Rows: both displacements at the hub, then at the surface what is
    // prescribed (shear or tangential displacement) and the normal stress.
    Eigen::Matrix4cd m;
    m.row(0) << d * ed, es, -d, 1.0;
    m.row(1) << ed, s * es, 1.0, -s;
    if (nip_.grip == Grip::slip) {
      m.row(2) << 2.0 * d, f, -2.0 * d * ed, f * es;
    } else {
      m.row(2) << 1.0, s, ed, -s * es;
    }
    m.row(3) << f, 2.0 * s, f * ed, -2.0 * s * es;
    const Eigen::Vector4cd share = m.partialPivLu().solve(Eigen::Vector4cd::Unit(3));
    const Complex rise = share(0) * d + share(1) - share(2) * d * ed + share(3) * es;
    const double shear_modulus = cover.modulus / (2.0 * (1.0 + nu));
    return rise.real() / (q * shear_modulus);
  }

  BeltOnCover nip_;
  double belt_mass_;
  double shear_speed_ = 0;
};

/// Where between two speeds, one with and one without, nothing is left to hold the wave up.
double root_between(const TravellingWave& wave, double q, double low, double high) {
  for (int i = 0; i < 40; ++i) {
    const double middle = 0.5 * (low + high);
    (wave.stiffness(q, middle) > 0.0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// 1 / (v d/dv of the wave's stiffness), over its give at rest: half for a wave that is all of the
/// surface's give.
double strength(const TravellingWave& wave, double q, double v, double at_rest) {
  const double step = 1e-5 * v;
  const double slope = (wave.stiffness(q, v + step) - wave.stiffness(q, v - step)) / (2.0 * step);
  return at_rest / std::abs(slope * v);
}

/// First speed below `limit` at which a wave that the nip drives needs nothing to hold it up,
/// looked for in steps of a hundredth of the shear wave speed.
std::optional<double> first_root(const TravellingWave& wave, double q, double limit) {
  const double step = 0.01 * wave.shear_speed();
  // Slower than this the four partial waves can no longer be told apart.
  const double slowest = 5.5 * step;
  const double at_rest = wave.stiffness(q, slowest);
  if (at_rest <= 0.0) return slowest;
  // Below the Rayleigh speed there are no poles, so that one look tells whether there is a root.
  // From here the steps miss the shear wave speed itself, where two of the four waves are one.
  const double start = 0.855 * wave.shear_speed();
  double low = wave.stiffness(q, start) > 0.0 ? start : slowest;
  bool above = true;
  while (low < limit) {
    const double high = std::min(low + step, limit);
    const bool still = wave.stiffness(q, high) > 0.0;
    // Falling through zero is a wave; a rise through zero is a pole.
    if (above && !still) {
      const double root = root_between(wave, q, low, high);
      if (strength(wave, q, root, at_rest) > least_strength) return root;
    }
    above = still;
    low = high;
  }
  return std::nullopt;
}

}  // namespace

std::optional<CriticalSpeed> critical_speed(const BeltOnCover& at_rest, double belt_mass,
                                            double modulus_factor) {
  const TravellingWave wave(at_rest, belt_mass, modulus_factor);
  const double t = at_rest.cover.layer.thickness;
  constexpr int samples = 60;
  constexpr double ratio = 1.0936;  // sixty steps from w = 0.2 to 40
  std::optional<CriticalSpeed> lowest;
  double limit = 2.5 * wave.shear_speed();
  for (int i = samples; i >= 0; --i) {
    const double q = 0.2 / t * std::pow(ratio, i);
    const std::optional<double> root = first_root(wave, q, limit);
    if (!root || *root >= limit) continue;
    lowest = CriticalSpeed{*root, q};
    limit = *root;
  }
  if (!lowest) return lowest;
  // Golden section around the lowest sample.
  constexpr double golden = 0.381966;
  double a = std::log(lowest->wave_number / ratio);
  double b = std::log(lowest->wave_number * ratio);
  for (int i = 0; i < 12; ++i) {
    const double left = a + golden * (b - a);
    const double right = b - golden * (b - a);
    const double far = 1.1 * lowest->speed;
    const double at_left = first_root(wave, std::exp(left), far).value_or(far);
    const double at_right = first_root(wave, std::exp(right), far).value_or(far);
    if (std::min(at_left, at_right) < lowest->speed) {
      *lowest = {std::min(at_left, at_right), std::exp(at_left < at_right ? left : right)};
    }
    (at_left < at_right ? b : a) = at_left < at_right ? right : left;
  }
  return lowest;
}

}  // namespace drumlin::models
