#include "sim/line/passage.hpp"

#include <cmath>
#include <numeric>
#include <variant>

#include <fmt/format.h>

#include "models/removal/layered.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::sim::line {
namespace {

std::size_t cells(double length, double spacing) {
  return static_cast<std::size_t>(std::ceil(length / spacing));
}

/// Gap error that counts as solved: a millionth of the interference, a tenth of a nanometre at
/// least. Removal per step is of the order of 1e-4 mm, so this leaves it good to a thousandth.
ContactTolerance tolerance(double interference) {
  return {.gap = std::max(1e-6 * interference, 1e-7)};
}

/// Beside an edge pressure stays with the part from step to step, elsewhere with the drum [mm].
constexpr double edge_reach = 1.0;

template <class Law>
models::LayeredColumn<Law, 2> column(const Strip& strip, std::size_t cell, const Law& base,
                                     const Law& coating) {
  return {.left = {strip.burr[cell], strip.coating[cell]}, .law = {&base, &coating, &base}};
}

}  // namespace

Passage::Passage(const BeltSetup& station, double spacing, double half_span, double window)
    : station_(station),
      spacing_(spacing),
      half_cells_(cells(half_span, spacing)),
      compliance_(
          [&station](double q) {
            return models::combined_compliance(station.belt, q,
                                               models::surface_compliance(station.cover, q));
          },
          spacing, 2 * half_cells_ + 1, window),
      pressure_(2 * half_cells_ + 1, 0.0),
      overlap_(pressure_.size()),
      belt_(pressure_.size()) {}

double Passage::offset(std::size_t patch_cell) const noexcept {
  return (static_cast<double>(patch_cell) - static_cast<double>(half_cells_)) * spacing_;
}

template <class Give>
void Passage::solve_step(const Give& give, std::span<const std::uint8_t> metal, int step) {
  const double deepest = *std::max_element(overlap_.begin(), overlap_.end());
  report_ = solver_.solve(compliance_, overlap_, metal, give, pressure_, tolerance(deepest));
  if (!report_.converged || !std::isfinite(report_.residual)) {
    throw NumericsError(fmt::format(
        "{}: contact did not converge at step {}: gap error {:.3g} mm after {} Newton "
        "steps and {} applications; try a smaller interference, more steps or a "
        "coarser resolution",
        station_.description, step, report_.residual, report_.newton_steps, report_.applications));
  }
  if (pressure_.front() > 0.0 || pressure_.back() > 0.0) {
    throw PatchOutgrown(fmt::format(
        "{}: at step {} the contact grew wider than its patch of {:.4g} mm; give the drum a "
        "smaller interference",
        station_.description, step, 2.0 * static_cast<double>(half_cells_) * spacing_));
  }
}

void Passage::lay_belt(double interference) {
  const auto sunk = solver_.displacement();
  for (std::size_t i = 0; i < belt_.size(); ++i) {
    const double x = offset(i);
    belt_[i] = x * x / (2.0 * station_.radius) - interference + sunk[i];
  }
}

void Passage::follow_edges(const Strip& strip, std::size_t first, std::size_t stride) {
  const auto reach = static_cast<std::size_t>(edge_reach / spacing_);
  guess_ = pressure_;
  for (const auto& edge : strip.edges) {
    for (std::size_t k = 0; k < reach; ++k) {
      const std::size_t cell = edge.metal > 0 ? edge.cell + k : edge.cell - k;
      if (cell < first + stride || cell >= first + pressure_.size()) continue;
      guess_[cell - first] = pressure_[cell - first - stride];
    }
  }
  pressure_.swap(guess_);
}

template <class Law>
void Passage::run_with(Strip& strip, const Course& course, const OnStep& on_step) {
  const Law& base = std::get<Law>(station_.substrate.law);
  const Law& coating = std::get<Law>(station_.coating.law);
  const double path =
      station_.sliding_speed / station_.feed * static_cast<double>(course.stride) * spacing_;
  std::fill(pressure_.begin(), pressure_.end(), 0.0);
  int step = 0;
  for (std::size_t axis = course.from;; axis -= course.stride, ++step) {
    const std::size_t first = axis - half_cells_;
    if (step > 0) follow_edges(strip, first, course.stride);
    for (std::size_t i = 0; i < overlap_.size(); ++i) {
      const double x = offset(i);
      overlap_[i] = course.interference - x * x / (2.0 * station_.radius) + strip.height[first + i];
    }
    const auto give = [&](std::size_t i, double p) {
      const auto taken = column(strip, first + i, base, coating).removal(p, path);
      return LocalGive{taken.depth, taken.slope};
    };
    const std::span metal(strip.metal.data() + first, overlap_.size());
    solve_step(give, metal, step);
    for (std::size_t i = 0; i < overlap_.size(); ++i) {
      if (pressure_[i] <= 0.0) continue;
      auto stack = column(strip, first + i, base, coating);
      const double depth = stack.removal(pressure_[i], path).depth;
      stack.take(depth);
      strip.height[first + i] -= depth;
      strip.burr[first + i] = stack.left[0];
      strip.coating[first + i] = stack.left[1];
    }
    if (on_step) {
      lay_belt(course.interference);
      const double load = std::accumulate(pressure_.begin(), pressure_.end(), 0.0) * spacing_;
      on_step({step, axis, first, load, pressure_, belt_, report_});
    }
    if (axis < course.to + course.stride) break;
  }
}

void Passage::run(Strip& strip, const Course& course, const OnStep& on_step) {
  std::visit([&]<class Law>(const Law&) { run_with<Law>(strip, course, on_step); },
             station_.substrate.law);
}

StepView Passage::press(double interference) {
  const std::vector<std::uint8_t> metal(overlap_.size(), 1);
  for (std::size_t i = 0; i < overlap_.size(); ++i) {
    const double x = offset(i);
    overlap_[i] = interference - x * x / (2.0 * station_.radius);
  }
  solve_step([](std::size_t, double) { return LocalGive{0.0, 0.0}; }, metal, 0);
  lay_belt(interference);
  const double load = std::accumulate(pressure_.begin(), pressure_.end(), 0.0) * spacing_;
  return {0, half_cells_, 0, load, pressure_, belt_, report_};
}

double Passage::line_load_slope() {
  // With the pressed cells held, the load is linear in the interference; how the pressed zone
  // grows is of second order, since pressure and gap both vanish at its ends.
  std::vector<std::uint8_t> pressed(pressure_.size());
  std::transform(pressure_.begin(), pressure_.end(), pressed.begin(),
                 [](double p) { return static_cast<std::uint8_t>(p > 0.0 ? 1 : 0); });
  const std::vector<double> rigid(pressure_.size(), -1.0);
  const std::vector<double> slope(pressure_.size(), 0.0);
  std::vector<double> answer(pressure_.size());
  ConjugateGradients inner;
  inner.solve(compliance_, pressed, slope, rigid, answer, 1e-6, 400);
  return std::accumulate(answer.begin(), answer.end(), 0.0) * spacing_;
}

}  // namespace drumlin::sim::line
