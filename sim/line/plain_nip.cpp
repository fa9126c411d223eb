#include "sim/line/plain_nip.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/line/passage.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::sim::line {
namespace {

/// A six-hundredth of the patch, and a quarter of the length over which belt and grains spread a
/// sharp load, (D c_g)^(1/4).
double nip_spacing(const BeltSetup& station, double half_span) {
  double spacing = half_span / 600.0;
  const double spread =
      std::pow(station.belt.bending_stiffness * station.belt.grain_compliance, 0.25);
  if (spread > 0.0) spacing = std::min(spacing, 0.25 * spread);
  return std::max(spacing, half_span / 3000.0);
}

/// Where the pressure ends. Towards a smooth end p^2 falls linearly; a belt's bending ends in a
/// peak instead, and there half a cell is all that can be said.
double pressed_half_width(std::span<const double> p, double spacing) {
  const std::size_t middle = p.size() / 2;
  std::size_t last = middle;
  while (last + 1 < p.size() && p[last + 1] > 0.0)
    ++last;
  if (p[last] <= 0.0) return 0.0;
  double beyond = 0.5;
  if (last > middle && p[last - 1] > p[last]) {
    const double here = p[last] * p[last];
    const double before = p[last - 1] * p[last - 1];
    beyond = std::min(here / (before - here), 1.0);
  }
  return (static_cast<double>(last - middle) + beyond) * spacing;
}

}  // namespace

double least_window(const BeltSetup& station) {
  return std::max(160.0, 11.0 * station.cover.thickness);
}

double response_window(const BeltSetup& station, const cases::Numerics& numerics) {
  const double usual = std::max(320.0, 20.0 * station.cover.thickness);
  return std::max(numerics.window.value_or(usual), least_window(station));
}

double patch_half_span(const BeltSetup& station, double interference, double window) {
  // Beside an opening the belt may touch as far out as drum and face would overlap.
  const double geometric = std::sqrt(2.0 * station.radius * interference);
  double half_span = 1.3 * geometric + 1.0;
  for (;;) {
    Passage passage(station, half_span / 300.0, half_span, window);
    try {
      const StepView view = passage.press(interference);
      const double half_width = pressed_half_width(view.pressure, half_span / 300.0);
      if (half_width < 0.85 * half_span) return std::max(half_width / 0.85, 1.05 * geometric) + 0.5;
    } catch (const PatchOutgrown&) {
      if (half_span > station.radius) throw;
    }
    half_span *= 1.4;
  }
}

StaticNip static_nip(const BeltSetup& station, double interference, double window) {
  if (interference <= 0.0) return {};
  const double half_span = patch_half_span(station, interference, window);
  const double spacing = nip_spacing(station, half_span);
  Passage passage(station, spacing, half_span, window);
  const StepView view = passage.press(interference);
  StaticNip nip;
  nip.line_load = view.line_load;
  nip.half_width = pressed_half_width(view.pressure, spacing);
  nip.peak_pressure = *std::max_element(view.pressure.begin(), view.pressure.end());
  nip.line_load_slope = passage.line_load_slope();
  return nip;
}

PlainPass plain_pass(const BeltSetup& station, const PlainFace& face, double interference,
                     double window, int steps) {
  PlainPass pass{.working_line_load = 0, .removal = 0, .coating = face.coating};
  if (interference <= 0.0) return pass;
  const double half_span = patch_half_span(station, interference, window);
  const double spacing = std::max(nip_spacing(station, half_span), half_span / 400.0);
  Passage passage(station, spacing, half_span, window);
  const std::size_t half = passage.half_cells();
  const auto strides = static_cast<std::size_t>(std::max(steps / 5, 10));
  // Five half patches: two for landing on the unworn face, two to pass every column that is read
  // with a steady nip, one that the nip still stands on.
  Strip strip;
  strip.spacing = spacing;
  strip.height.assign(7 * half + 1, 0.0);
  strip.burr.assign(strip.size(), 0.0);
  strip.coating.assign(strip.size(), face.coating);
  strip.metal.assign(strip.size(), 1);
  const Course course{.interference = interference,
                      .from = strip.size() - 1 - half,
                      .to = half,
                      .stride = std::max<std::size_t>(1, half / strides)};
  passage.run(strip, course,
              [&](const StepView& view) { pass.working_line_load = view.line_load; });
  // Between the trail of the landing and the nip as it stands at the end; over whole strides, so
  // that where a column stood in its stride does not show.
  const std::size_t from = 2 * half + 1;
  const std::size_t count = course.stride * std::max<std::size_t>(1, half / course.stride);
  // Running means: exact where every column has lost the same.
  pass.coating = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    const auto seen = static_cast<double>(i + 1);
    pass.removal += (-strip.height[from + i] - pass.removal) / seen;
    pass.coating += (strip.coating[from + i] - pass.coating) / seen;
  }
  return pass;
}

double interference_for(const BeltSetup& station, const PlainFace& face, double working_line_load,
                        double window, int steps) {
  if (working_line_load <= 0.0) return 0.0;
  const double deepest = station.cover.thickness;
  const auto too_much = [&] {
    return NumericsError(fmt::format(
        "{}: no interference up to the cover's {:.4g} mm works at {:.4g} N/mm; ask for less, or "
        "take a harder or thinner cover",
        station.description, deepest, working_line_load));
  };
  // The load is close to a power of the interference (1.1 on a half-space to 2.5 on a thin
  // incompressible cover), so a secant in logarithms settles in a few passes.
  double interference = 0.02 * deepest;
  double exponent = 1.4;
  double last_interference = 0.0;
  double last_load = 0.0;
  for (int k = 0; k < 30; ++k) {
    const double load = plain_pass(station, face, interference, window, steps).working_line_load;
    if (std::abs(load / working_line_load - 1.0) <= 1e-4) return interference;
    if (load < working_line_load && interference >= deepest) throw too_much();
    if (k > 0 && load != last_load) {
      exponent = std::log(load / last_load) / std::log(interference / last_interference);
      exponent = std::clamp(exponent, 0.7, 4.0);
    }
    last_interference = interference;
    last_load = load;
    interference *= std::pow(working_line_load / load, 1.0 / exponent);
    interference = std::min(interference, deepest);
  }
  throw NumericsError(fmt::format("{}: the interference for {:.4g} N/mm was not found in 30 tries",
                                  station.description, working_line_load));
}

}  // namespace drumlin::sim::line
