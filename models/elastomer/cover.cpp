#include "models/elastomer/cover.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <type_traits>

#include <boost/numeric/odeint.hpp>

#include "models/elastomer/half_space.hpp"

namespace drumlin::models {
namespace {

using Complex = std::complex<double>;

/// Plain product: the standard's one looks for infinities at every call.
Complex times(Complex a, Complex b) {
  return {a.real() * b.real() - a.imag() * b.imag(), a.real() * b.imag() + a.imag() * b.real()};
}
double times(double a, double b) {
  return a * b;
}

/// Symmetric 2 x 2 matrix: the cover's compliance, or its inverse.
template <typename Number>
using Symmetric = SymmetricCompliance<Number>;

template <typename Number>
Symmetric<Number> inverse(const Symmetric<Number>& m) {
  const Number scale = 1.0 / (m.normal * m.tangential - m.coupling * m.coupling);
  return {m.tangential * scale, -m.coupling * scale, m.normal * scale};
}

/// Compliance of the part of the cover between the hub and a radius, grown outward: the Riccati
/// equation of eq. (6) on the theory page, with G = 1. Where the compliance passes a pole (waves
/// faster than the cover's own) its inverse takes over.
template <typename Number>
class GrowingCover {
 public:
  static constexpr std::size_t parts = std::is_same_v<Number, Complex> ? 2 : 1;
  using State = std::array<double, 3 * parts>;

  GrowingCover(const Cover& cover, double q, Number inertia)
      : q_(q),
        thickness_(cover.layer.thickness),
        curvature_(cover.curvature),
        inertia_(inertia),
        dilatation_((1.0 - 2.0 * cover.layer.poisson_ratio) /
                    (2.0 * (1.0 - cover.layer.poisson_ratio))),
        side_(cover.layer.poisson_ratio / (1.0 - cover.layer.poisson_ratio)),
        plate_(2.0 / (1.0 - cover.layer.poisson_ratio)) {}

  void operator()(const State& state, State& rate, double height) const {
    const Symmetric<Number> m = unpacked(state);
    const double c = curvature_ / (1.0 - curvature_ * (thickness_ - height));
    const double k = curvature_ > 0.0 ? q_ * c / curvature_ : q_;
    const Number spin = inertia_ * (q_ * q_ + curvature_ * curvature_);
    const Symmetric<Number> ring{plate_ * c * c - spin,
                                 2.0 * inertia_ * (q_ * curvature_) - plate_ * c * k,
                                 plate_ * k * k - spin};
    pack(inverted_ ? stiffness_rate(m, ring, c, k) : compliance_rate(m, ring, c, k), rate);
  }

  [[nodiscard]] Symmetric<Number> compliance(const State& state) const {
    const Symmetric<Number> m = unpacked(state);
    return inverted_ ? inverse(m) : m;
  }

  [[nodiscard]] State start(const Symmetric<Number>& compliance) const {
    State state{};
    pack(compliance, state);
    return state;
  }

  /// Takes the better conditioned of compliance and stiffness; true if it changed.
  bool turn(State& state) {
    // The half-space at rest has 1 / (2 q) to 1 / q: far above lies only the neighbourhood of
    // poles.
    const Symmetric<Number> c = compliance(state);
    const double size =
        q_ * std::max({std::abs(c.normal), std::abs(c.coupling), std::abs(c.tangential)});
    if (inverted_ ? size > 20.0 : size < 50.0) return false;
    pack(inverse(unpacked(state)), state);
    inverted_ = !inverted_;
    return true;
  }

 private:
  [[nodiscard]] static Symmetric<Number> unpacked(const State& s) {
    if constexpr (parts == 2) {
      return {{s[0], s[1]}, {s[2], s[3]}, {s[4], s[5]}};
    } else {
      return {s[0], s[1], s[2]};
    }
  }

  static void pack(const Symmetric<Number>& m, State& s) {
    if constexpr (parts == 2) {
      s = {m.normal.real(),   m.normal.imag(),     m.coupling.real(),
           m.coupling.imag(), m.tangential.real(), m.tangential.imag()};
    } else {
      s = {m.normal, m.coupling, m.tangential};
    }
  }

  [[nodiscard]] Symmetric<Number> compliance_rate(const Symmetric<Number>& m,
                                                  const Symmetric<Number>& ring, double c,
                                                  double k) const {
    const Number& a = m.normal;
    const Number& b = m.coupling;
    const Number& d = m.tangential;
    const Number ra = times(ring.normal, a) + times(ring.coupling, b);
    const Number rb = times(ring.coupling, a) + times(ring.tangential, b);
    const Number sa = times(ring.normal, b) + times(ring.coupling, d);
    const Number sb = times(ring.coupling, b) + times(ring.tangential, d);
    return {dilatation_ + (1.0 - 2.0 * side_) * c * a + 2.0 * side_ * k * b - times(a, ra) -
                times(b, rb),
            (2.0 - side_) * c * b + side_ * k * d - k * a - times(a, sa) - times(b, sb),
            1.0 + 3.0 * c * d - 2.0 * k * b - times(b, sa) - times(d, sb)};
  }

  [[nodiscard]] Symmetric<Number> stiffness_rate(const Symmetric<Number>& m,
                                                 const Symmetric<Number>& ring, double c,
                                                 double k) const {
    const Number& a = m.normal;
    const Number& b = m.coupling;
    const Number& d = m.tangential;
    return {ring.normal + (2.0 * side_ - 1.0) * c * a + 2.0 * k * b - dilatation_ * times(a, a) -
                times(b, b),
            ring.coupling + (side_ - 2.0) * c * b + k * d - side_ * k * a -
                dilatation_ * times(a, b) - times(b, d),
            ring.tangential - 3.0 * c * d - 2.0 * side_ * k * b - dilatation_ * times(b, b) -
                times(d, d)};
  }

  double q_, thickness_, curvature_;
  Number inertia_;
  double dilatation_;  ///< G / M = (1 - 2 nu) / (2 (1 - nu))
  double side_;        ///< nu / (1 - nu)
  double plate_;       ///< 2 / (1 - nu): stretching modulus along the surface over G
  bool inverted_ = false;
};

/// Grows the cover from `from` (height above the hub) to its surface.
template <typename Number>
Symmetric<Number> grown(GrowingCover<Number> cover, const Symmetric<Number>& at_start, double from,
                        double to, double q, double tolerance) {
  using State = typename GrowingCover<Number>::State;
  using Stepper = boost::numeric::odeint::runge_kutta_fehlberg78<State>;
  const double scale = std::min(to, 1.0 / q);
  // Near nu = 1/2 the normal compliance of long waves is 1e-4 of the others and keeps its digits.
  const auto make = [&] {
    return boost::numeric::odeint::make_controlled<Stepper>(1e-5 * tolerance * scale, tolerance);
  };
  auto stepper = make();
  State state = cover.start(at_start);
  double height = from;
  double step = std::min(0.5 * (to - from), 0.3 / q);
  // A cover of a thousand waves, the most that is ever grown, takes some thousand steps.
  for (int tries = 0; tries < 100'000; ++tries) {
    step = std::min(step, to - height);
    if (stepper.try_step(std::cref(cover), state, height, step) != boost::numeric::odeint::success)
      continue;
    if (to - height <= 1e-12 * to) return cover.compliance(state);
    if (cover.turn(state)) stepper = make();
  }
  throw std::runtime_error("surface_compliance: the cover's equation could not be integrated");
}

template <typename Number>
Symmetric<Complex> grown_from_hub(const Cover& cover, double q, Number inertia, double tolerance) {
  const double t = cover.layer.thickness;
  const double nu = cover.layer.poisson_ratio;
  const GrowingCover<Number> growing(cover, q, inertia);
  // What lies deeper than w / q moves the surface by some 4 w^2 exp(-2 w Re beta_s): 2e-8, or 2e-6
  // where that is enough. Waves that do not decay are followed for a thousand radians.
  const double decay = std::sqrt(Complex(1.0 - inertia)).real();
  const double depth = std::min((tolerance < 1e-5 ? 12.0 : 9.5) / decay, 1000.0) / q;
  Symmetric<Number> start{};
  double from = 0.0;
  if (depth < t) {
    const Symmetric<Complex> deep = half_space(inertia, nu);
    if (cover.curvature == 0.0) return {deep.normal / q, deep.coupling / q, deep.tangential / q};
    from = t - depth;
    const double k = q / (1.0 - cover.curvature * depth);
    if constexpr (std::is_same_v<Number, Complex>) {
      start = {deep.normal / k, deep.coupling / k, deep.tangential / k};
    } else {
      start = {deep.normal.real() / k, deep.coupling.real() / k, deep.tangential.real() / k};
    }
  }
  const Symmetric<Number> surface = grown(growing, start, from, t, std::max(q, 1e-9), tolerance);
  return {surface.normal, surface.coupling, surface.tangential};
}

/// Flat and at rest: closed form, times G. Derived as the layer's normal compliance was.
Symmetric<double> flat_at_rest(const BondedLayer& layer, double q) {
  const double t = layer.thickness;
  const double w = q * t;
  const double nu = layer.poisson_ratio;
  const double k = 3.0 - 4.0 * nu;
  const double shear_modulus = layer.modulus / (2.0 * (1.0 + nu));
  const double normal = shear_modulus * surface_compliance(layer, q);
  if (w < 1e-3) {
    // Series; the next terms are w^2 of these.
    return {normal, q * t * t * (4.0 * nu - 1.0) / (4.0 * (1.0 - nu)), t};
  }
  // Both scaled by exp(-2w).
  const double e = std::exp(-2.0 * w);
  const double below = k * (1.0 + e * e) + (1.0 + k * k + 4.0 * w * w) * e;
  const double half = 0.5 * k * (k - 1.0) * (1.0 - e) * (1.0 - e);  // of cosh 2w - 1
  return {normal, (4.0 * w * w * e - half) / (2.0 * q * below),
          (1.0 - nu) * (k * (1.0 - e * e) + 4.0 * w * e) / (q * below)};
}

/// With G of the working state taken out.
Symmetric<Complex> scaled_compliance(const Cover& cover, double q, const WorkingState& state,
                                     double tolerance) {
  if (cover.speed == 0.0 && cover.curvature == 0.0) {
    const Symmetric<double> flat = flat_at_rest(cover.layer, q);
    return {flat.normal, flat.coupling, flat.tangential};
  }
  if (state.inertia.imag() == 0.0) return grown_from_hub(cover, q, state.inertia.real(), tolerance);
  return grown_from_hub(cover, q, state.inertia, tolerance);
}

}  // namespace

SurfaceCompliance surface_compliance(const Cover& cover, double q, double tolerance) {
  const double size = std::abs(q);
  const WorkingState state = working_state(cover, size);
  const Symmetric<Complex> c = scaled_compliance(cover, size, state, tolerance);
  const Complex nn = c.normal / state.shear_modulus;
  const Complex nt = Complex(0.0, 1.0) * c.coupling / state.shear_modulus;
  const Complex tt = c.tangential / state.shear_modulus;
  if (q < 0.0) return {std::conj(nn), std::conj(nt), std::conj(-nt), std::conj(tt)};
  return {nn, nt, -nt, tt};
}

SurfaceCompliance surface_compliance(const Cover& cover, double q) {
  return surface_compliance(cover, q, 1e-6);
}

}  // namespace drumlin::models
