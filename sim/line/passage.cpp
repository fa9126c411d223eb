#include "sim/line/passage.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "sim/line/wear_layers.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::sim::line {
namespace {

/// Beside an edge pressure stays with the part from step to step, elsewhere with the drum [mm].
constexpr double edge_reach = 1.0;

/// Value at a place on evenly spaced points; the end values go on beyond them.
double interpolated(std::span<const double> at, std::span<const double> value, double x) {
  const double place = (x - at.front()) / (at[1] - at[0]);
  if (place <= 0.0) return value.front();
  const auto k = static_cast<std::size_t>(place);
  if (k + 1 >= value.size()) return value.back();
  const double share = place - static_cast<double>(k);
  return value[k] + share * (value[k + 1] - value[k]);
}

using AnyPatch = std::variant<Tilted<LineCompliance>, Tilted<MeshCompliance>>;

AnyPatch patch_of(const Drum& drum, const Strip& strip, double half_span, double window) {
  Tilt tilt = drum.tilt(half_span + 4.0 * strip.width(0), window);
  if (strip.cells.even()) {
    const auto half = static_cast<std::size_t>(std::ceil(half_span / strip.cells.unit));
    return Tilted(LineCompliance(drum.compliance(), strip.cells.unit, 2 * half + 1, window),
                  std::move(tilt));
  }
  // A cell at either end of the patch may reach out of it.
  const double reach = 2.0 * half_span + 4.0 * strip.width(0);
  return Tilted(MeshCompliance(drum.belt_and_cover(), drum.grain_compliance(), strip.cells, reach,
                               drum.long_waves(window, reach + 2.0 * strip.width(0)),
                               drum.bending_stiffness()),
                std::move(tilt));
}

}  // namespace

ContactTolerance contact_tolerance(double deepest) {
  return {.gap = std::max(1e-6 * deepest, 1e-7)};
}

Passage::Passage(const Drum& drum, const Strip& strip, double half_span, double window)
    : drum_(drum),
      half_span_(half_span),
      compliance_(patch_of(drum, strip, half_span, window)),
      last_pressure_(strip.size(), 0.0),
      stays_(strip.size(), 0),
      owner_(burr_owners(strip)) {
  for (std::size_t i = 0; i < strip.size(); ++i) {
    for (const auto& edge : strip.edges) {
      if (std::abs(strip.x(i) - strip.line(edge)) < edge_reach) stays_[i] = 1;
    }
  }
}

void Passage::place(Tilted<LineCompliance>& compliance, const Strip& strip, int axis) {
  count_ = compliance.size();
  first_ = strip.cells.cell_of(axis) - count_ / 2;
}

void Passage::place(Tilted<MeshCompliance>& compliance, const Strip& strip, int axis) {
  const auto half = static_cast<int>(std::ceil(half_span_ / strip.cells.unit));
  first_ = strip.cells.cell_of(axis - half);
  count_ = strip.cells.cell_of(axis + half) + 1 - first_;
  compliance.use(first_, count_);
}

template <class C, class Give>
void Passage::solve_step(C& compliance, const Give& give, std::span<const std::uint8_t> metal,
                         int step) {
  const double deepest = *std::max_element(overlap_.begin(), overlap_.end());
  report_ = solver_.solve(compliance, overlap_, metal, give, pressure_, contact_tolerance(deepest));
  if (!report_.converged || !std::isfinite(report_.residual)) {
    throw NumericsError(
        fmt::format("{}: contact did not converge at step {}: gap error {:.3g} mm after {} Newton "
                    "steps and {} applications; try a smaller interference, a slower belt, more "
                    "steps or a coarser resolution",
                    drum_.station().description, step, report_.residual, report_.newton_steps,
                    report_.applications));
  }
  if (pressure_.front() > 0.0 || pressure_.back() > 0.0) {
    throw PatchOutgrown(fmt::format(
        "{}: at step {} the contact grew wider than its patch of {:.4g} mm; give the drum a "
        "smaller interference",
        drum_.station().description, step, 2.0 * half_span_));
  }
}

void Passage::lay_belt(const Strip& strip, double interference, double axis) {
  const auto sunk = solver_.displacement();
  belt_.resize(count_);
  for (std::size_t i = 0; i < count_; ++i)
    belt_[i] = drum_.rise(strip.x(first_ + i) - axis) - interference + sunk[i];
}

void Passage::guess(const Strip& strip, double travel) {
  pressure_.resize(count_);
  std::size_t from = first_;
  for (std::size_t i = 0; i < count_; ++i) {
    const std::size_t cell = first_ + i;
    if (stays_[cell] != 0) {
      pressure_[i] = last_pressure_[cell];
      continue;
    }
    const double before = strip.x(cell) + travel;
    while (from + 1 < strip.size() && strip.x(from + 1) <= before)
      ++from;
    if (from + 1 >= strip.size()) {
      pressure_[i] = 0.0;
      continue;
    }
    const double share =
        std::clamp((before - strip.x(from)) / (strip.x(from + 1) - strip.x(from)), 0.0, 1.0);
    pressure_[i] = last_pressure_[from] + share * (last_pressure_[from + 1] - last_pressure_[from]);
  }
}

void Passage::save() {
  std::fill(last_pressure_.begin(), last_pressure_.end(), 0.0);
  std::copy(pressure_.begin(), pressure_.end(),
            last_pressure_.begin() + static_cast<std::ptrdiff_t>(first_));
}

template <class Law>
void Passage::land(Strip& strip, const Course& course) {
  std::fill(last_pressure_.begin(), last_pressure_.end(), 0.0);
  if (course.landing == nullptr) return;
  const WearLayers<Law> layers(drum_.station(), strip, owner_);
  const SteadyNip& nip = *course.landing;
  const double axis = strip.origin + strip.cells.unit * (course.from + 0.5);
  for (std::size_t i = 0; i < strip.size(); ++i) {
    const double offset = strip.x(i) - axis;
    if (strip.metal[i] == 0 || offset < nip.offset.front()) continue;
    layers.wear(strip, i, interpolated(nip.offset, nip.removed, offset));
    if (offset <= nip.offset.back())
      last_pressure_[i] = interpolated(nip.offset, nip.pressure, offset);
  }
}

template <class Law, class C>
void Passage::run_with(C& compliance, Strip& strip, const Course& course, const OnStep& on_step) {
  const WearLayers<Law> layers(drum_.station(), strip, owner_);
  std::vector<Hinge> hinges;
  for (std::size_t e = 0; e < strip.edges.size(); ++e)
    hinges.emplace_back(drum_.station(), strip, e);
  const double ratio = drum_.station().sliding_speed / drum_.station().feed;
  const double unit = strip.cells.unit;
  land<Law>(strip, course);
  int step = 0;
  int stride = course.longest;
  // With a nip to start from, the first place is where that nip stands.
  int axis = course.landing != nullptr ? course.from - stride : course.from;
  for (;;) {
    const double at = strip.origin + unit * (axis + 0.5);
    const double path = ratio * stride * unit;
    place(compliance, strip, axis);
    compliance.tilt().place(
        count_, [&](std::size_t i) { return strip.x(first_ + i) - at; },
        [&](std::size_t i) { return strip.width(first_ + i); });
    guess(strip, stride * unit);
    const auto give = [&](std::size_t i, double p) {
      const auto taken = layers.column(strip, first_ + i).removal(p, path);
      return LocalGive{taken.depth, taken.slope};
    };
    const auto solve = [&] {
      overlap_.resize(count_);
      for (std::size_t i = 0; i < count_; ++i) {
        overlap_[i] =
            course.interference - drum_.rise(strip.x(first_ + i) - at) + strip.height[first_ + i];
      }
      solve_step(compliance, give, {strip.metal.data() + first_, count_}, step);
    };
    solve();
    depth_.resize(count_);
    // Error of the step over the error allowed: backward Euler takes the pressure at the step's end
    // for all of it, so it is wrong by half of what the pressure's change takes off.
    double error = 0.0;
    for (std::size_t i = 0; i < count_; ++i) {
      const std::size_t cell = first_ + i;
      depth_[i] = 0.0;
      if (strip.metal[cell] == 0) continue;
      const double change = 0.5 * std::abs(pressure_[i] - last_pressure_[cell]);
      const auto taken = layers.column(strip, cell).removal(pressure_[i], path);
      depth_[i] = taken.depth;
      const double allowed = strip.burr[cell] > 0.0 ? course.burr_error : course.face_error;
      if (allowed > 0.0) error = std::max(error, change * taken.slope / allowed);
    }
    if (error > 2.0 && stride > course.stride) {
      axis += stride;
      stride = std::max(course.stride, stride / 2);
      axis -= stride;
      continue;
    }
    if (yield(strip, hinges, solve)) {
      for (std::size_t i = 0; i < count_; ++i) {
        const std::size_t cell = first_ + i;
        depth_[i] = strip.metal[cell] != 0
                        ? layers.column(strip, cell).removal(pressure_[i], path).depth
                        : 0.0;
      }
    }
    const double edge_pressure = note_peaks(strip, first_, pressure_);
    for (std::size_t i = 0; i < count_; ++i) {
      if (depth_[i] > 0.0) layers.wear(strip, first_ + i, depth_[i]);
    }
    save();
    for (Hinge& hinge : hinges)
      hinge.clean_up();
    if (on_step) {
      lay_belt(strip, course.interference, at);
      double load = 0.0;
      for (std::size_t i = 0; i < count_; ++i)
        load += pressure_[i] * strip.width(first_ + i);
      on_step({step, at, first_, load, edge_pressure, pressure_, belt_, report_});
    }
    if (axis <= course.to) break;
    const double grow = error > 0.0 ? std::clamp(0.9 / std::sqrt(error), 0.3, 1.5) : 1.5;
    stride = std::clamp(static_cast<int>(grow * stride), course.stride, course.longest);
    stride = std::min(stride, axis - course.to);
    axis -= stride;
    ++step;
  }
}

void Passage::run(Strip& strip, const Course& course, const OnStep& on_step) {
  std::visit([&]<class Law, class C>(
                 const Law&, C& compliance) { run_with<Law>(compliance, strip, course, on_step); },
             drum_.station().substrate.law, compliance_);
}

}  // namespace drumlin::sim::line
