#include "models/brush/disc.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/ellint_2.hpp>

namespace drumlin::models {
namespace {

using std::numbers::pi;

struct Node {
  double at;
  double weight;
};

/// Rule of so many points on (-1, 1) that does not mind roots at either end, where chords and rings
/// begin: Gauss's in the angle t of x = sin(pi t / 2), roots of Legendre's polynomial by Newton.
std::vector<Node> gauss(int points) {
  std::vector<Node> nodes;
  for (int i = 0; i < points; ++i) {
    double x = std::cos(pi * (i + 0.75) / (points + 0.5));
    double slope = 1.0;
    for (int round = 0; round < 50; ++round) {
      double before = 1.0;
      double now = x;
      for (int n = 2; n <= points; ++n) {
        const double next = ((2.0 * n - 1.0) * x * now - (n - 1.0) * before) / n;
        before = now;
        now = next;
      }
      slope = points * (before - x * now) / (1.0 - x * x);
      const double step = now / slope;
      x -= step;
      if (std::abs(step) < 1e-15) break;
    }
    const double weight = 2.0 / ((1.0 - x * x) * slope * slope);
    nodes.push_back({std::sin(0.5 * pi * x), 0.5 * pi * std::cos(0.5 * pi * x) * weight});
  }
  return nodes;
}

void sort_out(std::vector<double>& ends) {
  std::sort(ends.begin(), ends.end());
  ends.erase(std::unique(ends.begin(), ends.end(),
                         [](double a, double b) { return std::abs(a - b) < 1e-9; }),
             ends.end());
}

/// Distances from a head's middle at which what happens there changes its course.
std::vector<double> kinks(const DiscBrush& brush) {
  std::vector<double> radii;
  for (const double r : {brush.radius, brush.inner_radius}) {
    if (r <= 0.0) continue;
    radii.push_back(brush.carrier_radius + r);
    radii.push_back(std::abs(brush.carrier_radius - r));
  }
  if (brush.inner_radius <= 0.0) radii.push_back(brush.carrier_radius);
  radii.push_back(0.0);
  sort_out(radii);
  return radii;
}

/// One head, its middle at the origin: adds what passes at a place under it.
class Head {
 public:
  Head(const DiscBrush& brush, double turning, double carrier, double feed,
       const std::vector<Node>& rule)
      : brush_(brush), turning_(turning), carrier_(carrier), feed_(feed), rule_(rule) {}

  void pass(double y, std::vector<TipsPassing>& tips) const;

 private:
  void at(double x, double y, double length, std::vector<TipsPassing>& tips) const;
  void on_carrier(double x, double y, double length, std::vector<TipsPassing>& tips) const;

  const DiscBrush& brush_;
  double turning_;
  double carrier_;
  double feed_;
  const std::vector<Node>& rule_;
};

void Head::pass(double y, std::vector<TipsPassing>& tips) const {
  std::vector<double> ends{0.0};
  for (const double radius : kinks(brush_))
    if (radius > std::abs(y)) ends.push_back(std::sqrt(radius * radius - y * y));
  sort_out(ends);
  for (std::size_t k = 1; k < ends.size(); ++k) {
    const double middle = 0.5 * (ends[k - 1] + ends[k]);
    const double half = 0.5 * (ends[k] - ends[k - 1]);
    for (const Node& node : rule_) {
      for (const double side : {-1.0, 1.0})
        at(side * (middle + half * node.at), y, half * node.weight, tips);
    }
  }
}

void Head::at(double x, double y, double length, std::vector<TipsPassing>& tips) const {
  if (brush_.carrier_radius > 0.0) {
    on_carrier(x, y, length, tips);
    return;
  }
  const double r = std::hypot(x, y);
  if (r < brush_.inner_radius || r > brush_.radius) return;
  const double W = turning_ + carrier_;
  tips.push_back({filaments_per_area(brush_) * length, -W * y - feed_, W * x});
}

/// The discs' axes stand at the angles -t and t from the place, as seen from the carrier's axis.
void Head::on_carrier(double x, double y, double length, std::vector<TipsPassing>& tips) const {
  const double R = brush_.carrier_radius;
  const double p = std::hypot(x, y);
  const auto angle_to = [&](double r) {
    return std::acos(std::clamp((p * p + R * R - r * r) / (2.0 * p * R), -1.0, 1.0));
  };
  const double least = angle_to(brush_.inner_radius);
  const double most = angle_to(brush_.radius);
  const double half = 0.5 * (most - least);
  if (half <= 0.0) return;
  const double count = filaments_per_area(brush_) * length / (2.0 * pi);
  for (const Node& node : rule_) {
    const double t = 0.5 * (most + least) + half * node.at;
    for (const double side : {-1.0, 1.0}) {
      // The disc's axis: the place's direction turned by t.
      const double c = R * std::cos(t) / p;
      const double s = side * R * std::sin(t) / p;
      const double rx = x - (c * x - s * y);
      const double ry = y - (s * x + c * y);
      tips.push_back({count * half * node.weight, -carrier_ * y - turning_ * ry - feed_,
                      carrier_ * x + turning_ * rx});
    }
  }
}

}  // namespace

double spindle_turning(const DiscBrush& brush, double speed) noexcept {
  return speed / brush.radius;
}

double carrier_turning(const DiscBrush& brush, double speed) noexcept {
  return brush.carrier_turns * spindle_turning(brush, speed);
}

double filaments_per_area(const DiscBrush& brush) noexcept {
  return brush.discs * brush.fill / section_area(brush.filament);
}

double reach_of(const DiscBrush& brush) noexcept {
  return brush.carrier_radius + brush.radius;
}

std::vector<double> head_places(const DiscBrush& brush) {
  std::vector<double> places;
  for (int i = 0; i < brush.heads; ++i)
    places.push_back((i - 0.5 * (brush.heads - 1)) * brush.head_pitch);
  return places;
}

double row_width(const DiscBrush& brush) noexcept {
  return 2.0 * reach_of(brush) + (brush.heads - 1) * brush.head_pitch;
}

std::vector<TipsPassing> tips_over(const DiscBrush& brush, double speed, double feed, double across,
                                   int order) {
  std::vector<TipsPassing> tips;
  const std::vector<Node> rule = gauss(order);
  const double turning = spindle_turning(brush, speed);
  const double carrier = carrier_turning(brush, speed);
  double sense = 1.0;
  for (const double place : head_places(brush)) {
    Head(brush, sense * turning, sense * carrier, feed, rule).pass(across - place, tips);
    if (brush.alternating) sense = -sense;
  }
  return tips;
}

std::vector<WidthPlace> places_across(const DiscBrush& brush, double width, int points) {
  const double half_width = 0.5 * width;
  std::vector<double> ends{-half_width, half_width};
  for (const double head : head_places(brush)) {
    for (const double radius : kinks(brush)) {
      for (const double end : {head - radius, head + radius})
        if (std::abs(end) < half_width) ends.push_back(end);
    }
  }
  sort_out(ends);
  std::vector<WidthPlace> places;
  for (std::size_t k = 1; k < ends.size(); ++k) {
    const double half = 0.5 * (ends[k] - ends[k - 1]);
    for (const Node& node : gauss(points))
      places.push_back(
          {0.5 * (ends[k] + ends[k - 1]) + half * node.at, half * node.weight / width});
  }
  return places;
}

Rubbing rubbing(const std::vector<TipsPassing>& tips) noexcept {
  Rubbing sum;
  for (const TipsPassing& tip : tips) {
    sum.path += tip.count * std::hypot(tip.along, tip.across);
    sum.along += tip.count * std::abs(tip.along);
    sum.across += tip.count * std::abs(tip.across);
    sum.net_along += tip.count * tip.along;
    sum.net_across += tip.count * tip.across;
  }
  return sum;
}

EdgePassing edge_passing(const std::vector<TipsPassing>& tips, double out_along,
                         double out_across) {
  EdgePassing sum;
  sum.onto_by_angle.assign(edge_angles, 0.0);
  for (const TipsPassing& tip : tips) {
    const double out = tip.along * out_along + tip.across * out_across;
    const double speed = std::hypot(tip.along, tip.across);
    sum.path += tip.count * speed;
    if (out >= 0.0) {
      sum.off += tip.count * out;
      continue;
    }
    sum.onto -= tip.count * out;
    const double angle = std::acos(std::min(-out / speed, 1.0));
    const int k = std::min(edge_angles - 1, static_cast<int>(angle / (0.5 * pi) * edge_angles));
    sum.onto_by_angle[static_cast<std::size_t>(k)] += tip.count * speed;
  }
  sum.reversed = 2.0 * std::min(sum.onto, sum.off);
  return sum;
}

void add(EdgePassing& sum, const EdgePassing& part, double share) {
  sum.onto += share * part.onto;
  sum.off += share * part.off;
  sum.reversed += share * part.reversed;
  sum.path += share * part.path;
  sum.onto_by_angle.resize(edge_angles, 0.0);
  for (std::size_t k = 0; k < part.onto_by_angle.size(); ++k)
    sum.onto_by_angle[k] += share * part.onto_by_angle[k];
}

double mean_tip_speed(const DiscBrush& brush, double speed) {
  const double a = brush.inner_radius;
  const double b = brush.radius;
  const double W = spindle_turning(brush, speed);
  const double Wc = carrier_turning(brush, speed);
  const double A = std::abs(Wc) * brush.carrier_radius;
  if (A == 0.0) return std::abs(W + Wc) * 2.0 / 3.0 * (b * b * b - a * a * a) / (b * b - a * a);
  const auto at = [&](double r) {
    const double B = std::abs(W + Wc) * r;
    const double k = std::min(2.0 * std::sqrt(A * B) / (A + B), 1.0);
    return 2.0 / pi * (A + B) * boost::math::ellint_2(k) * r;
  };
  // The slope of at() runs to infinity, as a logarithm, where A = B.
  const double equal = A / std::abs(W + Wc);
  const double middle = equal > a && equal < b ? equal : 0.5 * (a + b);
  using Rule = boost::math::quadrature::gauss<double, 30>;
  return 2.0 * (Rule::integrate(at, a, middle) + Rule::integrate(at, middle, b)) / (b * b - a * a);
}

}  // namespace drumlin::models
