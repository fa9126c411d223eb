#include "sim/fast/drum_law.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim/numerics/error.hpp"

namespace drumlin::sim::fast {
namespace {

/// Smallest interference that the cells are laid for [mm]: a quarter of the smallest that matters.
constexpr double shallowest = 0.005;
/// Cell width over distance from the axis. At a tenth the load is good to 0.2 % where it grows like
/// a power below two of the interference, to 1 % on thin incompressible covers (power 2.5).
constexpr double growth = 0.1;
/// Cells of even width at the axis, 1 / growth.
constexpr double even_cells = 10.0;
/// Cells that a nip without belt needs before its load is good to 0.5 %.
constexpr Eigen::Index first_bare_node = 8;

/// Cell edges from the axis on. The widest nip, over a thin cover that cannot give up volume,
/// reaches sqrt(6 R delta) (Johnson 1985, ch. 5.8), others about sqrt(2 R delta).
std::vector<double> law_edges(double radius, double deepest) {
  const double first = 0.8 * std::sqrt(2.0 * radius * shallowest) / even_cells;
  const double reach = std::min(std::sqrt(6.3 * radius * deepest), 1.2 * radius);
  std::vector<double> edges = {0.0};
  while (edges.back() < reach)
    edges.push_back(edges.back() + std::max(first, growth * edges.back()));
  return edges;
}

/// Edges for one nip: even cells in the middle, finer ones where belt and grains round its end,
/// which is known to some 2 % beforehand.
std::vector<double> peak_edges(double half_width, double spread) {
  const double end = 1.02 * half_width + 1.5 * spread;
  const double calm = std::max(0.98 * half_width - 5.0 * spread, 0.0);
  const double fine = std::max(std::min(spread / 3.0, half_width / 15.0), (end - calm) / 60.0);
  const double coarse = std::max(calm / 14.0, fine);
  // Coarse cells end at `calm` itself: whether the last of them is one must not be left to
  // rounding.
  const double last_coarse = calm * (1.0 + 1e-9);
  std::vector<double> edges = {0.0};
  while (edges.back() < end)
    edges.push_back(edges.back() + (edges.back() + coarse < last_coarse ? coarse : fine));
  return edges;
}

/// The same member of several laws.
template <class Member>
std::vector<const Member*> members(std::span<const DrumLaw* const> of, Member DrumLaw::*member) {
  std::vector<const Member*> found;
  for (const DrumLaw* law : of)
    found.push_back(&(law->*member));
  return found;
}

}  // namespace

DrumLaw::DrumLaw(const LineKernel& kernel, const DrumFace& drum, double bending, double deepest)
    : kernel_(kernel),
      drum_(drum),
      bending_(bending),
      deepest_(deepest),
      spread_(std::pow(4.0 * bending * drum.grain_compliance, 0.25)),
      nip_(kernel, drum, law_edges(drum.radius, std::max(deepest, 4.0 * shallowest))) {
  add_nodes();
}

DrumLaw::DrumLaw(std::span<const DrumLaw* const> of, std::span<const double> shares)
    : kernel_(members(of, &DrumLaw::kernel_), shares),
      drum_(of.front()->drum_),
      bending_(of.front()->bending_),
      deepest_(of.front()->deepest_),
      spread_(of.front()->spread_),
      nip_(members(of, &DrumLaw::nip_), shares) {
  if (!std::all_of(of.begin(), of.end(),
                   [&](const DrumLaw* law) { return law->bare() == of.front()->bare(); }))
    throw NumericsError("the fast model cannot go from a drum with a belt to one without");
  add_nodes();
}

bool DrumLaw::bare() const noexcept {
  return kernel_.half_space() > 0.0;
}

void DrumLaw::add_nodes() {
  double before = 0.0;  // slope [N/mm^2] with the cells so far, and their load at delta = 0
  double lag = 0.0;
  for (Eigen::Index k = 0; k < nip_.size(); ++k) {
    const double delta = nip_.start(k);
    const double more = 2.0 * nip_.response(k) * nip_.response(k);
    const double load = before * delta - lag;
    const Eigen::Index first = bare() ? first_bare_node : 1;
    if (k >= first && load > 0.0 &&
        (nodes_.empty() || std::log(delta) > nodes_.back().log_interference)) {
      // The contact ends within the cell that is about to carry: 0.43 of it for a smooth end, less
      // where the end is a peak much narrower than the cell (seen against the line model).
      const double sharp = spread_ > 0.0 ? nip_.width(k) / spread_ : 0.0;
      const double end = nip_.edge(k) + 0.43 / (1.0 + 0.17 * sharp) * nip_.width(k);
      nodes_.push_back(
          {std::log(delta), std::log(load), delta * (before + 0.5 * more) / load, std::log(end)});
    }
    before += more;
    lag += more * delta;
    if (delta > 1.3 * deepest_ && nodes_.size() > 2) break;
  }
  if (nodes_.size() < 2)
    throw NumericsError("the fast model found no nip under this drum; use the line model");
  if (bare() && drum_.grain_compliance == 0.0) {
    const Node& first = nodes_.front();
    hertz_excess_ = std::exp(first.log_load) / hertz_load(std::exp(first.log_interference)) - 1.0;
  }
}

double DrumLaw::hertz_interference(double line_load) const noexcept {
  const double give = kernel_.half_space() / std::numbers::pi;  // 2 / (pi E*)
  const double a = std::sqrt(2.0 * give * line_load * drum_.radius);
  return line_load * (kernel_.half_space_constant() - give * (std::log(0.5 * a) - 0.5));
}

double DrumLaw::hertz_load(double interference) const noexcept {
  // Nearly a proportion: the logarithm moves slowly, so repeating the proportion settles.
  double load = interference / hertz_interference(1e-3) * 1e-3;
  for (int k = 0; k < 40; ++k)
    load *= interference / hertz_interference(load);
  return load;
}

std::size_t DrumLaw::interval(double value, double Node::*of) const noexcept {
  const auto above = std::upper_bound(nodes_.begin() + 1, nodes_.end() - 1, value,
                                      [of](double v, const Node& node) { return v < node.*of; });
  return static_cast<std::size_t>(above - nodes_.begin()) - 1;
}

DrumLaw::Point DrumLaw::along(std::size_t k, double u) const noexcept {
  const Node& a = nodes_[k];
  const Node& b = nodes_[k + 1];
  const double length = b.log_interference - a.log_interference;
  const double s = (u - a.log_interference) / length;
  const double r = 1.0 - s;
  const double value = r * r * (1.0 + 2.0 * s) * a.log_load + s * s * (1.0 + 2.0 * r) * b.log_load +
                       length * s * r * (r * a.exponent - s * b.exponent);
  const double slope = 6.0 * s * r * (b.log_load - a.log_load) / length +
                       r * (r - 2.0 * s) * a.exponent + s * (s - 2.0 * r) * b.exponent;
  return {value, slope};
}

DrumLaw::Point DrumLaw::below_cells(double interference) const noexcept {
  const Node& first = nodes_.front();
  const double u = std::log(interference);
  if (hertz_excess_ == 0.0)
    return {first.log_load + first.exponent * (u - first.log_interference), first.exponent};
  // What the cover's finite thickness adds goes with (a / t)^2, so with the interference.
  const double load = hertz_load(interference);
  const double excess = hertz_excess_ * std::exp(u - first.log_interference);
  // d delta / d P' = delta / P' - 1 / (pi E*), half the factor of the logarithm.
  const double give = 0.5 * kernel_.half_space() / std::numbers::pi;
  const double exponent = interference / (interference - give * load) + excess / (1.0 + excess);
  return {std::log(load * (1.0 + excess)), exponent};
}

DrumLaw::Point DrumLaw::point(double interference) const noexcept {
  const double u = std::log(interference);
  const Node& last = nodes_.back();
  if (u < nodes_.front().log_interference) return below_cells(interference);
  if (u > last.log_interference)
    return {last.log_load + last.exponent * (u - last.log_interference), last.exponent};
  return along(interval(u, &Node::log_interference), u);
}

double DrumLaw::line_load(double interference) const noexcept {
  return interference > 0.0 ? std::exp(point(interference).log_load) : 0.0;
}

double DrumLaw::line_load_slope(double interference) const noexcept {
  if (interference <= 0.0) return 0.0;
  const Point at = point(interference);
  return std::exp(at.log_load) / interference * at.exponent;
}

double DrumLaw::interference(double line_load) const noexcept {
  if (line_load <= 0.0) return 0.0;
  const double wanted = std::log(line_load);
  const Node& first = nodes_.front();
  const Node& last = nodes_.back();
  if (wanted > last.log_load)
    return std::exp(last.log_interference + (wanted - last.log_load) / last.exponent);
  // A power law goes on below the first node, or Hertz, which is nearly one.
  double low = first.log_interference + 1.5 * (wanted - first.log_load) - 1.0;
  double high = first.log_interference;
  double u = first.log_interference + (wanted - first.log_load) / first.exponent;
  if (wanted >= first.log_load) {
    const std::size_t k = interval(wanted, &Node::log_load);
    low = nodes_[k].log_interference;
    high = nodes_[k + 1].log_interference;
    u = low + (high - low) * (wanted - nodes_[k].log_load) /
                  (nodes_[k + 1].log_load - nodes_[k].log_load);
  }
  // Newton inside a bracket; the curve is close to its chord.
  for (int step = 0; step < 60; ++step) {
    const Point at = point(std::exp(u));
    (at.log_load < wanted ? low : high) = u;
    const double move = (wanted - at.log_load) / at.exponent;
    if (std::abs(move) < 1e-14) break;
    u += move;
    if (!(u >= low && u <= high)) u = 0.5 * (low + high);
  }
  return std::exp(u);
}

double DrumLaw::half_width(double interference) const noexcept {
  if (interference <= 0.0) return 0.0;
  const double u = std::log(interference);
  // Beyond both ends the width keeps to the square root that all limits share.
  const Node& first = nodes_.front();
  const Node& last = nodes_.back();
  if (u < first.log_interference) {
    // Hertz: a^2 goes with the load; over a belt and under grains with about the interference.
    const double log_square = hertz_excess_ != 0.0
                                  ? below_cells(interference).log_load - first.log_load
                                  : u - first.log_interference;
    return std::exp(first.log_half_width + 0.5 * log_square);
  }
  if (u > last.log_interference)
    return std::exp(last.log_half_width + 0.5 * (u - last.log_interference));
  const std::size_t k = interval(u, &Node::log_interference);
  const double s = (u - nodes_[k].log_interference) /
                   (nodes_[k + 1].log_interference - nodes_[k].log_interference);
  return std::exp((1.0 - s) * nodes_[k].log_half_width + s * nodes_[k + 1].log_half_width);
}

double DrumLaw::peak_pressure(double interference) const {
  if (interference <= 0.0) return 0.0;
  if (hertz_excess_ != 0.0 && std::log(interference) < nodes_.front().log_interference)
    return 2.0 * line_load(interference) / (std::numbers::pi * half_width(interference));
  const Eigen::VectorXd pressure =
      bending_ > 0.0 ? HalfNip(kernel_, drum_, peak_edges(half_width(interference), spread_))
                           .pressure(interference)
                     : shape(interference).pressure;
  // A nip shallower than the first cell's own gap presses nothing that could be told.
  return pressure.size() > 0 ? pressure.maxCoeff() : 0.0;
}

NipShape DrumLaw::shape(double interference) const {
  NipShape shape;
  shape.pressure = nip_.pressure(interference);
  const Eigen::Index n = shape.pressure.size();
  shape.edge = nip_.edge.head(n + 1);
  shape.stiffness = nip_.stiffness(n);
  // The cells' own load carries the error of the last cell's end; the law's does not.
  const double load = 2.0 * shape.pressure.dot(nip_.width.head(n));
  if (load > 0.0) shape.pressure *= line_load(interference) / load;
  return shape;
}

}  // namespace drumlin::sim::fast
