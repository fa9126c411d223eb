#include "sim/brush/edge_wear.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace drumlin::sim {
namespace {

/// Radii that are looked at, from a micrometre on, each so much larger than the one before: areas
/// between them follow r^2, which is exact on a square edge.
constexpr double least_radius = 1e-3;
constexpr double next_radius = 1.1;
/// Area that counts as none [mm^2]: of an arc of a twentieth of a micrometre.
constexpr double no_area = 1e-9;

double width(const EdgeColumn& column) {
  return column.to - column.from;
}

/// Burr metal that stands above a level, cut down to it.
double above(const EdgeColumn& column, double level) {
  return std::clamp(column.height - level, 0.0, column.burr);
}

/// The depths that take an area of burr metal off, from the top down.
std::vector<double> levelled(const std::vector<EdgeColumn>& columns, double area) {
  double low = columns.front().height;
  double high = low;
  for (const EdgeColumn& column : columns) {
    if (column.burr <= 0.0) continue;
    low = std::min(low, column.height - column.burr);
    high = std::max(high, column.height);
  }
  for (int halving = 0; halving < 60; ++halving) {
    const double level = 0.5 * (low + high);
    double taken = 0.0;
    for (const EdgeColumn& column : columns)
      taken += above(column, level) * width(column);
    (taken > area ? low : high) = level;
  }
  std::vector<double> depth;
  depth.reserve(columns.size());
  for (const EdgeColumn& column : columns)
    depth.push_back(above(column, high));
  return depth;
}

/// The base metal of an edge, as arcs see it.
class Corner {
 public:
  explicit Corner(const std::vector<EdgeColumn>& columns) : columns_(columns) {}

  /// What an arc cuts off, column by column; area in between.
  template <class Take>
  void cut(double radius, const Take& take) const {
    const double beside = height(radius);
    const double slope = std::max((height(2.0 * radius) - beside) / radius, 0.0);
    for (std::size_t i = 0; i < columns_.size() && columns_[i].from < radius; ++i) {
      const EdgeColumn& c = columns_[i];
      const double line = beside + slope * (0.5 * (c.from + c.to) - radius);
      const double drop = dropped(radius, c.from, std::min(c.to, radius)) / width(c);
      take(i, std::max(c.height - c.burr - (line - drop), 0.0));
    }
  }
  [[nodiscard]] double area(double radius) const {
    double sum = 0.0;
    cut(radius, [&](std::size_t i, double depth) { sum += depth * width(columns_[i]); });
    return sum;
  }

 private:
  /// Area between an arc and its tangent over a stretch from the edge line [mm^2].
  static double dropped(double radius, double from, double to) {
    const auto under = [radius](double u) {
      const double sine = std::clamp(u / radius, -1.0, 1.0);
      return 0.5 * radius * radius * (sine * std::sqrt(1.0 - sine * sine) + std::asin(sine));
    };
    return radius * (to - from) - (under(radius - from) - under(radius - to));
  }
  /// Height of the base metal at a distance from the edge line, straight between columns.
  [[nodiscard]] double height(double at) const {
    const auto middle = [](const EdgeColumn& c) { return 0.5 * (c.from + c.to); };
    const auto base = [](const EdgeColumn& c) { return c.height - c.burr; };
    std::size_t k = 1;
    while (k + 1 < columns_.size() && middle(columns_[k]) < at)
      ++k;
    if (k >= columns_.size()) return base(columns_.front());
    const EdgeColumn& a = columns_[k - 1];
    const EdgeColumn& b = columns_[k];
    const double share = (at - middle(a)) / (middle(b) - middle(a));
    return base(a) + std::min(share, 1.0) * (base(b) - base(a));
  }

  const std::vector<EdgeColumn>& columns_;
};

/// Radius to which a share of the work rounds a corner.
double rounded_to(const Corner& corner, const EdgeWork& work, double share, double largest) {
  std::vector<double> radius;
  std::vector<double> area;
  for (double r = least_radius; r < next_radius * largest; r *= next_radius) {
    radius.push_back(std::min(r, largest));
    area.push_back(corner.area(radius.back()));
  }
  // An arc inside an older one seems to cut where only the older one's slope misleads it.
  for (std::size_t i = area.size(); i-- > 1;)
    area[i - 1] = std::min(area[i - 1], area[i]);
  double from = 0.0;
  double cut = 0.0;
  for (std::size_t i = 0; i < radius.size(); ++i) {
    const double more = area[i] - cut;
    const double rate = work.sharp + work.per_radius * 0.5 * (from + radius[i]);
    if (more > share * rate) {
      const double part = share * rate / more;
      return std::sqrt(from * from + part * (radius[i] * radius[i] - from * from));
    }
    share -= more / rate;
    from = radius[i];
    cut = area[i];
  }
  return cut > no_area ? from : 0.0;
}

}  // namespace

EdgeWear wear_edge(const std::vector<EdgeColumn>& columns, const EdgeWork& work, double ease,
                   double largest) {
  EdgeWear wear{std::vector<double>(columns.size(), 0.0), 0.0};
  if (columns.empty() || work.sharp <= 0.0) return wear;
  double burr = 0.0;
  for (const EdgeColumn& column : columns)
    burr += column.burr * width(column);
  const double spent = burr / (ease * work.sharp);
  if (spent >= 1.0) {
    wear.depth = levelled(columns, ease * work.sharp);
    return wear;
  }
  const Corner corner(columns);
  wear.radius = rounded_to(corner, work, 1.0 - spent, largest);
  for (std::size_t i = 0; i < columns.size(); ++i)
    wear.depth[i] = columns[i].burr;
  if (wear.radius > 0.0)
    corner.cut(wear.radius, [&](std::size_t i, double depth) { wear.depth[i] += depth; });
  return wear;
}

}  // namespace drumlin::sim
