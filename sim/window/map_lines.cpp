#include "sim/window/map_lines.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <set>
#include <utility>

namespace drumlin::sim {
namespace {

/// A side of a cell, by its ends in rising order.
using Side = std::pair<MapPoint, MapPoint>;

struct Crossing {
  MapPlace place{};
  int kind = 0;
};

struct Segment {
  Side from, to;
};

class March {
 public:
  March(const AdaptiveMap& map, const MapField& field) : map_(map), field_(field) {
    for (const MapCell& leaf : map.leaves)
      if (leaf.at_border) cross(leaf);
  }

  std::vector<WindowLine> joined();

 private:
  void cross(const MapCell& leaf);
  void add(const Side& from, const Side& to);
  [[nodiscard]] Side crossed(const MapPoint& a, const MapPoint& b);
  [[nodiscard]] std::vector<Side> walk(std::size_t first, Side from);

  const AdaptiveMap& map_;
  const MapField& field_;
  std::map<Side, Crossing> crossings_;
  std::vector<Segment> segments_;
  std::map<Side, std::vector<std::size_t>> meeting_;
  std::vector<char> used_;
};

Side March::crossed(const MapPoint& a, const MapPoint& b) {
  const Side side = std::minmax(a, b);
  if (crossings_.contains(side)) return side;
  const bool first = field_.inside(side.first);
  const MapPoint& inner = first ? side.first : side.second;
  const MapPoint& outer = first ? side.second : side.first;
  const MapField::Turn turn = field_.turn(inner, outer);
  const auto n = static_cast<double>(map_.cells);
  const auto between = [&](std::size_t from, std::size_t to) {
    const auto start = static_cast<double>(from);
    return (start + turn.share * (static_cast<double>(to) - start)) / n;
  };
  crossings_[side] = {{between(inner.i, outer.i), between(inner.j, outer.j)}, turn.kind};
  return side;
}

void March::add(const Side& from, const Side& to) {
  for (const Side& side : {from, to})
    meeting_[side].push_back(segments_.size());
  segments_.push_back({from, to});
}

void March::cross(const MapCell& leaf) {
  const auto [i, j] = leaf.corner;
  const std::size_t s = leaf.side;
  const std::array<MapPoint, 4> corners{MapPoint{i, j}, MapPoint{i + s, j}, MapPoint{i + s, j + s},
                                        MapPoint{i, j + s}};
  std::array<bool, 4> inside{};
  for (std::size_t k = 0; k < 4; ++k)
    inside.at(k) = field_.inside(corners.at(k));
  std::vector<Side> sides;  // crossed ones, going round
  for (std::size_t k = 0; k < 4; ++k)
    if (inside.at(k) != inside.at((k + 1) % 4))
      sides.push_back(crossed(corners.at(k), corners.at((k + 1) % 4)));
  if (sides.size() == 2) add(sides[0], sides[1]);
  if (sides.size() != 4) return;
  // Sides lie between corners 0-1, 1-2, 2-3, 3-0. If the middle goes with corner 0, corners 1 and
  // 3 are cut off; else corners 0 and 2.
  if (field_.middle_inside(corners) == inside[0]) {
    add(sides[0], sides[1]);
    add(sides[2], sides[3]);
  } else {
    add(sides[3], sides[0]);
    add(sides[1], sides[2]);
  }
}

/// From a side on along segments that are not used yet.
std::vector<Side> March::walk(std::size_t first, Side from) {
  std::vector<Side> way{from};
  std::size_t segment = first;
  while (true) {
    used_[segment] = 1;
    from = segments_[segment].from == from ? segments_[segment].to : segments_[segment].from;
    way.push_back(from);
    const auto& here = meeting_.at(from);
    const auto next =
        std::find_if(here.begin(), here.end(), [&](std::size_t k) { return used_[k] == 0; });
    if (next == here.end()) return way;
    segment = *next;
  }
}

std::vector<WindowLine> March::joined() {
  used_.assign(segments_.size(), 0);
  std::vector<WindowLine> lines;
  const auto take = [&](std::size_t first, const Side& from) {
    WindowLine line;
    for (const Side& side : walk(first, from)) {
      const Crossing& crossing = crossings_.at(side);
      line.places.push_back(crossing.place);
      line.kinds.push_back(crossing.kind);
    }
    lines.push_back(std::move(line));
  };
  for (const auto& [side, meeting] : meeting_)  // open lines from one of their ends
    if (meeting.size() == 1 && used_[meeting[0]] == 0) take(meeting[0], side);
  for (std::size_t k = 0; k < segments_.size(); ++k)
    if (used_[k] == 0) take(k, segments_[k].from);
  return lines;
}

}  // namespace

std::vector<WindowLine> lines_of(const AdaptiveMap& map, const MapField& field) {
  return March(map, field).joined();
}

BorderDistances distances_from(const MapPlace& place, int kind,
                               std::span<const WindowLine> border) {
  BorderDistances distances;
  for (std::size_t axis = 0; axis < 2; ++axis) {
    const std::size_t other = 1 - axis;
    // Just inside the map: a line that ends at its rim is crossed there too.
    const double level = std::clamp(place[other], 0.0, 1 - 1e-9);
    for (const WindowLine& line : border)
      for (std::size_t k = 0; k + 1 < line.places.size(); ++k) {
        const MapPlace& a = line.places[k];
        const MapPlace& b = line.places[k + 1];
        // Half open, so that a ray through a joint counts it once.
        if ((a[other] <= level) == (b[other] <= level)) continue;
        const double t = (level - a[other]) / (b[other] - a[other]);
        const double along = a[axis] + t * (b[axis] - a[axis]) - place[axis];
        BorderDistance& nearest = distances[axis][along < 0 ? 0 : 1];
        if (nearest.share && *nearest.share <= std::abs(along)) continue;
        nearest.share = std::abs(along);
        nearest.beyond = kind != accepted_kind ? accepted_kind : line.kinds[t < 0.5 ? k : k + 1];
      }
  }
  return distances;
}

}  // namespace drumlin::sim
