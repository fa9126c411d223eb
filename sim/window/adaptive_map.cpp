#include "sim/window/adaptive_map.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>

namespace drumlin::sim {
namespace {

using Corners = std::array<MapPoint, 4>;

Corners corners_of(const MapCell& cell) {
  const auto [i, j] = cell.corner;
  const std::size_t s = cell.side;
  return {MapPoint{i, j}, MapPoint{i + s, j}, MapPoint{i, j + s}, MapPoint{i + s, j + s}};
}

/// Cuts cells until every border lies in cells of the finest side.
class Refinement {
 public:
  Refinement(const MapPlan& plan, const KindsOf& kinds_of) : plan_(plan), kinds_of_(kinds_of) {
    const std::size_t side = std::size_t{1} << plan.levels;
    std::vector<MapCell> coarse;
    for (std::size_t j = 0; j < plan.coarse; ++j)
      for (std::size_t i = 0; i < plan.coarse; ++i)
        coarse.push_back({{i * side, j * side}, side});
    take(coarse);
  }

  AdaptiveMap finished() {
    while (cut_once()) {
    }
    AdaptiveMap map;
    map.cells = plan_.cells();
    map.stopped_early = stopped_early_;
    for (auto& [corner, cell] : cells_) {
      cell.kind = known_.at(corner);
      cell.at_border = mixed(cell);
      map.leaves.push_back(cell);
    }
    for (const auto& [point, kind] : known_) {
      map.points.push_back(point);
      map.kinds.push_back(kind);
    }
    return map;
  }

 private:
  /// Takes cells in and evaluates those of their corners that are not known yet.
  void take(const std::vector<MapCell>& cells) {
    std::set<MapPoint> wanted;
    for (const MapCell& cell : cells) {
      cells_.insert_or_assign(cell.corner, cell);
      for (const MapPoint& corner : corners_of(cell))
        if (!known_.contains(corner)) wanted.insert(corner);
    }
    const std::vector<MapPoint> points(wanted.begin(), wanted.end());
    const std::vector<int> kinds = kinds_of_(points);
    for (std::size_t k = 0; k < points.size(); ++k)
      known_[points[k]] = kinds[k];
  }

  /// Whether a border runs through a cell: its corners differ, or points on its sides that finer
  /// neighbours have brought do.
  [[nodiscard]] bool mixed(const MapCell& cell) const {
    const int first = known_.at(cell.corner);
    for (const MapPoint& corner : corners_of(cell))
      if (known_.at(corner) != first) return true;
    return any_on_sides(cell, [first](int kind) { return kind != first; });
  }

  /// Whether a point that finer neighbours have brought to a side of a cell is of such a kind.
  template <class Is>
  [[nodiscard]] bool any_on_sides(const MapCell& cell, const Is& is) const {
    for (std::size_t at = 1; at < cell.side; ++at)
      for (const MapPoint& point : {MapPoint{cell.corner.i + at, cell.corner.j},
                                    MapPoint{cell.corner.i + at, cell.corner.j + cell.side},
                                    MapPoint{cell.corner.i, cell.corner.j + at},
                                    MapPoint{cell.corner.i + cell.side, cell.corner.j + at}})
        if (const auto found = known_.find(point); found != known_.end() && is(found->second))
          return true;
    return false;
  }

  /// Whether a mixed cell is to be cut.
  [[nodiscard]] bool wanted(const MapCell& cell) const {
    if (cell.side <= 1) return false;
    if (!plan_.levels_without_zero ||
        cell.side > std::size_t{1}
                        << (plan_.levels - std::min(plan_.levels, *plan_.levels_without_zero)))
      return mixed(cell);
    return has_zero(cell) && mixed(cell);
  }

  /// Whether a corner is of kind 0, or a point that finer neighbours have brought to a side.
  [[nodiscard]] bool has_zero(const MapCell& cell) const {
    for (const MapPoint& corner : corners_of(cell))
      if (known_.at(corner) == 0) return true;
    return any_on_sides(cell, [](int kind) { return kind == 0; });
  }

  [[nodiscard]] static std::array<MapCell, 4> quarters(const MapCell& cell) {
    const std::size_t s = cell.side / 2;
    const auto [i, j] = cell.corner;
    return {MapCell{{i, j}, s}, MapCell{{i + s, j}, s}, MapCell{{i, j + s}, s},
            MapCell{{i + s, j + s}, s}};
  }

  /// Cuts all mixed cells of the largest side that occurs among them; false when none is left or
  /// the evaluations are used up.
  bool cut_once() {
    std::size_t side = 0;
    for (const auto& [corner, cell] : cells_)
      if (cell.side > side && wanted(cell)) side = cell.side;
    if (side == 0) return false;
    std::vector<MapCell> pieces;
    std::vector<MapPoint> whole;
    std::set<MapPoint> added;
    for (const auto& [corner, cell] : cells_) {
      if (cell.side != side || !wanted(cell)) continue;
      const auto four = quarters(cell);
      std::set<MapPoint> more;
      for (const MapCell& piece : four)
        for (const MapPoint& point : corners_of(piece))
          if (!known_.contains(point) && !added.contains(point)) more.insert(point);
      if (known_.size() + added.size() + more.size() > plan_.most_evaluations) {
        stopped_early_ = true;
        break;
      }
      added.merge(more);
      whole.push_back(corner);
      pieces.insert(pieces.end(), four.begin(), four.end());
    }
    if (whole.empty()) return false;
    for (const MapPoint& corner : whole)
      cells_.erase(corner);
    take(pieces);
    return !stopped_early_;
  }

  const MapPlan& plan_;
  const KindsOf& kinds_of_;
  std::map<MapPoint, MapCell> cells_;  // by corner: leaves never share one
  std::map<MapPoint, int> known_;
  bool stopped_early_ = false;
};

}  // namespace

AdaptiveMap adaptive_map(const MapPlan& plan, const KindsOf& kinds_of) {
  return Refinement(plan, kinds_of).finished();
}

int AdaptiveMap::kind_at(MapPoint point) const {
  const auto at = std::lower_bound(points.begin(), points.end(), point);
  if (at != points.end() && *at == point)
    return kinds[static_cast<std::size_t>(at - points.begin())];
  for (const MapCell& cell : leaves)
    if (point.i >= cell.corner.i && point.i <= cell.corner.i + cell.side &&
        point.j >= cell.corner.j && point.j <= cell.corner.j + cell.side)
      return cell.kind;
  return 0;
}

WidestBox widest_box(const AdaptiveMap& map, int kind) {
  // Cells of the finest grid that are of this kind all over, and the largest square of them that
  // ends in each: the usual recurrence over left, lower and lower-left neighbours.
  const std::size_t n = map.cells;
  std::vector<std::size_t> square(n * n, 0);
  std::vector<char> free(n * n, 0);
  for (const MapCell& cell : map.leaves) {
    if (cell.at_border || cell.kind != kind) continue;
    for (std::size_t j = 0; j < cell.side; ++j)
      for (std::size_t i = 0; i < cell.side; ++i)
        free[(cell.corner.j + j) * n + cell.corner.i + i] = 1;
  }
  std::size_t best = 0;
  std::vector<MapPoint> middles;  // of all boxes that are as wide
  for (std::size_t j = 0; j < n; ++j)
    for (std::size_t i = 0; i < n; ++i) {
      std::size_t& here = square[j * n + i];
      if (free[j * n + i] == 0) continue;
      here = i == 0 || j == 0 ? 1
                              : 1 + std::min({square[j * n + i - 1], square[(j - 1) * n + i],
                                              square[(j - 1) * n + i - 1]});
      const std::size_t even = here - here % 2;  // so that the middle is a point of the grid
      if (even == 0 || even < best) continue;
      if (even > best) middles.clear();
      best = even;
      middles.push_back({i + 1 - here + even / 2, j + 1 - here + even / 2});
    }
  if (middles.empty()) return {};
  // Of boxes that are as wide, the one in the middle of them all.
  double i = 0;
  double j = 0;
  for (const MapPoint& middle : middles) {
    i += static_cast<double>(middle.i) / static_cast<double>(middles.size());
    j += static_cast<double>(middle.j) / static_cast<double>(middles.size());
  }
  const auto away = [&](const MapPoint& point) {
    const double di = static_cast<double>(point.i) - i;
    const double dj = static_cast<double>(point.j) - j;
    return di * di + dj * dj;
  };
  const MapPoint chosen =
      *std::min_element(middles.begin(), middles.end(),
                        [&](const MapPoint& a, const MapPoint& b) { return away(a) < away(b); });
  return {chosen, best / 2};
}

}  // namespace drumlin::sim
