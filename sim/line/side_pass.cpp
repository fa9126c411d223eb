#include "sim/line/side_pass.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <variant>

#include <fmt/format.h>

#include "sim/line/feed_row.hpp"
#include "sim/line/side_compliance.hpp"
#include "sim/line/wear_layers.hpp"
#include "sim/numerics/contact_solver.hpp"
#include "sim/numerics/error.hpp"
#include "sim/numerics/mesh_compliance.hpp"

namespace drumlin::sim::line {
namespace {

/// Length along the feed of the opening that a strip shows [mm]; none beside an outer edge.
double opening_length(const Strip& strip) {
  if (strip.metal.front() == 0 || strip.metal.back() == 0) return 0.0;
  double width = 0.0;
  for (std::size_t i = 0; i < strip.size(); ++i)
    width += strip.metal[i] == 0 ? strip.width(i) : 0.0;
  return 2.0 * width;
}

/// The nip's pressure as far as an opening is long, weighted with its chords.
std::vector<double> over_opening(const FeedRow& row, double length) {
  std::vector<double> pressure = row.pressure();
  const double centre = row.centre();
  for (std::size_t i = 0; i < pressure.size() && length > 0.0; ++i) {
    const double share = 2.0 * (row.offset(i) - centre) / length;
    pressure[i] *= std::sqrt(std::max(1.0 - share * share, 0.0));
  }
  return pressure;
}

/// Highest metal of a strip over the worn face [mm], at least 0.
double tallest(const Strip& strip, double face_removed) {
  double highest = 0.0;
  for (std::size_t i = 0; i < strip.size(); ++i) {
    if (strip.metal[i] != 0) highest = std::max(highest, strip.height[i] + face_removed);
  }
  return highest;
}

/// Columns across one edge, stepped through the nip.
template <class Law>
class SidePassage {
 public:
  SidePassage(const Drum& drum, const FeedRow& row, const SideCompliance& belt_and_cover,
              const PlainFace& face, Strip& strip);
  void run(int steps, const OnSideStep& on_step);

 private:
  void step(double offset, double plain_pressure, double path);
  void wear(double path);

  const Drum& drum_;
  const FeedRow& row_;
  Strip& strip_;
  std::vector<std::uint8_t> owner_;
  WearLayers<Law> layers_;
  Symbol symbol_;
  MeshCompliance compliance_;
  ContactSolver solver_;
  typename WearLayers<Law>::Column plain_;  // a column of the plain face
  double plain_removed_;                    // [mm]
  double foundation_;                       // give of an even pressure [mm/MPa]
  bool metal_beyond_;                       // the strip goes on as plain face at its ends
  std::vector<double> beyond_;  // give to an even pressure beyond the strip's ends [mm/MPa]
  std::vector<double> pressure_, overlap_;
  double last_plain_ = 0;
};

template <class Law>
SidePassage<Law>::SidePassage(const Drum& drum, const FeedRow& row,
                              const SideCompliance& belt_and_cover, const PlainFace& face,
                              Strip& strip)
    : drum_(drum),
      row_(row),
      strip_(strip),
      owner_(burr_owners(strip)),
      layers_(drum.station(), strip, owner_),
      symbol_(belt_and_cover.under({row.spacing(), over_opening(row, opening_length(strip))})),
      compliance_(symbol_, drum.grain_compliance(), strip.cells,
                  strip.cells.unit * (strip.cells.bounds.back() - strip.cells.bounds.front()),
                  std::max(320.0, 20.0 * drum.station().cover.thickness), drum.bending_stiffness()),
      plain_(layers_.plain(face.top, face.coating)),
      plain_removed_(face.removed),
      foundation_(symbol_(0.0).real() + drum.grain_compliance()),
      metal_beyond_(strip.metal.front() != 0 || strip.metal.back() != 0),
      beyond_(strip.size(), 0.0),
      pressure_(strip.size(), 0.0),
      overlap_(strip.size(), 0.0) {
  if (!metal_beyond_) return;
  const std::vector<double> even(strip.size(), 1.0);
  compliance_.apply(even, beyond_);
  for (double& give : beyond_)
    give = foundation_ - give;
}

template <class Law>
void SidePassage<Law>::wear(double path) {
  for (std::size_t i = 0; i < strip_.size(); ++i) {
    if (pressure_[i] > 0.0)
      layers_.wear(strip_, i, layers_.column(strip_, i).removal(pressure_[i], path).depth);
  }
}

template <class Law>
void SidePassage<Law>::step(double offset, double plain_pressure, double path) {
  const auto taken = plain_.removal(plain_pressure, path);
  plain_.take(taken.depth);
  plain_removed_ += taken.depth;
  // Far from the edge the face carries the plain pressure: so deep does the drum lie on it.
  const double depth = plain_pressure > 0.0 ? foundation_ * plain_pressure : -row_.gap(offset);
  for (std::size_t i = 0; i < strip_.size(); ++i)
    overlap_[i] = depth + plain_removed_ + strip_.height[i] - plain_pressure * beyond_[i];
  const double rise = last_plain_ > 0.0 ? plain_pressure / last_plain_ : 1.0;
  for (double& p : pressure_)
    p *= rise;
  last_plain_ = plain_pressure;
  const auto give = [&](std::size_t i, double p) {
    const auto removal = layers_.column(strip_, i).removal(p, path);
    return LocalGive{removal.depth, removal.slope};
  };
  const double deepest = *std::max_element(overlap_.begin(), overlap_.end());
  const ContactReport report = solver_.solve(compliance_, overlap_, strip_.metal, give, pressure_,
                                             contact_tolerance(std::max(deepest, 0.0)));
  if (!report.converged || !std::isfinite(report.residual)) {
    throw NumericsError(fmt::format(
        "{}: contact beside {} did not converge at {:.3g} mm from the drum's axis: gap error "
        "{:.3g} mm after {} Newton steps; try a smaller interference or a coarser resolution",
        drum_.station().description, strip_.name, offset, report.residual, report.newton_steps));
  }
}

template <class Law>
void SidePassage<Law>::run(int steps, const OnSideStep& on_step) {
  const double high = tallest(strip_, plain_removed_);
  const double ratio = drum_.station().sliding_speed / drum_.station().feed;
  const double pressed_from = row_.begins(0.0);
  const double stride = (row_.ends(0.0) - pressed_from) / steps;
  const auto before = static_cast<int>(std::ceil((pressed_from - row_.begins(high)) / stride));
  const auto after = static_cast<int>(std::ceil((row_.ends(high) - row_.ends(0.0)) / stride));
  for (int k = -before; k < steps + after; ++k) {
    const double from = pressed_from + k * stride;
    const bool pressed = k >= 0 && k < steps;
    const double middle = from + 0.5 * stride;
    step(middle, pressed ? row_.mean_pressure(from, from + stride) : 0.0, ratio * stride);
    wear(ratio * stride);
    note_peaks(strip_, 0, pressure_);
    if (on_step) on_step(strip_, {middle, last_plain_, pressure_});
  }
}

}  // namespace

void pass_sides(const Drum& drum, const PlainFace& face, const PlainPass& plain,
                double interference, std::vector<Strip>& sides, int steps,
                const OnSideStep& on_step) {
  if (sides.empty() || plain.nip.offset.empty()) return;
  double highest = 0.0;
  for (const Strip& strip : sides)
    highest = std::max(highest, tallest(strip, face.removed));
  const FeedRow row(drum, plain, highest);
  if (!(*std::max_element(row.pressure().begin(), row.pressure().end()) > 0.0)) return;
  const SideCompliance belt_and_cover(drum.station(), interference);
  for (Strip& strip : sides) {
    std::visit(
        [&]<class Law>(const Law&) {
          SidePassage<Law>(drum, row, belt_and_cover, face, strip).run(steps, on_step);
        },
        drum.station().substrate.law);
  }
}

}  // namespace drumlin::sim::line
