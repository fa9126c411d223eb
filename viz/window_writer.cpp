#include "viz/window_writer.hpp"

#include <algorithm>
#include <fstream>
#include <functional>
#include <stdexcept>
#include <string>

#include <fmt/format.h>

#include "viz/atomic_folder.hpp"
#include "viz/output.hpp"
#include "viz/svg_canvas.hpp"
#include "viz/window_drawing.hpp"
#include "viz/window_parts.hpp"
#ifdef DRUMLIN_WITH_VTK
#include "viz/offscreen.hpp"
#endif

namespace drumlin::viz {
namespace fs = std::filesystem;
namespace {

void put(Output& out, const std::string& name, const std::string& text) {
  std::ofstream file(out.place(name), std::ios::binary);
  file << text;
  file.close();
  if (!file) throw std::runtime_error(name + " could not be written");
}

void write_picture(const sim::Window& window, Output& out) {
  if (!out.wants_pictures()) return;
  const Drawing drawing = window_drawing(window);
  const SheetWords words = window_sheet(window);
  const auto draw = [&](Canvas& canvas) { drawing.paint(canvas, draw_sheet(canvas, words)); };
  SvgCanvas canvas(sheet_width, sheet_height, drawing.file);
  draw(canvas);
  put(out, "window.svg", canvas.element(drawing.what, drawing.description(), true));
#ifdef DRUMLIN_WITH_VTK
  if (Offscreen* screen = out.screen(); screen != nullptr)
    screen->draw(out.place("window.png"), draw);
#endif
}

}  // namespace

WriteReport write_window(const sim::Window& window, const fs::path& dir,
                         const WriteOptions& options) {
  AtomicFolder folder(dir, options.overwrite);
  WriteReport report;
  {
    Output out(folder.path(), options);
    const auto attempt = [&](const char* name, const std::function<void()>& write) {
      try {
        write();
      } catch (const std::exception& error) {
        throw std::runtime_error(
            fmt::format("{}: {} could not be written: {}", dir.string(), name, error.what()));
      }
    };
    attempt("window.json", [&] { put(out, "window.json", window_json(window)); });
    attempt("window.h5", [&] { write_window_hdf5(window, out); });
#ifdef DRUMLIN_WITH_VTK
    attempt("window.vtu", [&] { write_window_vtk(window, out); });
#endif
    attempt("the picture", [&] { write_picture(window, out); });
    attempt("window.html", [&] { put(out, "window.html", window_page(window)); });
    report = out.report();
  }
  for (const auto& entry : fs::recursive_directory_iterator(folder.path()))
    if (entry.is_regular_file())
      report.files.push_back(entry.path().lexically_relative(folder.path()).generic_string());
  std::sort(report.files.begin(), report.files.end());
  folder.commit();
  return report;
}

}  // namespace drumlin::viz
