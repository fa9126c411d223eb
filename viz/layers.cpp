#include "viz/layers.hpp"

#include <algorithm>
#include <vector>

#include "viz/section_view.hpp"

namespace drumlin::viz {
namespace {

void fill_hanging(Canvas& canvas, const Plot& plot, std::span<const double> x, const Piece& piece,
                  std::span<const double> surface, std::span<const double> underside) {
  std::vector<Point> bottom;
  std::vector<Point> top;
  for (std::size_t i = piece.first; i <= piece.last; ++i) {
    bottom.push_back(plot.at(x[i], underside[i]));
    top.push_back(plot.at(x[i], surface[i]));
  }
  canvas.fill_between(bottom, top, palette::burr);
  canvas.line(top, {palette::ink, 3, 0});
  canvas.line(bottom, {palette::ink, 3, 0});
  for (const std::size_t end : {std::size_t{0}, top.size() - 1})
    canvas.line(bottom[end], top[end], {palette::ink, 3, 0});
}

}  // namespace

void fill_layers(Canvas& canvas, const Plot& plot, std::span<const double> x,
                 std::span<const double> surface, std::span<const double> coating,
                 std::span<const double> underside) {
  for (const Run& run : metal_runs(x, surface, underside, covering(x, plot.x()))) {
    if (run.hangs) {
      fill_hanging(canvas, plot, x, run.piece, surface, underside);
      continue;
    }
    std::vector<Point> bottom;
    std::vector<Point> border;
    std::vector<Point> top;
    for (std::size_t i = run.piece.first; i <= run.piece.last; ++i) {
      bottom.push_back(plot.at(x[i], plot.y().low));
      border.push_back(plot.at(x[i], surface[i] - std::max(0.0, coating[i])));
      top.push_back(plot.at(x[i], surface[i]));
    }
    canvas.fill_between(bottom, border, palette::metal);
    canvas.fill_between(border, top, palette::coating);
    canvas.line(top, {palette::ink, 3, 0});
    for (const std::size_t end : {std::size_t{0}, top.size() - 1})
      canvas.line(bottom[end], top[end], {palette::ink, 3, 0});
  }
}

void fill_worn(Canvas& canvas, const Plot& plot, std::span<const double> x,
               std::span<const double> before, std::span<const double> before_underside,
               std::span<const double> after, Colour colour) {
  for (const auto& [piece, hangs] :
       metal_runs(x, before, before_underside, covering(x, plot.x()))) {
    std::vector<Point> bottom;
    std::vector<Point> top;
    for (std::size_t i = piece.first; i <= piece.last; ++i) {
      // Metal that is gone altogether leaves a hole down to the frame, or what hung is gone.
      const bool left = after[i] == after[i];
      const double lowest = hangs ? before_underside[i] : plot.y().low;
      bottom.push_back(plot.at(x[i], left ? std::max(after[i], lowest) : lowest));
      top.push_back(plot.at(x[i], before[i]));
    }
    canvas.fill_between(bottom, top, colour);
  }
}

void draw_burr_before(Canvas& canvas, const Plot& plot, const sim::SectionRecord& section,
                      const sim::SectionEdge& edge) {
  if (edge.burr_height <= 0) return;
  std::vector<Point> outline;
  const double end = edge.x + 1.3 * edge.metal * edge.burr_root;
  const Range range{std::min(edge.x, end) - 1e-6, std::max(edge.x, end)};
  for (const Piece& piece : metal_pieces(section.x, section.before, range))
    for (std::size_t i = piece.first; i <= piece.last; ++i)
      outline.push_back(plot.at(section.x[i], section.before[i]));
  if (edge.metal < 0) std::reverse(outline.begin(), outline.end());
  outline.insert(outline.begin(), plot.at(edge.x, 0));
  canvas.line(outline, {palette::burr, 4, 11});
}

}  // namespace drumlin::viz
