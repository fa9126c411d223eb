#include "sim/fast/half_nip.hpp"

#include <cmath>
#include <utility>
#include <vector>

#include <Eigen/Cholesky>

#include "sim/numerics/error.hpp"

namespace drumlin::sim::fast {
namespace {

/// Kernel between all pairs of cells and their mirror images, averaged in pairs [mm^3/N].
Eigen::MatrixXd pair_matrix(const LineKernel& kernel, const Eigen::VectorXd& edge) {
  const Eigen::Index n = edge.size();
  std::vector<double> distances;
  distances.reserve(static_cast<std::size_t>(n * (n + 1)));
  for (Eigen::Index j = 0; j < n; ++j) {
    for (Eigen::Index i = 0; i <= j; ++i) {
      distances.push_back(edge(i) + edge(j));
      distances.push_back(edge(j) - edge(i));
    }
  }
  const LineKernel::Places places(std::move(distances));
  std::vector<double> values(places.size());
  kernel.even(places, values);
  Eigen::MatrixXd sum(n, n);  // G(x + y) - G(x - y): even in both, so second differences suffice
  auto next = values.begin();
  for (Eigen::Index j = 0; j < n; ++j) {
    for (Eigen::Index i = 0; i <= j; ++i, next += 2)
      sum(i, j) = sum(j, i) = next[0] - next[1];
  }
  const Eigen::Index m = n - 1;
  return sum.bottomRightCorner(m, m) - sum.topRightCorner(m, m) - sum.bottomLeftCorner(m, m) +
         sum.topLeftCorner(m, m);
}

/// L y = b, column by column.
Eigen::VectorXd forward(const Eigen::MatrixXd& factor, Eigen::VectorXd b) {
  const Eigen::Index n = b.size();
  for (Eigen::Index j = 0; j < n; ++j) {
    b(j) /= factor(j, j);
    b.tail(n - j - 1) -= b(j) * factor.col(j).segment(j + 1, n - j - 1);
  }
  return b;
}

/// L' p = y with as many of L's first rows as y has; in place.
void backward(const Eigen::MatrixXd& factor, Eigen::VectorXd& y) {
  const Eigen::Index n = y.size();
  for (Eigen::Index j = n - 1; j >= 0; --j) {
    const double rest = factor.col(j).segment(j + 1, n - j - 1).dot(y.tail(n - j - 1));
    y(j) = (y(j) - rest) / factor(j, j);
  }
}

}  // namespace

HalfNip::HalfNip(const LineKernel& kernel, const DrumFace& drum, const std::vector<double>& edges)
    : edge(Eigen::Map<const Eigen::VectorXd>(edges.data(),
                                             static_cast<Eigen::Index>(edges.size()))) {
  const Eigen::Index n = edge.size() - 1;
  width = edge.tail(n) - edge.head(n);
  Eigen::VectorXd opening(n);
  for (Eigen::Index i = 0; i < n; ++i)
    opening(i) = gap_integral(drum, edge(i + 1)) - gap_integral(drum, edge(i));
  factor_ = pair_matrix(kernel, edge);
  factor_.diagonal() += drum.grain_compliance * width;
  Eigen::LLT<Eigen::Ref<Eigen::MatrixXd>> inplace(factor_);
  if (inplace.info() != Eigen::Success || !factor_.allFinite()) {
    throw NumericsError(
        "the fast model cannot follow this nip: belt or cover are too stiff against the grains; "
        "use the line model");
  }
  response = forward(factor_, width);
  opening_ = forward(factor_, opening);
  start = opening_.cwiseQuotient(response);
}

HalfNip::HalfNip(std::span<const HalfNip* const> of, std::span<const double> shares)
    : edge(of.front()->edge), width(of.front()->width) {
  factor_ = shares[0] * of[0]->factor_;
  response = shares[0] * of[0]->response;
  opening_ = shares[0] * of[0]->opening_;
  for (std::size_t k = 1; k < of.size(); ++k) {
    factor_ += shares[k] * of[k]->factor_;
    response += shares[k] * of[k]->response;
    opening_ += shares[k] * of[k]->opening_;
  }
  start = opening_.cwiseQuotient(response);
}

Eigen::Index HalfNip::pressed(double interference) const noexcept {
  Eigen::Index count = 0;
  while (count < size() && start(count) < interference)
    ++count;
  return count;
}

Eigen::VectorXd HalfNip::pressure(double interference) const {
  const Eigen::Index n = pressed(interference);
  Eigen::VectorXd p = response.head(n) * interference - opening_.head(n);
  backward(factor_, p);
  return p;
}

Eigen::VectorXd HalfNip::stiffness(Eigen::Index cells) const {
  Eigen::VectorXd p = response.head(cells);
  backward(factor_, p);
  return p;
}

}  // namespace drumlin::sim::fast
