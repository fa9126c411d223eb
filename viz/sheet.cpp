#include "viz/sheet.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

namespace drumlin::viz {
namespace {

constexpr double margin = 44;

/// Largest size at which head and tail fit into one line; below the smallest one the head is cut
/// and says so, the tail stays.
void fitted(Canvas& canvas, Point at, double width, const std::string& head,
            const std::string& tail, TextStyle style, double smallest) {
  while (style.size > smallest && canvas.text_width(head + tail, style) > width)
    style.size -= 1;
  const double rest = width - canvas.text_width(tail, style);
  canvas.text(at, shortened(canvas, head, rest, style) + tail, style);
}

std::string origin(const sim::Result& result) {
  constexpr std::size_t shown = 12;  // digits of the hash: enough to find the case again
  return fmt::format("drumlin {}   model {}   case {}   {}", result.provenance.version,
                     result.model, result.provenance.case_sha256.substr(0, shown),
                     result.calibrated ? "calibrated" : "not calibrated: read the bands");
}

}  // namespace

Box draw_sheet(Canvas& canvas, const SheetWords& words) {
  const Box sheet = canvas.sheet();
  canvas.fill(sheet, palette::paper);
  const double width = sheet.width() - 2 * margin;
  double y = sheet.top - 26;
  const std::string tail = words.title.empty() ? words.what : ": " + words.what;
  fitted(canvas, {margin, y}, width, words.title, tail,
         {.size = 38, .bold = true, .along = Along::top}, 26);
  y -= 54;
  fitted(canvas, {margin, y}, width, words.setup, "",
         {.size = 25, .colour = palette::quiet, .along = Along::top}, 20);
  y -= 42;
  canvas.text({sheet.right - margin, 16}, words.origin,
              {.size = 20, .colour = palette::quiet, .across = Across::right});
  const TextStyle why_style{.size = 27, .bold = true, .along = Along::top};
  const std::vector<std::string> rows = broken_into_lines(canvas, words.why, width, why_style);
  const double why_height = 36 * static_cast<double>(std::max<std::size_t>(rows.size(), 2));
  double row_top = 50 + why_height;
  canvas.line({margin, row_top + 10}, {sheet.right - margin, row_top + 10}, {palette::grid, 3, 0});
  for (const std::string& row : rows) {
    canvas.text({margin, row_top}, row, why_style);
    row_top -= 36;
  }
  return {margin, 50 + why_height + 22, sheet.right - margin, y};
}

Box draw_sheet(Canvas& canvas, const sim::Result& result, const std::string& what,
               const std::string& setup, const std::string& why) {
  return draw_sheet(canvas, {result.title, what, setup, why, origin(result)});
}

std::string setup_text(const sim::Result& result, int station) {
  const auto index = static_cast<std::size_t>(std::max(0, station));
  if (index >= result.stations.size()) return {};
  const std::string& description = result.stations[index].description;
  if (result.stations.size() == 1) return description;
  return fmt::format("station {} of {}: {}", index + 1, result.stations.size(), description);
}

std::string length_text(double mm) {
  const double um = mm * 1e3;
  if (std::abs(um) >= 9950) return fmt::format("{:.1f} mm", mm);
  if (std::abs(um) >= 99.5) return fmt::format("{:.2f} mm", mm);
  if (std::abs(um) < 0.05) return "0 \u00b5m";
  return fmt::format("{:.{}f} \u00b5m", um, std::abs(um) < 9.95 ? 1 : 0);
}

std::string pressure_text(double mpa) {
  return fmt::format("{:.{}f} MPa", mpa, mpa < 0.0995 ? 3 : 2);
}

std::string times_text(double ratio) {
  return fmt::format("{:.{}f} times", ratio, ratio < 9.95 ? 1 : 0);
}

}  // namespace drumlin::viz
