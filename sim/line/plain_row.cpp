#include "sim/line/plain_row.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "models/removal/layered.hpp"
#include "sim/numerics/error.hpp"
#include "sim/numerics/wearing_compliance.hpp"

namespace drumlin::sim::line {
namespace {

/// Distance from a cell's middle to where the pressure beyond it ends. Towards a smooth end p^2
/// falls linearly; a belt's bending ends in a peak instead, and there half a cell is all that can
/// be said.
double beyond_last(double last, double before, double spacing) {
  if (!(before > last)) return 0.5 * spacing;
  return std::min(last * last / (before * before - last * last), 1.0) * spacing;
}

}  // namespace

void PlainRow::lay_over(double interference) {
  for (std::size_t i = 0; i < overlap_.size(); ++i)
    overlap_[i] = interference - drum_.rise(offset(i));
}

void PlainRow::check(const ContactReport& report) const {
  if (!report.converged) {
    throw NumericsError(fmt::format(
        "{}: contact with the plain face did not converge: gap error {:.3g} mm after "
        "{} Newton steps and {} applications; try a smaller interference, a slower "
        "belt or a harder cover",
        drum_.station().description, report.residual, report.newton_steps, report.applications));
  }
  if (pressure_.front() > 0.0 || pressure_.back() > 0.0) {
    throw PatchOutgrown(fmt::format("{}: contact wider than its patch of {:.4g} mm",
                                    drum_.station().description,
                                    2.0 * static_cast<double>(half_) * spacing_));
  }
}

void PlainRow::guess(const PlainRow& other) {
  for (std::size_t i = 0; i < pressure_.size(); ++i) {
    const double place = offset(i) / other.spacing_ + static_cast<double>(other.half_);
    if (place < 0.0 || place >= static_cast<double>(other.pressure_.size() - 1)) continue;
    const auto k = static_cast<std::size_t>(place);
    const double share = place - static_cast<double>(k);
    pressure_[i] = other.pressure_[k] + share * (other.pressure_[k + 1] - other.pressure_[k]);
  }
}

void PlainRow::press(double interference) {
  lay_over(interference);
  const auto none = [](std::size_t, double) { return LocalGive{0.0, 0.0}; };
  check(solver_.solve(compliance_, overlap_, metal_, none, pressure_,
                      contact_tolerance(interference)));
}

/// What the columns have lost when they come to each cell's middle, under the pressure as it is.
template <class Law>
void PlainRow::wear_columns(const PlainFace& face) {
  const Law& base = std::get<Law>(drum_.station().substrate.law);
  const Law& coating = std::get<Law>(drum_.station().coating.law);
  const Law& top = std::get<Law>(drum_.station().top.law);
  const double path = drum_.station().sliding_speed / drum_.station().feed * spacing_;
  models::LayeredColumn<Law, 2> stack{.left = {face.top, face.coating},
                                      .law = {&top, &coating, &base}};
  double removed = 0.0;
  for (std::size_t i = 0; i < pressure_.size(); ++i) {
    slope_[i] = stack.removal(pressure_[i], path).slope;
    if (pressure_[i] <= 0.0) {
      removed_[i] = removed;
      continue;
    }
    const double first_half = stack.removal(pressure_[i], 0.5 * path).depth;
    stack.take(first_half);
    removed_[i] = removed + first_half;
    const double second_half = stack.removal(pressure_[i], 0.5 * path).depth;
    stack.take(second_half);
    removed = removed_[i] + second_half;
  }
  removed_in_all_ = removed;
  left_top_ = stack.left[0];
  left_coating_ = stack.left[1];
}

/// Contact with what the columns lose linearised about the pressure as it is, until the line and
/// the curve agree. Where removal has thresholds or layers that need not end well.
bool PlainRow::solve_wearing(const PlainFace& face, double interference, Slopes slopes) {
  removed_.assign(pressure_.size(), 0.0);
  slope_.assign(pressure_.size(), 0.0);
  const auto wear = [&] {
    std::visit([&]<class Law>(const Law&) { wear_columns<Law>(face); },
               drum_.station().substrate.law);
    if (slopes == Slopes::even)
      std::fill(slope_.begin(), slope_.end(), *std::max_element(slope_.begin(), slope_.end()));
  };
  const auto none = [](std::size_t, double) { return LocalGive{0.0, 0.0}; };
  ContactTolerance limits = contact_tolerance(interference);
  std::vector<double> relieved(overlap_.size());
  std::vector<double> line(overlap_.size());
  std::vector<double> last;
  wear();
  const int most = slopes == Slopes::even ? 80 : 25;
  for (int k = 0; k < most; ++k) {
    WearingCompliance<Tilted<LineCompliance>> wearing(compliance_, slope_);
    wearing.removed(pressure_, line);
    for (std::size_t i = 0; i < line.size(); ++i) {
      line[i] = removed_[i] - line[i];  // what the line leaves of it at no pressure
      relieved[i] = overlap_[i] - line[i];
    }
    last = pressure_;
    const ContactReport report = solver_.solve(wearing, relieved, metal_, none, pressure_, limits);
    if (!report.converged) return false;
    check(report);
    limits.applications -= report.applications;  // one allowance for all rounds
    // Kinks of a threshold or a layer's end may send it to and fro: then go half the way.
    for (std::size_t i = 0; k >= 8 && i < last.size(); ++i)
      pressure_[i] = 0.5 * (pressure_[i] + last[i]);
    wearing.removed(pressure_, relieved);
    wear();
    double misfit = 0.0;
    for (std::size_t i = 0; i < line.size(); ++i) {
      if (pressure_[i] > 0.0)
        misfit = std::max(misfit, std::abs(removed_[i] - line[i] - relieved[i]));
    }
    if (misfit <= 3.0 * limits.gap) return true;
  }
  return false;
}

std::optional<PlainPass> PlainRow::wear(const PlainFace& face, double interference) {
  press(interference);
  // Slopes that differ from cell to cell, as a threshold or a layer's end makes them, are closer to
  // the truth but may leave the problem without a solution; even ones never do, and take more
  // rounds.
  if (!solve_wearing(face, interference, Slopes::own)) {
    press(interference);
    if (!solve_wearing(face, interference, Slopes::even)) return std::nullopt;
  }
  PlainPass pass;
  pass.working_line_load = line_load();
  pass.removal = removed_in_all_;
  pass.coating = left_coating_;
  pass.top = left_top_;
  pass.lean = lean();
  pass.rolling_loss = rolling_loss();
  for (std::size_t i = 0; i < pressure_.size(); ++i)
    pass.nip.offset.push_back(offset(i));
  pass.nip.pressure = pressure_;
  pass.nip.removed = removed_;
  pass.nip.removed.back() = removed_in_all_;
  return pass;
}

PlainPass PlainRow::march(const PlainFace& face, double interference, double window) {
  // Five half patches: two for landing on the unworn face, two to pass every column that is read
  // with a steady nip, one that the nip still stands on.
  const std::size_t n = 7 * half_ + 1;
  Strip strip;
  strip.cells.unit = spacing_;
  for (std::size_t i = 0; i <= n; ++i)
    strip.cells.bounds.push_back(static_cast<int>(i));
  strip.height.assign(n, 0.0);
  strip.burr.assign(n, 0.0);
  strip.top.assign(n, face.top);
  strip.coating.assign(n, face.coating);
  strip.metal.assign(n, 1);
  strip.lip.assign(n, 0);
  const int half = static_cast<int>(half_);
  const int stride = std::max(1, half / 40);
  const Course course{.interference = interference,
                      .from = static_cast<int>(n) - 1 - half,
                      .to = half,
                      .stride = stride,
                      .longest = stride};
  std::size_t under = 0;  // cell under the axis
  Passage(drum_, strip, (static_cast<double>(half_) - 0.5) * spacing_, window)
      .run(strip, course, [&](const StepView& view) {
        std::copy(view.pressure.begin(), view.pressure.end(), pressure_.begin());
        under = view.first + half_;
      });
  PlainPass pass;
  pass.working_line_load = line_load();
  pass.lean = lean();
  pass.rolling_loss = rolling_loss();
  // Between the trail of the landing and the nip as it stands at the end; over whole strides, so
  // that where a column stood in its stride does not show.
  const std::size_t from = 2 * half_ + 1;
  const auto wide = static_cast<std::size_t>(stride);
  const std::size_t count = wide * std::max<std::size_t>(1, half_ / wide);
  for (std::size_t i = 0; i < count; ++i) {
    const auto seen = static_cast<double>(i + 1);
    pass.removal += (-strip.height[from + i] - pass.removal) / seen;
    pass.coating += (strip.coating[from + i] - pass.coating) / seen;
    pass.top += (strip.top[from + i] - pass.top) / seen;
  }
  pass.nip.pressure = pressure_;
  for (std::size_t i = 0; i < pressure_.size(); ++i) {
    pass.nip.offset.push_back(offset(i));
    pass.nip.removed.push_back(-strip.height[under + i - half_]);
  }
  pass.nip.removed.back() = pass.removal;
  return pass;
}

std::pair<double, double> PlainRow::pressed() const {
  const std::span p(pressure_);
  std::size_t first = 0;
  while (first < p.size() && p[first] <= 0.0)
    ++first;
  if (first == p.size()) return {0.0, 0.0};
  std::size_t last = p.size() - 1;
  while (p[last] <= 0.0)
    --last;
  if (first == last) return {offset(first) - 0.5 * spacing_, offset(last) + 0.5 * spacing_};
  return {offset(first) - beyond_last(p[first], p[first + 1], spacing_),
          offset(last) + beyond_last(p[last], p[last - 1], spacing_)};
}

double PlainRow::line_load_slope() {
  // With the pressed cells held, the load is linear in the interference; how the pressed zone
  // grows is of second order, since pressure and gap both vanish at its ends.
  std::vector<std::uint8_t> pressed(pressure_.size());
  std::transform(pressure_.begin(), pressure_.end(), pressed.begin(),
                 [](double p) { return static_cast<std::uint8_t>(p > 0.0 ? 1 : 0); });
  const std::vector<double> rigid(pressure_.size(), -1.0);
  const std::vector<double> slope(pressure_.size(), 0.0);
  std::vector<double> answer(pressure_.size());
  if (compliance_.symmetric())
    ConjugateGradients().solve(compliance_, pressed, slope, rigid, answer, 1e-6, 400);
  else
    Gmres().solve(compliance_, pressed, slope, rigid, answer, 1e-6, 400);
  return std::accumulate(answer.begin(), answer.end(), 0.0) * spacing_;
}

double PlainRow::lean() const {
  double moment = 0.0;
  double sum = 0.0;
  for (std::size_t i = 0; i < pressure_.size(); ++i) {
    moment += offset(i) * pressure_[i];
    sum += pressure_[i];
  }
  return sum > 0.0 ? moment / sum : 0.0;
}

double PlainRow::rolling_loss() {
  // Pressure works on a surface that goes down with v du/dx as it passes; on an elastic cover the
  // two halves of the nip cancel.
  std::vector<double> sunk(pressure_.size());
  compliance_.apply(pressure_, sunk);
  double work = 0.0;
  for (std::size_t i = 1; i + 1 < sunk.size(); ++i)
    work += pressure_[i] * 0.5 * (sunk[i + 1] - sunk[i - 1]);
  return drum_.cover_speed() * work;
}

}  // namespace drumlin::sim::line
