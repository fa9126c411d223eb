#include <array>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "viz/drawings.hpp"
#include "viz/output.hpp"
#include "viz/sheet.hpp"
#include "viz/svg_canvas.hpp"
#ifdef DRUMLIN_WITH_VTK
#include "viz/offscreen.hpp"
#endif

namespace drumlin::viz {
namespace {

/// Registration: a new kind of drawing adds its line here.
constexpr auto kinds = std::to_array<std::vector<Drawing> (*)(const sim::Result&)>({
    profile_drawings,
    moment_drawings,
    pressure_drawings,
    coating_map_drawings,
    fold_map_drawings,
    part_as_it_is_drawings,
    remedies_drawings,
    belt_speed_drawings,
    scatter_limits_drawings,
    scatter_shares_drawings,
});

void draw_whole(Canvas& canvas, const sim::Result& result, const Drawing& drawing) {
  const Box area = draw_sheet(canvas, result, drawing.what, drawing.setup, drawing.why);
  drawing.paint(canvas, area);
}

void write_svg(const sim::Result& result, const Drawing& drawing, Output& out) {
  SvgCanvas canvas(sheet_width, sheet_height, drawing.file);
  draw_whole(canvas, result, drawing);
  const std::string name = "pictures/" + drawing.file + ".svg";
  std::ofstream file(out.place(name), std::ios::binary);
  file << canvas.element(drawing.what, drawing.description(), true);
  file.close();
  if (!file) throw std::runtime_error(name + " could not be written");
}

}  // namespace

std::string Drawing::description() const {
  std::string text = shows;
  if (!setup.empty()) text += (text.empty() ? "" : " ") + ("Set-up: " + setup + ".");
  if (!why.empty()) text += (text.empty() ? "" : " ") + why;
  return text;
}

std::vector<Drawing> all_drawings(const sim::Result& result) {
  std::vector<Drawing> all;
  for (const auto kind : kinds) {
    std::vector<Drawing> some = kind(result);
    std::move(some.begin(), some.end(), std::back_inserter(all));
  }
  return all;
}

void write_pictures(const sim::Result& result, Output& out) {
  if (!out.wants_pictures()) return;
  for (const Drawing& drawing : all_drawings(result)) {
    write_svg(result, drawing, out);
#ifdef DRUMLIN_WITH_VTK
    if (Offscreen* screen = out.screen(); screen != nullptr)
      screen->draw(out.place("pictures/" + drawing.file + ".png"),
                   [&](Canvas& canvas) { draw_whole(canvas, result, drawing); });
#endif
  }
}

}  // namespace drumlin::viz
