#include "tests/reference/nodal_contact.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <Eigen/SparseCholesky>

#include "tests/support/dense_contact.hpp"

namespace drumlin::reference {

Eigen::MatrixXd flexibility(const Stiffness& k, const CoverMesh& mesh,
                            const std::vector<std::size_t>& candidates) {
  const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factors(k.matrix);
  if (factors.info() != Eigen::Success) throw std::runtime_error("flexibility: singular stiffness");
  const auto n = static_cast<Eigen::Index>(candidates.size());
  const auto column = [&](Eigen::Index i) {
    return k.column_y[mesh.surface[candidates[static_cast<std::size_t>(i)]]];
  };
  Eigen::MatrixXd result(n, n);
  Eigen::VectorXd unit = Eigen::VectorXd::Zero(k.matrix.rows());
  for (Eigen::Index j = 0; j < n; ++j) {
    unit(column(j)) = 1.0;
    const Eigen::VectorXd rise = factors.solve(unit);
    unit(column(j)) = 0.0;
    for (Eigen::Index i = 0; i < n; ++i)
      result(i, j) = rise(column(i));
  }
  return result;
}

std::vector<std::size_t> surface_near(const CoverMesh& mesh, double middle, double span) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < mesh.arc.size(); ++i)
    if (std::abs(mesh.arc[i] - middle) <= span) places.push_back(i);
  return places;
}

NodalContact touch(const CoverMesh& mesh, const Eigen::MatrixXd& flexibility,
                   const std::vector<std::size_t>& candidates, const std::vector<double>& overlap) {
  const auto n = static_cast<Eigen::Index>(candidates.size());
  const Eigen::VectorXd force =
      tests::unsymmetric_contact(flexibility, Eigen::Map<const Eigen::VectorXd>(overlap.data(), n));
  NodalContact contact;
  contact.pressed.assign(mesh.surface.size(), false);
  contact.force.assign(mesh.surface.size(), 0.0);
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const double f = force(static_cast<Eigen::Index>(i));
    contact.pressed[candidates[i]] = f > 0.0;
    contact.force[candidates[i]] = f;
    contact.load += f;
  }
  return contact;
}

PlateContact touch_plate(const CoverMesh& mesh, const Material& material, double interference,
                         std::vector<bool> start, int increments) {
  PlateContact plate;
  std::vector<double> rise;
  for (const std::size_t node : mesh.surface)
    rise.push_back(interference - mesh.nodes[node].y);
  plate.contact.pressed = std::move(start);
  for (plate.runs = 1; plate.runs <= 20; ++plate.runs) {
    auto& pressed = plate.contact.pressed;
    plate.state = press(mesh, material, pressed, rise, increments);
    bool changed = false;
    for (std::size_t i = 0; i < rise.size(); ++i) {
      // Seven digits are printed.
      const bool now = pressed[i] ? plate.state.force[i] > 0.0
                                  : plate.state.rise[i] < rise[i] - 1e-6 * interference;
      changed = changed || now != pressed[i];
      pressed[i] = now;
    }
    if (changed) continue;
    plate.contact.force = plate.state.force;
    for (const double f : plate.contact.force)
      plate.contact.load += f;
    return plate;
  }
  throw std::runtime_error("touch_plate: the set of pressed nodes did not settle");
}

double nodal_pressure(const CoverMesh& mesh, const NodalContact& contact, std::size_t place) {
  return contact.force[place] / mesh.reach[place];
}

double contact_end(const CoverMesh& mesh, const NodalContact& contact) {
  std::size_t last = mesh.surface.size() - 1;
  while (last > 0 && !contact.pressed[last])
    --last;
  // Load beyond a corner: nodes beyond, and the corner's share by its element on that side.
  const auto beyond = [&](std::size_t corner) {
    const double sides = mesh.arc[corner + 2] - mesh.arc[corner - 2];
    double sum = contact.force[corner] * (mesh.arc[corner + 2] - mesh.arc[corner]) / sides;
    for (std::size_t i = corner + 1; i <= last; ++i)
      sum += contact.force[i];
    return std::pow(sum, 2.0 / 3.0);
  };
  const std::size_t corner = last - last % 2;
  if (corner < 10) throw std::runtime_error("contact_end: too few nodes in contact");
  const double near = beyond(corner - 4);
  const double far = beyond(corner - 8);
  const double run = mesh.arc[corner - 4] - mesh.arc[corner - 8];
  return mesh.arc[corner - 4] + run * near / (far - near);
}

}  // namespace drumlin::reference
