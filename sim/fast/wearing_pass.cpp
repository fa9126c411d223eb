#include "sim/fast/wearing_pass.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include "models/removal/layered.hpp"

namespace drumlin::sim::fast {
namespace {

/// Second order of the relief: seen against the line model, less the faster the load grows with
/// interference (exponent m).
double second_order(double exponent) {
  return std::clamp(1.25 - 0.9 * (exponent - 1.1), 0.4, 1.25);
}

/// Layers on the face [mm].
struct Layers {
  double coating = 0;
  double top = 0;
};

/// What a nip of a given shape takes off a column that goes through it.
struct Passage {
  double removal = 0;
  double relief = 0;
};

template <class Law>
Passage pass_through(const NipShape& shape, double scale, const Abrasion& abrasion, Layers layers,
                     WearingPass* trace) {
  const Law& base = std::get<Law>(abrasion.substrate);
  const Law& coating = std::get<Law>(abrasion.coating);
  const Law& top = std::get<Law>(abrasion.top);
  models::LayeredColumn<Law, 2> column{.left = {layers.top, layers.coating},
                                       .law = {&top, &coating, &base}};
  const Eigen::Index n = shape.pressure.size();
  Passage passage;
  double weight = 0.0;
  for (Eigen::Index step = 0; step < 2 * n; ++step) {
    const Eigen::Index i = step < n ? n - 1 - step : step - n;
    const double width = shape.edge(i + 1) - shape.edge(i);
    const double pressure = std::max(scale * shape.pressure(i), 0.0);
    const double depth = column.removal(pressure, width * abrasion.path_per_feed).depth;
    column.take(depth);
    if (trace != nullptr) {
      trace->place.push_back(step < n ? -shape.edge(i + 1) : shape.edge(i));
      trace->depth.push_back(passage.removal);
    }
    passage.relief += width * shape.stiffness(i) * (passage.removal + 0.5 * depth);
    weight += width * shape.stiffness(i);
    passage.removal += depth;
  }
  if (weight > 0.0) passage.relief /= weight;
  if (trace != nullptr) {
    trace->place.push_back(n > 0 ? shape.edge(n) : 0.0);
    trace->depth.push_back(passage.removal);
    trace->removal = passage.removal;
    trace->coating = column.left[1];
    trace->top = column.left[0];
    trace->relief = passage.relief;
  }
  return passage;
}

Passage pass_through(const NipShape& shape, double scale, const Abrasion& abrasion, Layers layers,
                     WearingPass* trace = nullptr) {
  return std::visit(
      [&]<class Law>(const Law&) {
        return pass_through<Law>(shape, scale, abrasion, layers, trace);
      },
      abrasion.substrate);
}

/// 1 / (1 + c (r / delta)^2) for a nip that works at an interference less by a relief.
double factor(const DrumLaw& law, double worked_at, double relief) {
  const double exponent = law.line_load_slope(worked_at) * worked_at / law.line_load(worked_at);
  const double share = relief / (worked_at + relief);
  return 1.0 / (1.0 + second_order(exponent) * share * share);
}

/// Relief of a nip as unworn as at `worked_at`; the factor on its pressure comes back in `scale`.
double relief_at(const DrumLaw& law, const Abrasion& abrasion, Layers layers, double worked_at,
                 double& scale, WearingPass* trace = nullptr) {
  const NipShape shape = law.shape(worked_at);
  scale = 1.0;
  double relief = pass_through(shape, scale, abrasion, layers).relief;
  // The factor changes the relief, which moves the factor a little: twice is enough for 1e-4.
  for (int k = 0; k < 2; ++k) {
    scale = factor(law, worked_at, relief);
    relief = pass_through(shape, scale, abrasion, layers).relief;
  }
  if (trace != nullptr) pass_through(shape, scale, abrasion, layers, trace);
  return relief;
}

}  // namespace

WearingPass wearing_pass(const DrumLaw& law, const Abrasion& abrasion, double coating,
                         double interference, double top) {
  const Layers layers{.coating = coating, .top = top};
  WearingPass pass;
  pass.coating = coating;
  pass.top = top;
  if (interference <= 0.0) return pass;
  // worked_at + relief(worked_at) = interference: both grow together, so a secant in a bracket.
  double scale = 1.0;
  double low = 0.0;
  double high = interference;
  double worked_at = interference;
  double excess = relief_at(law, abrasion, layers, worked_at, scale);
  double last = worked_at;
  double last_excess = excess;
  worked_at = interference * interference / (interference + excess);
  for (int step = 0; step < 30; ++step) {
    excess = worked_at + relief_at(law, abrasion, layers, worked_at, scale) - interference;
    if (std::abs(excess) < 1e-5 * interference) break;
    (excess > 0.0 ? high : low) = worked_at;
    const double slope = (excess - last_excess) / (worked_at - last);
    last = worked_at;
    last_excess = excess;
    worked_at -= excess / slope;
    if (!(worked_at > low && worked_at < high)) worked_at = 0.5 * (low + high);
  }
  relief_at(law, abrasion, layers, worked_at, scale, &pass);
  pass.working_line_load = scale * law.line_load(worked_at);
  return pass;
}

double interference_for(const DrumLaw& law, const Abrasion& abrasion, double coating,
                        double working_line_load, double top) {
  const Layers layers{.coating = coating, .top = top};
  if (working_line_load <= 0.0) return 0.0;
  double scale = 1.0;
  double worked_at = law.interference(working_line_load);
  double relief = relief_at(law, abrasion, layers, worked_at, scale);
  for (int step = 0; step < 30; ++step) {
    const double next = law.interference(working_line_load / scale);
    const double move = next / worked_at - 1.0;
    worked_at = next;
    relief = relief_at(law, abrasion, layers, worked_at, scale);
    if (std::abs(move) < 1e-7) break;
  }
  return worked_at + relief;
}

}  // namespace drumlin::sim::fast
