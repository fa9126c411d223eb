#pragma once

#include <cmath>
#include <numbers>

#include <Eigen/Dense>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/legendre.hpp>

namespace drumlin::tests {

/// Stiffness of a flat ring sheared between bonded rigid faces, over G A / t [-]: its free sides
/// cannot carry the shear that an even simple shear needs. Static; virtual work with products of
/// polynomials (degree `degree` in r and z), u_r = U cos phi, u_phi = -V sin phi, u_z = W cos phi.
/// From above: 0.2 % at degree 8.
inline double shear_shape_factor(double inner, double outer, double t, double nu, int degree = 8) {
  using Rule = boost::math::quadrature::gauss<double, 20>;
  const int across = degree + 1;
  const int through = degree - 1;
  const int count = 3 * across * through;
  Eigen::Matrix<double, 6, 6> elastic = Eigen::Matrix<double, 6, 6>::Identity();
  elastic.diagonal().head<3>().setConstant(2.0);
  elastic.topLeftCorner<3, 3>().array() += 2.0 * nu / (1.0 - 2.0 * nu);
  Eigen::MatrixXd k = Eigen::MatrixXd::Zero(count, count);
  Eigen::VectorXd load = Eigen::VectorXd::Zero(count);
  double simple = 0.0;
  // Amplitudes of rr, pp, zz, rp, rz, pz of a displacement (f, f_r, f_z) in one component.
  const auto strain = [](int part, double f, double fr, double fz, double r) {
    Eigen::Matrix<double, 6, 1> e;
    if (part == 0) {
      e << fr, f / r, 0.0, -f / r, fz, 0.0;
    } else if (part == 1) {
      e << 0.0, -f / r, 0.0, f / r - fr, 0.0, -fz;
    } else {
      e << 0.0, 0.0, fz, 0.0, fr, -f / r;
    }
    return e;
  };
  const auto add = [&](double x, double z, double weight) {
    const double r = 0.5 * (outer + inner) + 0.5 * (outer - inner) * x;
    const double scale = weight * r * 0.25 * (outer - inner) * t * std::numbers::pi;
    Eigen::MatrixXd b(6, count);
    int column = 0;
    for (int part = 0; part < 3; ++part) {
      for (int i = 0; i < across; ++i) {
        const double p = boost::math::legendre_p(i, x);
        const double pr = boost::math::legendre_p_prime(i, x) * 2.0 / (outer - inner);
        for (int j = 0; j < through; ++j) {
          const double l = boost::math::legendre_p(j, z);
          const double bubble = (1.0 - z * z) * l;
          const double slope =
              ((1.0 - z * z) * boost::math::legendre_p_prime(j, z) - 2.0 * z * l) * 2.0 / t;
          b.col(column++) = strain(part, p * bubble, pr * bubble, p * slope, r);
        }
      }
    }
    const double rise = 0.5 * (1.0 + z);
    const Eigen::Matrix<double, 6, 1> sheared =
        strain(0, rise, 0.0, 1.0 / t, r) + strain(1, rise, 0.0, 1.0 / t, r);
    k += scale * b.transpose() * elastic * b;
    load += scale * b.transpose() * (elastic * sheared);
    simple += scale * sheared.dot(elastic * sheared);
  };
  const auto& points = Rule::abscissa();
  const auto& weights = Rule::weights();
  for (std::size_t i = 0; i < points.size(); ++i) {
    for (std::size_t j = 0; j < points.size(); ++j) {
      for (const double sx : {-1.0, 1.0}) {
        for (const double sz : {-1.0, 1.0})
          add(sx * points[i], sz * points[j], weights[i] * weights[j]);
      }
    }
  }
  return (simple - load.dot(k.ldlt().solve(load))) / simple;
}

}  // namespace drumlin::tests
