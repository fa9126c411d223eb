#include "tests/reference/kernel_nip.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <stdexcept>

#include "sim/numerics/contact_solver.hpp"
#include "sim/numerics/line_compliance.hpp"
#include "tests/support/dense_contact.hpp"

namespace drumlin::reference {

double KernelNip::line_load() const {
  return spacing * std::accumulate(pressure.begin(), pressure.end(), 0.0);
}

double KernelNip::peak() const {
  return *std::max_element(pressure.begin(), pressure.end());
}

double KernelNip::load_between(double left, double right) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < pressure.size(); ++i) {
    const double begin = from + spacing * static_cast<double>(i);
    const double share = std::min(begin + spacing, right) - std::max(begin, left);
    if (share > 0.0) sum += share * pressure[i];
  }
  return sum;
}

double KernelNip::end() const {
  std::size_t last = pressure.size() - 1;
  while (last > 1 && pressure[last] <= 0.0)
    --last;
  // Towards a smooth end p^2 falls linearly.
  const double here = pressure[last] * pressure[last];
  const double before = pressure[last - 1] * pressure[last - 1];
  return from + spacing * (static_cast<double>(last) + 0.5 + here / (before - here));
}

KernelNip press_kernel(const sim::Symbol& symbol, const Row& row) {
  KernelNip nip;
  nip.from = row.from;
  nip.spacing = (row.to - row.from) / static_cast<double>(row.cells);
  sim::LineCompliance compliance(symbol, nip.spacing, row.cells, row.window);
  std::vector<double> overlap(row.cells);
  std::vector<std::uint8_t> metal(row.cells, 1);
  for (std::size_t i = 0; i < row.cells; ++i) {
    const double s = row.from + nip.spacing * (static_cast<double>(i) + 0.5);
    overlap[i] = row.overlap(s);
    if (row.metal) metal[i] = row.metal(s) ? 1 : 0;
  }
  nip.pressure.assign(row.cells, 0.0);
  sim::ContactSolver solver;
  const auto nothing = [](std::size_t, double) { return sim::LocalGive{0.0, 0.0}; };
  const double deepest = *std::max_element(overlap.begin(), overlap.end());
  const auto report =
      solver.solve(compliance, overlap, metal, nothing, nip.pressure, {.gap = 1e-7 * deepest});
  if (!report.converged) throw std::runtime_error("press_kernel: no solution");
  return nip;
}

KernelNip press_drum_kernel(const models::NipCompliance& kernel, double curvature, const Row& row) {
  KernelNip nip;
  nip.from = row.from;
  nip.spacing = (row.to - row.from) / static_cast<double>(row.cells);
  sim::LineCompliance plain([&](double q) { return kernel(q); }, nip.spacing, row.cells,
                            row.window);
  sim::LineCompliance rest([&](double q) { return kernel.remainder(q); }, nip.spacing, row.cells,
                           row.window);
  const auto n = static_cast<Eigen::Index>(row.cells);
  Eigen::VectorXd overlap(n);
  Eigen::VectorXd sine(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const double s = row.from + nip.spacing * (static_cast<double>(i) + 0.5);
    overlap(i) = row.overlap(s);
    sine(i) = std::sin(s * curvature);
  }
  const Eigen::MatrixXd matrix =
      tests::matrix_of(plain) + sine.asDiagonal() * tests::matrix_of(rest) * sine.asDiagonal();
  const Eigen::VectorXd pressure = tests::unsymmetric_contact(matrix, overlap);
  nip.pressure.assign(pressure.data(), pressure.data() + n);
  return nip;
}

double profile_distance(const CoverMesh& mesh, const NodalContact& contact,
                        const KernelNip& kernel) {
  // Up to a corner: the nodes before, and of the corner the part by its element on the left.
  double before = 0.0;
  double worst = 0.0;
  for (std::size_t i = 0; i + 2 < mesh.surface.size(); i += 2) {
    double own = 0.0;
    if (i > 0) {
      const double left = mesh.arc[i] - mesh.arc[i - 2];
      own = contact.force[i] * left / (mesh.arc[i + 2] - mesh.arc[i - 2]);
    }
    const double here = before + own;
    worst = std::max(worst, std::abs(here - kernel.load_between(0.0, mesh.arc[i])));
    before += contact.force[i] + contact.force[i + 1];
    if (i > 0 && !contact.pressed[i]) break;
  }
  return worst / contact.load;
}

}  // namespace drumlin::reference
