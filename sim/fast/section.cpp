#include "sim/fast/section.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <variant>

namespace drumlin::sim::fast {
namespace {

/// Cells on a burr's root: pressure falls by half across it.
constexpr int root_cells = 3;
/// First cell beside an edge without burr [mm]: belts spread a sharp load over 0.15 mm and more.
constexpr double edge_cell = 0.05;
/// Each cell is so much wider than its neighbour towards the edge.
constexpr double grading = 1.5;

/// Widths from an edge into the metal.
std::vector<double> widths(const models::WallBurr* wall, const SectionCut& cut) {
  std::vector<double> list;
  double width = edge_cell;
  double reached = 0.0;
  if (wall != nullptr) {
    width = wall->root / root_cells;
    list.assign(root_cells, width);
    reached = wall->root;
  }
  while (reached < cut.extent) {
    list.push_back(width);
    reached += width;
    width = std::min(grading * width, std::max(cut.widest, width));
  }
  return list;
}

struct Cell {
  double from, to, burr;
};

std::vector<Cell> cells_of(const SectionSide& side, const SectionCut& cut) {
  const auto* wall = std::get_if<models::WallBurr>(&side.burr);
  std::vector<Cell> cells;
  double in = 0.0;
  for (const double width : widths(wall, cut)) {
    const double burr = wall != nullptr ? models::profile(*wall, in + 0.5 * width) : 0.0;
    cells.push_back({side.x + side.metal * (side.metal > 0 ? in : in + width),
                     side.x + side.metal * (side.metal > 0 ? in + width : in), burr});
    in += width;
  }
  if (side.metal < 0) std::reverse(cells.begin(), cells.end());
  return cells;
}

}  // namespace

Section unworn_section(std::string name, const std::vector<SectionSide>& sides,
                       const SectionCut& cut) {
  Section section;
  section.name = std::move(name);
  // From -x to +x: the side whose metal lies towards -x comes first.
  const std::vector<SectionSide> ordered(sides.rbegin(), sides.rend());
  for (const SectionSide& side : ordered) {
    const std::vector<Cell> cells = cells_of(side, cut);
    const bool burred = std::holds_alternative<models::WallBurr>(side.burr);
    const std::size_t first = section.size();
    const std::size_t rim = side.metal > 0 ? first : first + cells.size() - 1;
    section.rims.insert(section.rims.begin(),
                        SectionRim{.name = side.name,
                                   .cell = rim,
                                   .metal = side.metal,
                                   .reach = burred ? std::size_t{root_cells} : 0,
                                   .x = side.x});
    for (std::size_t i = 0; i < cells.size(); ++i) {
      section.from.push_back(cells[i].from);
      section.to.push_back(cells[i].to);
      section.height.push_back(cells[i].burr);
      section.burr.push_back(cells[i].burr);
      const std::size_t from_rim = side.metal > 0 ? i : cells.size() - 1 - i;
      // Drawn from the base metal, a burr carries no coating, nor does the root it leaves.
      const bool root = burred && from_rim < std::size_t{root_cells};
      section.coating.push_back(root ? 0.0 : cut.coating);
    }
  }
  return section;
}

double burr_height(const Section& section, const SectionRim& rim, const PlainFace& face) {
  double highest = section.height[rim.cell];
  for (std::size_t i = 1; i < rim.reach; ++i)
    highest = std::max(highest, section.height[Section::inwards(rim, i)]);
  return highest + face.removed;
}

double edge_drop(const Section& section, const SectionRim& rim, const PlainFace& face) {
  const std::size_t outer = rim.cell;
  const std::size_t inner = Section::inwards(rim, 1);
  const double half = 0.5 * (section.to[outer] - section.from[outer]);
  const double slope = (section.height[inner] - section.height[outer]) /
                       std::abs(section.x(inner) - section.x(outer));
  return -(section.height[outer] - slope * half + face.removed);
}

double coating_left(const Section& section, const SectionRim& rim, const PlainFace& face,
                    double beyond) {
  double least = face.coating;
  for (std::size_t i = rim.reach;; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    if (cell >= section.size() || (rim.metal > 0) != (section.x(cell) > rim.x)) break;
    if (std::abs(section.x(cell) - rim.x) >= beyond) least = std::min(least, section.coating[cell]);
    if (rim.metal < 0 && cell == 0) break;
  }
  return least;
}

}  // namespace drumlin::sim::fast
