#pragma once

#include <cmath>
#include <complex>

#include <Eigen/Dense>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/legendre.hpp>

#include "models/elastomer/half_space.hpp"

/// Slow judges of the cover's compliance, by other methods than the program's.
namespace drumlin::tests {

using Compliances = models::SymmetricCompliance<std::complex<double>>;

/// Compliance of a bonded layer or drum cover at q > 0 from virtual work: displacements as
/// polynomials of degree 28 through the cover, zero at the hub,
///
///     integral of (stress : strain + rho a . u) r dr = traction . u at the surface,
///
/// with e_rr = U', e_tt = (U - n W) / r, 2 e_rt = n U / r + W' - W / r for u_r = U exp(i n s / R),
/// u_t = i W exp(i n s / R), and the acceleration of a displacement carried round at v / R. Flat:
/// 1 / r = 0 and n / r = q.
inline Compliances by_virtual_work(const models::Cover& cover, double q) {
  using Complex = std::complex<double>;
  constexpr int degree = 28;
  const models::WorkingState state = models::working_state(cover, q);
  const double nu = cover.layer.poisson_ratio;
  const double t = cover.layer.thickness;
  const double lame = 2.0 * nu / (1.0 - 2.0 * nu);  // over G
  const double kappa = cover.curvature;
  Eigen::MatrixXcd k = Eigen::MatrixXcd::Zero(2 * degree, 2 * degree);
  using Rule = boost::math::quadrature::gauss<double, 40>;
  const auto add = [&](double x, double weight) {
    const double height = 0.5 * t * (1.0 + x);
    const double inverse_radius = kappa / (1.0 - kappa * (t - height));
    const double n_over_r = kappa > 0.0 ? q * inverse_radius / kappa : q;
    const double r = kappa > 0.0 ? kappa / inverse_radius : 1.0;  // over R
    Eigen::MatrixXd strain = Eigen::MatrixXd::Zero(3, 2 * degree);
    Eigen::MatrixXd moved = Eigen::MatrixXd::Zero(2, 2 * degree);
    for (int i = 0; i < degree; ++i) {
      const double p = boost::math::legendre_p(i, x);
      const double value = (1.0 + x) * p;
      const double slope = (p + (1.0 + x) * boost::math::legendre_p_prime(i, x)) * 2.0 / t;
      strain.col(i) << slope, value * inverse_radius, n_over_r * value;
      strain.col(degree + i) << 0.0, -n_over_r * value, slope - inverse_radius * value;
      moved(0, i) = value;
      moved(1, degree + i) = value;
    }
    Eigen::Matrix3d stiffness;
    stiffness << lame + 2.0, lame, 0.0, lame, lame + 2.0, 0.0, 0.0, 0.0, 1.0;
    Eigen::Matrix2d turned;
    turned << -(q * q + kappa * kappa), 2.0 * q * kappa, 2.0 * q * kappa, -(q * q + kappa * kappa);
    const double scale = 0.5 * t * weight * r;
    k += (scale * strain.transpose() * stiffness * strain).cast<Complex>();
    k += state.inertia * (scale * moved.transpose() * turned * moved).cast<Complex>();
  };
  for (std::size_t i = 0; i < Rule::abscissa().size(); ++i) {
    add(Rule::abscissa()[i], Rule::weights()[i]);
    add(-Rule::abscissa()[i], Rule::weights()[i]);
  }
  Eigen::MatrixXcd load = Eigen::MatrixXcd::Zero(2 * degree, 2);
  for (int i = 0; i < degree; ++i) {
    load(i, 0) = 2.0;  // (1 + x) P_i(x) at x = 1
    load(degree + i, 1) = 2.0;
  }
  const Eigen::MatrixXcd answer = load.transpose() * k.partialPivLu().solve(load);
  const Complex g = state.shear_modulus;
  return {answer(0, 0) / g, answer(0, 1) / g, answer(1, 1) / g};
}

/// nn of the flat bonded layer in motion over that of the half-space at rest, from its two
/// potentials: exp(+-beta_d q z), exp(+-beta_s q z), both displacements zero at the hub, no shear
/// and unit pressure at the surface. Long double; x = (v / c_s)^2 in (0, 1).
inline double by_potentials(double nu, double w, double x) {
  using Real = long double;
  const Real eta = (1.0L - 2.0L * nu) / (2.0L * (1.0L - nu));
  const Real d = std::sqrt(1.0L - eta * x);
  const Real s = std::sqrt(1.0L - x);
  Eigen::Matrix<Real, 4, 4> m;
  const Real roots[4] = {d, -d, s, -s};
  Eigen::Matrix<Real, 4, 1> rise;
  for (int i = 0; i < 4; ++i) {
    const Real b = roots[i];
    const Real e = std::exp(b * w);
    const bool dilatation = i < 2;
    // phi: u_z = b, u_x / i = 1; psi: u_z = 1, u_x / i = b (per q); stresses per G q.
    m(0, i) = dilatation ? b : 1.0L;
    m(1, i) = dilatation ? 1.0L : b;
    m(2, i) = (dilatation ? 2.0L * b : 1.0L + b * b) * e;
    m(3, i) = (dilatation ? 1.0L + s * s : 2.0L * b) * e;
    rise(i) = (dilatation ? b : 1.0L) * e;
  }
  const Eigen::Matrix<Real, 4, 1> share = m.fullPivLu().solve(Eigen::Matrix<Real, 4, 1>::Unit(3));
  return static_cast<double>(rise.dot(share) / (1.0L - static_cast<Real>(nu)));
}

}  // namespace drumlin::tests
