#include "sim/line/surface.hpp"

#include <algorithm>
#include <cmath>
#include <type_traits>
#include <utility>

#include "sim/answer.hpp"
#include "sim/line/cut_edge.hpp"
#include "sim/line/hinge.hpp"
#include "sim/turned.hpp"

namespace drumlin::sim::line {
namespace {

using cases::FeatureKind;
using cases::Side;

/// Drum-scale cell [mm], or a share of half the patch if that is narrow: a pass over a burr beside
/// a hole then differs by less than 0.1 % from one with cells of 0.1 mm.
constexpr double drum_cell = 0.25;
constexpr double patch_cells = 50.0;
/// Room beyond the readable length, in half patches: one to the axis and one beyond it, and
/// one to spare.
constexpr double lead_in = 3.0;

double protrusion(const CutEdge& edge) {
  return edge.stretch * models::protrusion_of(edge.burr);
}

/// An edge with its burr, a rolled one laid over the opening too.
void add_edge(Strip& strip, const CutEdge& cut, double specific_energy, int line, int metal) {
  StripEdge edge = set_edge(strip, cut, specific_energy, line, metal);
  if (const auto* rolled = std::get_if<models::RolledBurr>(&cut.burr))
    lay_rolled_burr(strip, edge, *rolled);
  strip.edges.push_back(std::move(edge));
}

int units(double length, double unit) {
  return static_cast<int>(std::ceil(length / unit));
}

/// How a strip is cut.
struct Cut {
  double unit;
  int half;  ///< length to either side of x = 0 [units]
  std::vector<int> lines;
};

/// What every strip of a face is cut by.
struct Cutter {
  const cases::Part& part;
  FaceSide face;
  const Fineness& fineness;
  double reach;      ///< [mm] half the patch of the widest drum
  double narrowest;  ///< [mm] half that of the narrowest

  [[nodiscard]] Strip blank(const Cut& cut, double fine) const;
  [[nodiscard]] Strip opening(std::string name, double size, const CutEdge& trailing,
                              const CutEdge& leading) const;
  [[nodiscard]] Strip outer(const CutEdge& edge, Side fed) const;
  [[nodiscard]] CutEdge edge(const cases::Feature& feature, Side drawn, std::size_t which,
                             double skew) const;
};

Strip Cutter::blank(const Cut& cut, double fine) const {
  Strip strip;
  if (fineness.nested) {
    const double widest = std::min(drum_cell, narrowest / patch_cells);
    strip.cells = graded_cells(cut.unit, -cut.half, cut.half, cut.lines, units(fine, cut.unit),
                               cell_growth, std::max(1, static_cast<int>(widest / cut.unit)));
  } else {
    strip.cells = graded_cells(cut.unit, -cut.half, cut.half, {}, 2 * cut.half, 0.0, 1);
  }
  lay_face(strip, unworn_face(part, face));
  return strip;
}

/// Cuts the metal away between two bounds.
void open(Strip& strip, int from, int to) {
  for (std::size_t i = 0; i < strip.size(); ++i) {
    if (strip.cells.bounds[i] >= from && strip.cells.bounds[i + 1] <= to) strip.metal[i] = 0;
  }
}

double fine_zone(const CutEdge& edge) {
  return fine_margin + footprint(edge);
}

CutEdge Cutter::edge(const cases::Feature& feature, Side drawn, std::size_t which,
                     double skew) const {
  CutEdge cut;
  cut.name = edge_name(feature, drawn) + (which > 0 ? "#2" : "");
  cut.stretch = 1.0 / std::cos(skew);
  cut.burr = face == FaceSide::burrs ? feature.burr : models::on_reverse(feature.burr);
  return cut;
}

Strip Cutter::opening(std::string name, double size, const CutEdge& trailing,
                      const CutEdge& leading) const {
  const double unit = std::min(cell_width(trailing, fineness), cell_width(leading, fineness));
  const int half_open = std::max(1, static_cast<int>(std::lround(0.5 * size / unit)));
  const int half = half_open + units(readable + lead_in * reach, unit);
  const double fine = std::max(fine_zone(trailing), fine_zone(leading));
  // Cells are fine at edge lines and where lips end.
  std::vector<int> lines{-half_open, half_open};
  const auto tip = [&](int line, int way, const CutEdge& edge) {
    const int at = line + way * units(lip_length(edge), unit);
    if (at != line && std::abs(at) < half_open) lines.push_back(at);
  };
  tip(half_open, -1, trailing);
  tip(-half_open, +1, leading);
  std::sort(lines.begin(), lines.end());
  lines.erase(std::unique(lines.begin(), lines.end()), lines.end());
  Strip strip = blank({unit, half, std::move(lines)}, fine);
  strip.name = std::move(name);
  open(strip, -half_open, half_open);
  // The drum travels towards -x: it leaves the metal at the rim on the +x side.
  add_edge(strip, trailing, part.material.specific_energy.value, half_open, +1);
  add_edge(strip, leading, part.material.specific_energy.value, -half_open, -1);
  return strip;
}

Strip Cutter::outer(const CutEdge& cut, Side fed) const {
  const double unit = cell_width(cut, fineness);
  const int half = units(readable + lead_in * reach, unit);
  const int metal = fed == Side::leading ? -1 : +1;  // it enters first: metal lies towards -x
  // Over a stub the metal reaches farther out: the section's edge line is the tab's end.
  const int line = -metal * units(protrusion(cut), unit);
  std::vector<int> lines{line};
  if (lip_length(cut) > 0.0)
    lines.insert(metal > 0 ? lines.begin() : lines.end(),
                 line - metal * units(lip_length(cut), unit));
  Strip strip = blank({unit, half, std::move(lines)}, fine_zone(cut));
  strip.name = cut.name;
  open(strip, metal < 0 ? line : -half, metal < 0 ? half : line);
  add_edge(strip, cut, part.material.specific_energy.value, line, metal);
  return strip;
}

/// Strips through an opening: one, or more where a turned part brings more than one of its edges
/// under the same rim.
void cut_opening(const Cutter& cutter, const cases::Feature& feature, std::vector<Strip>& strips) {
  std::vector<CutEdge> trailing;
  std::vector<CutEdge> leading;
  for (const Side drawn : sides_of(feature)) {
    const auto fed = fed_edges(cutter.part.angle, drawn);
    for (std::size_t k = 0; k < fed.size(); ++k) {
      if (fed[k].side == Side::side) continue;
      auto& rims = fed[k].side == Side::trailing ? trailing : leading;
      rims.push_back(cutter.edge(feature, drawn, k, fed[k].skew));
    }
  }
  for (std::size_t k = 0; k < std::max(trailing.size(), leading.size()); ++k) {
    const CutEdge none;
    strips.push_back(cutter.opening(feature.name + (k > 0 ? "#2" : ""), feature.size.value_or(0.0),
                                    k < trailing.size() ? trailing[k] : none,
                                    k < leading.size() ? leading[k] : none));
  }
}

/// Widths from one end of a stretch, `far` to its middle or its other end.
std::vector<int> outward(int far, int fine, double growth, int widest) {
  std::vector<int> widths;
  for (int at = 0; at < far;) {
    const double wanted = 1.0 + growth * std::max(at - fine, 0);
    const int width = std::min(std::clamp(static_cast<int>(wanted), 1, widest), far - at);
    widths.push_back(width);
    at += width;
  }
  return widths;
}

}  // namespace

CellRow graded_cells(double unit, int from, int to, const std::vector<int>& lines, int fine,
                     double growth, int widest) {
  CellRow row{unit, {from}};
  const auto lay = [&](const std::vector<int>& widths) {
    for (const int width : widths)
      row.bounds.push_back(row.bounds.back() + width);
  };
  const auto lay_backwards = [&](std::vector<int> widths) {
    std::reverse(widths.begin(), widths.end());
    lay(widths);
  };
  if (lines.empty()) {
    lay(outward(to - from, fine, growth, widest));
    return row;
  }
  lay_backwards(outward(lines.front() - from, fine, growth, widest));
  for (std::size_t k = 0; k + 1 < lines.size(); ++k) {
    const int length = lines[k + 1] - lines[k];
    lay(outward(length / 2, fine, growth, widest));
    lay_backwards(outward(length - length / 2, fine, growth, widest));
  }
  lay(outward(to - lines.back(), fine, growth, widest));
  return row;
}

Surface unworn_surface(const cases::Part& part, const Fineness& fineness, double reach,
                       double narrowest, FaceSide face) {
  Surface surface;
  surface.face = unworn_face(part, face);
  const Cutter cutter{part, face, fineness, reach, narrowest};
  for (const auto& feature : part.features) {
    if (feature.kind == FeatureKind::hole || feature.kind == FeatureKind::slot) {
      cut_opening(cutter, feature, surface.strips);
      continue;
    }
    for (const Side drawn : sides_of(feature)) {
      const auto fed = fed_edges(part.angle, drawn);
      for (std::size_t k = 0; k < fed.size(); ++k) {
        if (fed[k].side == Side::side) continue;
        surface.strips.push_back(
            cutter.outer(cutter.edge(feature, drawn, k, fed[k].skew), fed[k].side));
      }
    }
  }
  return surface;
}

}  // namespace drumlin::sim::line
