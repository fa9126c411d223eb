#include "sim/fast/step_contact.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include <fmt/format.h>

#include "models/removal/layered.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::sim::fast {
namespace {

/// Gap error that counts as solved, over the interference: of a step, and of pressing alone.
constexpr double gap_error = 1e-4;
constexpr double press_error = 1e-6;
constexpr double hardly_pressed = 1e-12;  // [MPa]
constexpr int most_newton_steps = 160;
/// From there on each Newton step is taken by half only: a removal law with a kink may swing.
constexpr int free_newton_steps = 15;
/// From there on slopes are the steeper of tangent and secant: the tangent of a law that saturates
/// points far beyond where its curve bends, and steps by half may swing about the bend for ever.
constexpr int tangent_steps = 60;

template <models::RemovalLaw Law>
Law eased(Law law, double ease) {
  law.coefficient *= ease;
  return law;
}

template <class Law>
models::LayeredColumn<Law, 3> column(const Section& section, std::size_t cell,
                                     const Abrasion& abrasion, const Law& burr) {
  return {.left = {section.burr[cell], section.top[cell], section.coating[cell]},
          .law = {&burr, &std::get<Law>(abrasion.top), &std::get<Law>(abrasion.coating),
                  &std::get<Law>(abrasion.substrate)}};
}

}  // namespace

StepContact::StepContact(const Eigen::MatrixXd& pairs, const DrumLaw& law, const Abrasion& abrasion,
                         const Section& section)
    : law_(law),
      abrasion_(abrasion),
      matrix_(pairs),
      active_(matrix_, law.symmetric()),
      ease_(section.size(), 1.0),
      layered_(section.size(), 0),
      count_(static_cast<Eigen::Index>(section.size())) {
  width_.resize(count_);
  for (Eigen::Index i = 0; i < count_; ++i)
    width_(i) = section.width(static_cast<std::size_t>(i));
  one_over_width_ = width_.cwiseInverse();
  for (auto* list :
       {&pressure_, &last_pressure_, &overlap_, &residual_, &diagonal_, &rhs_, &depth_, &slope_})
    *list = Eigen::VectorXd::Zero(count_);
  sunk_ = Eigen::VectorXd::Zero(matrix_.rows());
  for (const SectionRim& rim : section.rims) {
    const double ease = models::ease_of(rim.burr, abrasion.specific_energy);
    for (std::size_t i = 0; i < rim.reach; ++i)
      ease_[Section::inwards(rim, i)] = ease;
  }
}

void StepContact::clear(const Section& section, double interference) {
  pressure_.setZero();
  last_pressure_.setZero();
  active_.clear();
  first_ = end_ = 0;
  const double tallest = *std::max_element(section.height.begin(), section.height.end());
  span_ =
      std::max(1.05 * std::sqrt(4.0 * law_.drum().radius * std::max(interference + tallest, 0.0)),
               1.3 * law_.half_width(interference));
}

/// Undeformed, the drum may be off by as much as it is set in: a cover that keeps its volume rises
/// beside the nip by less than that.
void StepContact::find_candidates(const Section& section, double axis) {
  first_ = std::min(first_, count_);
  while (first_ > 0 && section.to[static_cast<std::size_t>(first_ - 1)] > axis - span_)
    --first_;
  while (first_ < count_ && section.to[static_cast<std::size_t>(first_)] <= axis - span_ &&
         !active_.holds(first_))
    ++first_;
  end_ = std::max(end_, first_);
  while (end_ < count_ && section.from[static_cast<std::size_t>(end_)] < axis + span_)
    ++end_;
  while (end_ > first_ && section.from[static_cast<std::size_t>(end_ - 1)] >= axis + span_ &&
         !active_.holds(end_ - 1))
    --end_;
}

void StepContact::place(const Section& section, double interference, double axis) {
  find_candidates(section, axis);
  const DrumFace drum = law_.drum();
  double before = 0.0;
  double before_at = axis + 1e9;
  for (Eigen::Index k = first_; k < end_; ++k) {
    const auto i = static_cast<std::size_t>(k);
    if (section.from[i] != before_at) before = gap_integral(drum, section.from[i] - axis);
    const double after = gap_integral(drum, section.to[i] - axis);
    overlap_(k) = interference + section.height[i] - (after - before) * one_over_width_(k);
    before = after;
    before_at = section.to[i];
    layered_[i] = section.burr[i] + section.top[i] + section.coating[i] > 0.0 ? 1 : 0;
  }
}

/// Pressures go on as they went over the last step, which tells what starts and stops to carry.
void StepContact::guess(double growth) {
  for (const Eigen::Index i : active_.cells()) {
    const double p = pressure_(i);
    pressure_(i) = std::max(p + growth * (p - last_pressure_(i)), 0.0);
    last_pressure_(i) = p;
  }
}

template <class Law>
double StepContact::assess(const Section& section, double path, bool steep) {
  const Eigen::Index from = first_ / row_group * row_group;
  sunk_.segment(from, padded(end_) - from).setZero();
  const auto& cells = active_.cells();
  for (std::size_t s = 0; s < cells.size(); ++s)
    rhs_(static_cast<Eigen::Index>(s)) = pressure_(cells[s]);
  add_columns(matrix_, cells.data(), rhs_.data(), static_cast<Eigen::Index>(cells.size()),
              sunk_.data(), from, padded(end_));
  const Law& base = std::get<Law>(abrasion_.substrate);
  const double grains = law_.drum().grain_compliance;
  const double* sunk = sunk_.data();
  const double* pressure = pressure_.data();
  double* residual = residual_.data();
  double worst = 0.0;
  for (Eigen::Index i = first_; i < end_; ++i) {
    double p = pressure[i];
    const double gap = sunk[i] * one_over_width_[i] - overlap_[i];
    if (p <= 0.0 && gap >= 0.0) {
      residual[i] = gap;
      depth_[i] = slope_[i] = last_pressure_[i] = 0.0;
      continue;
    }
    // A cell that starts to carry is about to wear: slopes are those of more pressure, not of less.
    p = std::max(p, hardly_pressed);
    const auto cell = static_cast<std::size_t>(i);
    double depth = path * base.per_path(p);
    double slope = path * base.slope(p);
    if (layered_[cell] != 0 && path > 0.0) {
      const Law burr = eased(base, ease_[cell]);
      const auto taken = column(section, cell, abrasion_, burr).removal(p, path);
      depth = taken.depth;
      slope = taken.slope;
    }
    depth_[i] = depth;
    slope_[i] = slope;
    residual[i] = gap + grains * p + depth;
    diagonal_[i] = width_[i] * (grains + (steep ? std::max(slope, depth / p) : slope));
    worst = std::max(worst, std::abs(residual[i]));
  }
  return worst;
}

void StepContact::update_active() {
  for (std::size_t s = active_.cells().size(); s-- > 0;) {
    const Eigen::Index i = active_.cells()[s];
    if (pressure_(i) <= 0.0 && residual_(i) >= 0.0) active_.remove(i);
  }
  active_.set_diagonals(diagonal_);
  for (Eigen::Index i = first_; i < end_; ++i) {
    if (residual_(i) < 0.0 && !active_.holds(i)) active_.add(i, diagonal_(i));
  }
}

void StepContact::newton_step(double share) {
  const auto& cells = active_.cells();
  for (std::size_t s = 0; s < cells.size(); ++s)
    rhs_(static_cast<Eigen::Index>(s)) = -width_(cells[s]) * residual_(cells[s]);
  const Eigen::VectorXd& step = active_.solve(rhs_);
  for (std::size_t s = 0; s < cells.size(); ++s) {
    double& p = pressure_(cells[s]);
    p = std::max(p + share * step(static_cast<Eigen::Index>(s)), 0.0);
  }
  ++newton_steps_;
}

template <class Law>
void StepContact::solve_with(const Section& section, double path) {
  depth_.setZero();
  slope_.setZero();
  const double deepest = end_ > first_ ? overlap_.segment(first_, end_ - first_).maxCoeff() : 0.0;
  const double tolerance = (path > 0.0 ? gap_error : press_error) * std::max(deepest, 1e-2);
  for (int round = 0; round < most_newton_steps; ++round) {
    if (assess<Law>(section, path, round >= tangent_steps) <= tolerance) return;
    update_active();
    newton_step(round < free_newton_steps ? 1.0 : 0.5);
  }
  throw NumericsError(
      fmt::format("{}: a step of the fast model did not settle after {} Newton "
                  "steps; use the line model",
                  section.name, most_newton_steps));
}

void StepContact::solve(const Section& section, double path) {
  std::visit([&]<class Law>(const Law&) { solve_with<Law>(section, path); }, abrasion_.substrate);
}

/// Backward Euler takes the pressure at the step's end for all of it: it is wrong by half of what
/// the pressure's change takes off [mm].
double StepContact::change() const {
  double worst = 0.0;
  for (Eigen::Index i = first_; i < end_; ++i)
    worst = std::max(worst, 0.5 * std::abs(pressure_(i) - last_pressure_(i)) * slope_(i));
  return worst;
}

void StepContact::settle() {
  last_pressure_ = pressure_;
}

}  // namespace drumlin::sim::fast
