#include "sim/fast/edge_pass.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <fmt/format.h>

#include "models/removal/layered.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::sim::fast {
namespace {

/// Steps while the drum moves on by half a nip: with twice as many burr heights move by less than a
/// micrometre on the shipped cases.
constexpr double steps_per_half_width = 10.0;
constexpr int fewest_steps = 16;
/// Gap error that counts as solved, over the interference.
constexpr double gap_error = 1e-5;
constexpr int most_newton_steps = 60;
/// From there on each Newton step is taken by half only: a removal law with a kink may swing.
constexpr int free_newton_steps = 15;

Eigen::MatrixXd pair_matrix(const LineKernel& kernel, const Section& section) {
  const std::size_t n = section.size();
  Eigen::MatrixXd matrix(n, n);
  // Neighbours share an end, so their differences are looked up once.
  std::vector<double> ends;
  std::vector<Eigen::Index> low(n);
  for (std::size_t i = 0; i < n; ++i) {
    if (ends.empty() || ends.back() != section.from[i]) ends.push_back(section.from[i]);
    low[i] = static_cast<Eigen::Index>(ends.size()) - 1;
    ends.push_back(section.to[i]);
  }
  const auto m = static_cast<Eigen::Index>(ends.size());
  Eigen::MatrixXd between(m, m);
  for (Eigen::Index j = 0; j < m; ++j) {
    for (Eigen::Index i = 0; i <= j; ++i) {
      const double distance = ends[static_cast<std::size_t>(i)] - ends[static_cast<std::size_t>(j)];
      between(i, j) = kernel.leaning(distance);
      between(j, i) = kernel.symmetric() ? between(i, j) : kernel.leaning(-distance);
    }
  }
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t i = 0; i < n; ++i) {
      const Eigen::Index a = low[i];
      const Eigen::Index b = low[j];
      matrix(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) =
          between(a + 1, b) - between(a, b) - between(a + 1, b + 1) + between(a, b + 1);
    }
  }
  return matrix;
}

/// Drum's axis to an edge [mm] from where on the edge is hardly felt, nor read.
double calm_distance(double half_width) {
  return 1.4 * half_width + 1.0;
}

/// Depth that a steady pass has taken at a place from the axis.
double depth_at(const WearingPass& plain, double place) {
  if (plain.place.empty() || place <= plain.place.front()) return 0.0;
  const auto above = std::upper_bound(plain.place.begin(), plain.place.end(), place);
  if (above == plain.place.end()) return plain.removal;
  const auto k = static_cast<std::size_t>(above - plain.place.begin());
  const double share = (place - plain.place[k - 1]) / (plain.place[k] - plain.place[k - 1]);
  return plain.depth[k - 1] + share * (plain.depth[k] - plain.depth[k - 1]);
}

}  // namespace

double edge_pass_reach(const DrumLaw& law, double interference, double tallest) {
  const double a = law.half_width(interference);
  const double touch = std::sqrt(2.0 * law.drum().radius * (interference + tallest));
  return std::max(calm_distance(a), touch) + 1.2 * a;
}

EdgePass::EdgePass(const LineKernel& kernel, const DrumLaw& law, const Abrasion& abrasion,
                   const Section& section)
    : law_(law),
      abrasion_(abrasion),
      symmetric_(kernel.symmetric()),
      matrix_(pair_matrix(kernel, section)) {
  const auto n = static_cast<Eigen::Index>(section.size());
  width_.resize(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    width_(i) = section.to[static_cast<std::size_t>(i)] - section.from[static_cast<std::size_t>(i)];
  }
  pressure_ = Eigen::VectorXd::Zero(n);
  overlap_.resize(n);
  sunk_.resize(n);
  residual_.resize(n);
  give_.resize(n);
  free_.reserve(section.size());
}

void EdgePass::lay_overlap(const Section& section, double interference, double axis) {
  for (std::size_t i = 0; i < section.size(); ++i) {
    const auto k = static_cast<Eigen::Index>(i);
    const double opening = gap_integral(law_.drum(), section.to[i] - axis) -
                           gap_integral(law_.drum(), section.from[i] - axis);
    overlap_(k) = interference + section.height[i] - opening / width_(k);
  }
}

template <class Law>
double EdgePass::assess(const Section& section, double path) {
  const Law& base = std::get<Law>(abrasion_.substrate);
  const Law& top = std::get<Law>(abrasion_.coating);
  sunk_.setZero();
  for (Eigen::Index j = 0; j < pressure_.size(); ++j) {
    if (pressure_(j) > 0.0) sunk_.noalias() += pressure_(j) * matrix_.col(j);
  }
  free_.clear();
  double worst = 0.0;
  for (Eigen::Index i = 0; i < pressure_.size(); ++i) {
    const double p = pressure_(i);
    const double gap = sunk_(i) / width_(i) - overlap_(i);
    if (p <= 0.0 && gap >= 0.0) continue;
    const auto cell = static_cast<std::size_t>(i);
    const models::LayeredColumn<Law, 2> column{.left = {section.burr[cell], section.coating[cell]},
                                               .law = {&base, &top, &base}};
    const auto taken = column.removal(p, path);
    give_(i) = law_.drum().grain_compliance + taken.slope;
    residual_(i) = gap + law_.drum().grain_compliance * p + taken.depth;
    free_.push_back(i);
    worst = std::max(worst, std::abs(residual_(i)));
  }
  return worst;
}

void EdgePass::newton_step() {
  const auto n = static_cast<Eigen::Index>(free_.size());
  system_.resize(n, n);
  step_.resize(n);
  for (Eigen::Index j = 0; j < n; ++j) {
    const Eigen::Index b = free_[static_cast<std::size_t>(j)];
    for (Eigen::Index i = symmetric_ ? j : 0; i < n; ++i)
      system_(i, j) = matrix_(free_[static_cast<std::size_t>(i)], b);
    system_(j, j) += width_(b) * give_(b);
    step_(j) = -width_(b) * residual_(b);
  }
  if (symmetric_) {
    const Eigen::LLT<Eigen::Ref<Eigen::MatrixXd>> inplace(system_);
    inplace.solveInPlace(step_);
  } else {
    const Eigen::PartialPivLU<Eigen::Ref<Eigen::MatrixXd>> inplace(system_);
    step_ = inplace.solve(step_).eval();
  }
}

template <class Law>
void EdgePass::solve_step(const Section& section, double path) {
  const double tolerance = gap_error * std::max(overlap_.maxCoeff(), 1e-2);
  for (int round = 0; round < most_newton_steps; ++round) {
    if (assess<Law>(section, path) <= tolerance) return;
    newton_step();
    ++newton_steps_;
    const double share = round < free_newton_steps ? 1.0 : 0.5;
    for (std::size_t k = 0; k < free_.size(); ++k) {
      double& p = pressure_(free_[k]);
      p = std::max(p + share * step_(static_cast<Eigen::Index>(k)), 0.0);
    }
  }
  throw NumericsError(
      fmt::format("{}: a step of the fast model did not settle after {} Newton "
                  "steps; use the line model",
                  section.name, most_newton_steps));
}

EdgePass::Course EdgePass::course_over(const Section& section, double interference) const {
  const double a = law_.half_width(interference);
  const double tallest = *std::max_element(section.height.begin(), section.height.end());
  const double touch = std::sqrt(2.0 * law_.drum().radius * std::max(interference + tallest, 0.0));
  const double calm = std::max(calm_distance(a), touch);
  Course course{};
  course.from = section.rims.front().x + (section.rims.front().metal > 0 ? calm : touch);
  course.to = course.from;
  for (const auto& rim : section.rims) {
    if (!rim.name.empty()) course.to = rim.x - (rim.metal > 0 ? touch : calm);
  }
  const double steps = (course.from - course.to) / std::max(a, 1e-3) * steps_per_half_width;
  course.steps = std::max(fewest_steps, static_cast<int>(std::lround(steps)));
  return course;
}

template <class Law>
void EdgePass::run_with(Section& section, double interference, const Course& course) {
  const Law& base = std::get<Law>(abrasion_.substrate);
  const Law& top = std::get<Law>(abrasion_.coating);
  const double stride = (course.from - course.to) / course.steps;
  const double path = abrasion_.path_per_feed * stride;
  pressure_.setZero();
  for (int step = 0; step < course.steps; ++step) {
    lay_overlap(section, interference, course.from - (step + 0.5) * stride);
    solve_step<Law>(section, path);
    for (const Eigen::Index i : free_) {
      if (pressure_(i) <= 0.0) continue;
      const auto cell = static_cast<std::size_t>(i);
      models::LayeredColumn<Law, 2> column{.left = {section.burr[cell], section.coating[cell]},
                                           .law = {&base, &top, &base}};
      const double depth = column.removal(pressure_(i), path).depth;
      column.take(depth);
      section.height[cell] -= depth;
      section.burr[cell] = column.left[0];
      section.coating[cell] = column.left[1];
    }
    for (auto& rim : section.rims) {
      double force = 0.0;
      for (std::size_t i = 0; i < std::max<std::size_t>(rim.reach, 1); ++i) {
        const auto cell = static_cast<Eigen::Index>(Section::inwards(rim, i));
        rim.peak_pressure = std::max(rim.peak_pressure, pressure_(cell));
        force += pressure_(cell) * width_(cell);
      }
      if (rim.reach > 0) rim.peak_force = std::max(rim.peak_force, force);
    }
  }
}

void EdgePass::run(Section& section, double interference, const WearingPass& plain,
                   const PlainFace& face) {
  const Course course = course_over(section, interference);
  if (course.from <= course.to) return;
  // What stands behind the drum at the start has been worn as a plain face is.
  for (std::size_t i = 0; i < section.size(); ++i) {
    const double depth = depth_at(plain, section.x(i) - course.from);
    section.height[i] -= depth;
    section.coating[i] = std::max(section.coating[i] - depth, 0.0);
  }
  std::visit([&]<class Law>(const Law&) { run_with<Law>(section, interference, course); },
             abrasion_.substrate);
  // What it has not fully passed at the end will be worn so.
  const double passed = course.to + law_.half_width(interference);
  for (std::size_t i = 0; i < section.size(); ++i) {
    if (section.x(i) > passed) continue;
    section.height[i] = -face.removed - plain.removal;
    section.coating[i] = plain.coating;
  }
}

const Eigen::VectorXd& EdgePass::press(const Section& section, double interference, double axis) {
  lay_overlap(section, interference, axis);
  pressure_.setZero();
  std::visit([&]<class Law>(const Law&) { solve_step<Law>(section, 0.0); }, abrasion_.substrate);
  return pressure_;
}

}  // namespace drumlin::sim::fast
