#include "viz/study/study_report.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "viz/atomic_file.hpp"
#include "viz/drawings.hpp"
#include "viz/sheet.hpp"
#include "viz/study/analysis_json.hpp"
#include "viz/study/rows_csv.hpp"
#include "viz/study/study_drawings.hpp"
#include "viz/study/study_page.hpp"
#include "viz/svg_canvas.hpp"
#ifdef DRUMLIN_WITH_VTK
#include "viz/offscreen.hpp"
#endif

namespace drumlin::viz {
namespace fs = std::filesystem;
namespace {

/// Rows, factors, aims, then all other columns.
std::vector<std::size_t> front_columns(const sim::StudyAnalysis& study) {
  std::vector<std::size_t> columns;
  const auto add = [&](std::size_t index) {
    if (std::find(columns.begin(), columns.end(), index) == columns.end()) columns.push_back(index);
  };
  add(0);
  for (const std::size_t factor : study.factors)
    add(factor);
  for (const sim::AimedColumn& aim : study.aims)
    add(aim.column);
  for (std::size_t i = 0; i < study.header.columns.size(); ++i)
    add(i);
  return columns;
}

void draw_whole(Canvas& canvas, const sim::StudyAnalysis& study, const Drawing& drawing) {
  constexpr std::size_t shown = 12;  // digits: enough to find the study again
  const Box area = draw_sheet(
      canvas, {.title = study.title,
               .what = drawing.what,
               .setup = drawing.setup,
               .why = drawing.why,
               .origin = fmt::format("drumlin {}   model {}   study {}   bands not included",
                                     study.header.version, study.header.model,
                                     study.header.identity.substr(0, shown))});
  drawing.paint(canvas, area);
}

std::string write_pictures(const sim::StudyAnalysis& study, const fs::path& folder) {
  std::vector<Drawing> drawings = front_drawings(study);
  std::vector<Drawing> bars = share_drawings(study);
  std::move(bars.begin(), bars.end(), std::back_inserter(drawings));
  if (drawings.empty()) return "";
  fs::create_directories(folder);
#ifdef DRUMLIN_WITH_VTK
  const OffscreenOrReason window = open_offscreen();
#endif
  for (const Drawing& drawing : drawings) {
    SvgCanvas canvas(sheet_width, sheet_height, drawing.file);
    draw_whole(canvas, study, drawing);
    write_whole_file(folder / (drawing.file + ".svg"),
                     canvas.element(drawing.what, drawing.description(), true));
#ifdef DRUMLIN_WITH_VTK
    if (!window.screen) continue;
    AtomicFile png(folder / (drawing.file + ".png"));
    window.screen->draw(png.path(), [&](Canvas& pixels) { draw_whole(pixels, study, drawing); });
    png.commit();
#endif
  }
#ifdef DRUMLIN_WITH_VTK
  return window.screen ? "" : window.reason;
#else
  return "this program was built without pictures";
#endif
}

}  // namespace

std::string write_study_report(const sim::StudyAnalysis& analysis, const StudyFile& study,
                               const fs::path& folder) {
  write_whole_file(folder / "analysis.json", analysis_json(analysis));
  if (!analysis.aims.empty()) {
    std::vector<std::uint64_t> rows;
    for (const sim::FrontPoint& point : analysis.front.points)
      rows.push_back(point.row);
    write_rows_csv(study, rows, front_columns(analysis), folder / "front.csv");
  }
  std::string reason = write_pictures(analysis, folder / "pictures");
  write_whole_file(folder / "study.html", study_page(analysis));
  return reason;
}

}  // namespace drumlin::viz
