// Draws every picture of results that no shop would wish for, wide and narrow, to be looked at:
// draw_extremes FOLDER. tests/unit/drawings_test.cpp paints the same ones.

#include <cmath>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>

#include "tests/support/extreme_results.hpp"
#include "viz/drawings.hpp"
#include "viz/offscreen.hpp"
#include "viz/page.hpp"
#include "viz/sheet.hpp"
#include "viz/svg_canvas.hpp"

namespace {

namespace fs = std::filesystem;
using drumlin::viz::Canvas;
using drumlin::viz::Drawing;

void write_svg(const fs::path& file, const drumlin::viz::SvgCanvas& svg, const Drawing& drawing) {
  std::ofstream(file) << svg.element(drawing.what, drawing.description(), true);
}

/// Paints a drawing alone into a sheet of its own size.
void draw_narrow(const fs::path& folder, const Drawing& drawing, double width, double height) {
  drumlin::viz::SvgCanvas svg(width, height, drawing.file);
  svg.fill(svg.sheet(), drumlin::viz::palette::paper);
  drawing.paint(svg, {8, 8, width - 8, height - 8});
  const std::string name = drawing.file + "-" + std::to_string(static_cast<int>(height)) + ".svg";
  write_svg(folder / name, svg, drawing);
}

/// Paints the sheet of a drawing, as SVG and, where that is possible, as PNG.
void draw_sheets(const fs::path& folder, const drumlin::sim::Result& result, const Drawing& drawing,
                 drumlin::viz::Offscreen* screen) {
  const auto paint = [&](Canvas& canvas) {
    drawing.paint(canvas, draw_sheet(canvas, result, drawing.what, drawing.setup, drawing.why));
  };
  drumlin::viz::SvgCanvas svg(drumlin::viz::sheet_width, drumlin::viz::sheet_height, drawing.file);
  paint(svg);
  write_svg(folder / (drawing.file + ".svg"), svg, drawing);
  if (screen != nullptr) screen->draw(folder / (drawing.file + ".png"), paint);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  try {
    const auto opened = drumlin::viz::open_offscreen();
    for (const auto& [name, result] : drumlin::support::extreme_results()) {
      const fs::path folder = fs::path(argv[1]) / name;
      fs::create_directories(folder);
      std::string body;
      for (const Drawing& drawing : drumlin::viz::all_drawings(result)) {
        draw_sheets(folder, result, drawing, opened.screen.get());
        draw_narrow(folder, drawing, 720, 620);
        draw_narrow(folder, drawing, 720, std::ceil(drawing.height_for(704)) + 16);
        body += drumlin::viz::figure_html(drawing);
      }
      std::ofstream(folder / "page.html")
          << drumlin::viz::page_html({.title = name,
                                      .header = "<h1>" + name + "</h1>\n",
                                      .body = body,
                                      .footer = {},
                                      .style = {},
                                      .script = {}});
    }
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 3;
  }
}
