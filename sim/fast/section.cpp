#include "sim/fast/section.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <variant>

#include "sim/fast/burr_columns.hpp"
#include "sim/fast/hanging_lip.hpp"

namespace drumlin::sim::fast {
namespace {

/// Cells on a burr's root: pressure falls by half across it.
constexpr int root_cells = 3;
/// On a bead, whose round top meets the belt in its middle.
constexpr int bead_cells = 5;
/// First cell beside an edge without burr [mm]: belts spread a sharp load over 0.15 mm and more.
constexpr double edge_cell = 0.05;
/// Each cell is so much wider than its neighbour towards the edge.
constexpr double grading = 1.5;

/// Cells on a burr's footprint, of a length in the section.
int footprint_cells(const models::AnyBurr& burr, double length, const SectionCut& cut) {
  if (length <= 0.0) return 0;
  const int fewest = std::holds_alternative<models::Bead>(burr) ? bead_cells : root_cells;
  return std::max(fewest, static_cast<int>(std::ceil(length / cut.widest)));
}

struct Layout {
  std::vector<double> widths;  // from the edge into the metal
  std::size_t reach;           // of them on the burr's footprint
};

Layout layout_of(const SectionSide& side, const SectionCut& cut) {
  const double length = footprint(side.burr) / side.across;
  const int cells = footprint_cells(side.burr, length, cut);
  double width = cells > 0 ? length / cells : edge_cell;
  Layout layout{std::vector<double>(static_cast<std::size_t>(cells), width),
                static_cast<std::size_t>(cells)};
  double reached = length;
  while (reached < cut.extent) {
    layout.widths.push_back(width);
    reached += width;
    width = std::min(grading * width, std::max(cut.widest, width));
  }
  return layout;
}

void add_cell(Section& section, const SectionSide& side, const SectionCut& cut, double in,
              double out, bool root) {
  section.from.push_back(side.metal > 0 ? in : out);
  section.to.push_back(side.metal > 0 ? out : in);
  const double line = side.x - side.metal * models::protrusion_of(side.burr) / side.across;
  const double burr =
      mean_height(side.burr, side.across * std::abs(in - line), side.across * std::abs(out - line));
  section.height.push_back(burr);
  section.burr.push_back(burr);
  // Metal of the sheet carries no coating, nor does the root it leaves; a bead lies on it.
  const bool bare = root && models::is_drawn_from_sheet(side.burr);
  section.coating.push_back(bare ? 0.0 : cut.coating);
  section.top.push_back(bare ? 0.0 : cut.top);
}

void add_side(Section& section, const SectionSide& side, const SectionCut& cut) {
  const Layout layout = layout_of(side, cut);
  const std::size_t n = layout.widths.size();
  const std::size_t first = section.size();
  SectionRim rim{.name = side.name,
                 .cell = side.metal > 0 ? first : first + n - 1,
                 .metal = side.metal,
                 .reach = layout.reach,
                 .x = side.x - side.metal * models::protrusion_of(side.burr) / side.across,
                 .burr = side.burr,
                 .across = side.across};
  if (const auto* rolled = std::get_if<models::RolledBurr>(&side.burr)) {
    rim.lip = models::flat_lip(rolled->overhang, rolled->thickness);
    rim.beyond = true;
    rim.lip_worn.assign(lip_bounds(*rim.lip).size() - 1, 0.0);
  }
  std::vector<double> marks = {rim.x};
  for (const double width : layout.widths)
    marks.push_back(marks.back() + side.metal * width);
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t k = side.metal > 0 ? i : n - 1 - i;
    add_cell(section, side, cut, marks[k], marks[k + 1], k < layout.reach);
  }
  section.rims.insert(section.rims.begin(), std::move(rim));
}

}  // namespace

std::size_t Section::depth(const SectionRim& rim) const noexcept {
  std::size_t cells = 1;
  for (;; ++cells) {
    if (rim.metal < 0 && rim.cell < cells) return cells;
    const std::size_t at = inwards(rim, cells);
    if (at >= size() || (rim.metal > 0) != (x(at) > rim.x)) return cells;
  }
}

double Section::covered(const SectionRim& rim) const noexcept {
  double length = 0.0;
  for (std::size_t i = 0; i < rim.reach + rim.laid; ++i)
    length += width(inwards(rim, i));
  return length;
}

Section unworn_section(std::string name, const std::vector<SectionSide>& sides,
                       const SectionCut& cut) {
  Section section;
  section.name = std::move(name);
  // From -x to +x: the side whose metal lies towards -x comes first.
  const std::vector<SectionSide> ordered(sides.rbegin(), sides.rend());
  for (const SectionSide& side : ordered)
    add_side(section, side, cut);
  return section;
}

void take_off(Section& section, std::size_t cell, double depth) {
  section.height[cell] -= depth;
  for (auto* layer : {&section.burr, &section.top, &section.coating}) {
    const double taken = std::min((*layer)[cell], depth);
    (*layer)[cell] -= taken;
    depth -= taken;
  }
}

double burr_height(const Section& section, const SectionRim& rim, const PlainFace& face) {
  double highest = section.height[rim.cell];
  for (std::size_t i = 1; i < rim.reach + rim.laid; ++i)
    highest = std::max(highest, section.height[Section::inwards(rim, i)]);
  return highest + face.removed;
}

double burr_metal(const Section& section, const SectionRim& rim) {
  double most = 0.0;
  for (std::size_t i = 0; i < rim.reach + rim.laid; ++i)
    most = std::max(most, section.burr[Section::inwards(rim, i)]);
  return most;
}

double edge_drop(const Section& section, const SectionRim& rim, const PlainFace& face) {
  const std::size_t outer = rim.cell;
  const std::size_t inner = Section::inwards(rim, 1);
  const double half = 0.5 * section.width(outer);
  const double slope = (section.height[inner] - section.height[outer]) /
                       std::abs(section.x(inner) - section.x(outer));
  return -(section.height[outer] - slope * half + face.removed);
}

double coating_left(const Section& section, const SectionRim& rim, const PlainFace& face,
                    double beyond) {
  double least = face.coating;
  const std::size_t depth = section.depth(rim);
  for (std::size_t i = rim.reach; i < depth; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    if (rim.across * std::abs(section.x(cell) - rim.x) >= beyond)
      least = std::min(least, section.coating[cell]);
  }
  return least;
}

}  // namespace drumlin::sim::fast
