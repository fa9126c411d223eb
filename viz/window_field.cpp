#include "viz/window_field.hpp"

#include <algorithm>
#include <cmath>

namespace drumlin::viz {

WindowField::WindowField(const sim::Window& window) : window_(window) {
  const std::size_t n = window.map.cells;
  leaf_of_.assign(n * n, 0);
  const auto point = [&](std::size_t i, std::size_t j) {
    const sim::MapPoint at{i, j};
    const auto found = std::lower_bound(
        window.points.begin(), window.points.end(), at,
        [](const sim::WindowPoint& p, const sim::MapPoint& sought) { return p.at < sought; });
    return static_cast<std::size_t>(found - window.points.begin());
  };
  for (const sim::MapCell& cell : window.map.leaves) {
    const auto [i, j] = cell.corner;
    const std::size_t s = cell.side;
    for (std::size_t b = 0; b < s; ++b)
      for (std::size_t a = 0; a < s; ++a)
        leaf_of_[(j + b) * n + i + a] = leaves_.size();
    leaves_.push_back(
        {&cell, {point(i, j), point(i + s, j), point(i, j + s), point(i + s, j + s)}});
  }
}

int WindowField::kind_at(const sim::MapPlace& place) const {
  const std::size_t n = window_.map.cells;
  const auto scaled = [&](double share) {
    return std::clamp(share, 0.0, 1.0) * static_cast<double>(n);
  };
  const double x = scaled(place[0]);
  const double y = scaled(place[1]);
  const auto cell = [&](double at) { return std::min(n - 1, static_cast<std::size_t>(at)); };
  const Leaf& leaf = leaves_[leaf_of_[cell(y) * n + cell(x)]];
  if (!leaf.cell->at_border) return leaf.cell->kind;
  const auto side = static_cast<double>(leaf.cell->side);
  const double u = (x - static_cast<double>(leaf.cell->corner.i)) / side;
  const double v = (y - static_cast<double>(leaf.cell->corner.j)) / side;
  const double weight[4] = {(1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v};
  const std::size_t nearest = (u < 0.5 ? 0U : 1U) + (v < 0.5 ? 0U : 2U);
  for (const std::size_t corner : leaf.corner)
    if (window_.points[corner].kind < sim::accepted_kind)
      return window_.points[leaf.corner[nearest]].kind;
  std::vector<double> margins(window_.limits.size(), 0.0);
  for (std::size_t k = 0; k < margins.size(); ++k)
    for (std::size_t c = 0; c < 4; ++c)
      margins[k] += weight[c] * window_.points[leaf.corner[c]].margins[k];
  return sim::failing_kind(margins);
}

}  // namespace drumlin::viz
