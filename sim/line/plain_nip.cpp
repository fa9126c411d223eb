#include "sim/line/plain_nip.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <utility>

#include <boost/math/tools/toms748_solve.hpp>
#include <fmt/format.h>

#include "sim/line/plain_row.hpp"
#include "sim/numerics/error.hpp"
#include "sim/numerics/fft.hpp"

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

/// The next finer spacing that divides a period into a good number of cells for transforms.
double fitting(double spacing, double window) {
  const auto wanted = static_cast<std::size_t>(std::ceil(window / spacing - 1e-9));
  return window / static_cast<double>(RealFft::good_length(wanted));
}

/// How well the line load of a marched nip repeats [-].
constexpr double marched_load_error = 3e-3;

/// The nip on a coarse row, and the half patch that holds it.
struct FirstLook {
  PlainRow nip;
  double half_span;
};
FirstLook first_look(const Drum& drum, double interference, double window) {
  // Beside an opening the belt may touch as far out as drum and face would overlap.
  const double geometric = std::sqrt(2.0 * drum.station().radius * interference);
  double half_span = 1.3 * geometric + 1.0;
  for (;;) {
    PlainRow nip(drum, fitting(half_span / 100.0, window), half_span, window);
    try {
      nip.press(interference);
      const auto [from, to] = nip.pressed();
      const double half_width = std::max(-from, to);
      if (half_width < 0.85 * half_span)
        return {std::move(nip), std::max(half_width / 0.85, 1.05 * geometric) + 0.5};
    } catch (const PatchOutgrown&) {
      if (half_span > drum.station().radius) throw;
    }
    half_span *= 1.4;
  }
}

}  // namespace

double least_window(const BeltSetup& station) {
  return std::max(160.0, 11.0 * station.cover.thickness);
}

double response_window(const BeltSetup& station, const cases::Numerics& numerics) {
  const double usual = std::max(320.0, 20.0 * station.cover.thickness);
  const double asked = std::max(numerics.window.value_or(usual), least_window(station));
  if (!station.options.curved) return asked;
  // A drum is periodic by itself, and the harmonics next to one full wave are the ring's own; of
  // a large drum every second or third harmonic is enough.
  const double circumference = 2.0 * std::numbers::pi * station.radius;
  return circumference / std::max(std::floor(circumference / asked), 1.0);
}

double patch_half_span(const Drum& drum, double interference, double window) {
  return first_look(drum, interference, window).half_span;
}

StaticNip static_nip(const Drum& drum, double interference, double window) {
  if (interference <= 0.0) return {};
  const FirstLook look = first_look(drum, interference, window);
  const double spacing = fitting(nip_spacing(drum.station(), look.half_span), window);
  PlainRow nip(drum, spacing, look.half_span, window);
  nip.guess(look.nip);
  nip.press(interference);
  const auto [from, to] = nip.pressed();
  return {.line_load = nip.line_load(),
          .half_width = 0.5 * (to - from),
          .peak_pressure = nip.peak_pressure(),
          .line_load_slope = nip.line_load_slope(),
          .lean = nip.lean(),
          .rolling_loss = nip.rolling_loss()};
}

PlainPass plain_pass(const Drum& drum, const PlainFace& face, double interference, double window) {
  if (interference <= 0.0) return {.coating = face.coating, .top = face.top, .nip = {}};
  const FirstLook look = first_look(drum, interference, window);
  const double half_span = look.half_span;
  const double spacing =
      fitting(std::max(nip_spacing(drum.station(), half_span), half_span / 400.0), window);
  PlainRow nip(drum, spacing, half_span, window);
  nip.guess(look.nip);
  if (auto pass = nip.wear(face, interference)) return *std::move(pass);
  // Step by step each contact has a solution that is always found.
  for (double room = 1.0;; room *= 1.4) {
    try {
      return PlainRow(drum, fitting(room * half_span / 150.0, window), room * half_span, window)
          .march(face, interference, window);
    } catch (const PatchOutgrown&) {
      if (room > 3.0) throw;
    }
  }
}

double interference_for(const BeltSetup& station, const PlainFace& face, double working_line_load,
                        double window) {
  if (working_line_load <= 0.0) return 0.0;
  const double deepest = station.cover.thickness;
  const auto too_much = [&] {
    return NumericsError(fmt::format(
        "{}: no interference up to the cover's {:.4g} mm works at {:.4g} N/mm; ask for less, or "
        "take a harder or thinner cover",
        station.description, deepest, working_line_load));
  };
  // The load is close to a power of the interference (1.1 on a half-space to 2.5 on a thin
  // incompressible cover), so a secant in logarithms settles in a few passes; what lies too low and
  // too high so far keeps it from leaving.
  double interference = 0.02 * deepest;
  double exponent = 1.4;
  double last_interference = 0.0;
  double last_load = 0.0;
  double too_low = 0.0;
  double too_high = deepest;
  double best = interference;
  double best_error = std::numeric_limits<double>::infinity();
  for (int k = 0; k < 30; ++k) {
    const Drum drum(station, interference);
    const double load = plain_pass(drum, face, interference, window).working_line_load;
    const double error = std::abs(load / working_line_load - 1.0);
    if (error < best_error) {
      best = interference;
      best_error = error;
    }
    if (error <= 1e-4) return interference;
    if (load < working_line_load && interference >= deepest) throw too_much();
    (load < working_line_load ? too_low : too_high) = interference;
    if (k > 0 && load != last_load && interference != last_interference) {
      exponent = std::log(load / last_load) / std::log(interference / last_interference);
      exponent = std::clamp(exponent, 0.7, 4.0);
    }
    last_interference = interference;
    last_load = load;
    interference *= std::pow(working_line_load / load, 1.0 / exponent);
    if (!(interference > too_low && interference < too_high) && too_high < deepest)
      interference = 0.5 * (too_low + too_high);
    interference = std::min(interference, deepest);
    if (too_high - too_low < 1e-6 * too_high) break;
  }
  // A nip that had to be marched repeats itself to a thousandth only, strides and cells being what
  // they are.
  if (best_error <= marched_load_error) return best;
  throw NumericsError(fmt::format("{}: the interference for {:.4g} N/mm was not found in 30 tries",
                                  station.description, working_line_load));
}

double after_frame_give(const BeltSetup& station, const PlainFace& face, double rigid,
                        double window) {
  if (station.frame_compliance <= 0.0 || rigid <= face.removed) return rigid;
  const auto open = [&](double interference) {
    const double depth = interference - face.removed;
    const double load =
        plain_pass(Drum(station, interference), face, depth, window).working_line_load;
    return interference + station.frame_compliance * load - rigid;
  };
  // The sum of a depth and a load that only rises with it: one root between no contact and no give.
  std::uintmax_t most = 40;
  const auto [low, high] = boost::math::tools::toms748_solve(
      open, face.removed, rigid, face.removed - rigid, open(rigid),
      [&](double a, double b) { return std::abs(b - a) <= 1e-5 * rigid; }, most);
  return 0.5 * (low + high);
}

}  // namespace drumlin::sim::line
