#include "viz/window_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/hatch.hpp"
#include "viz/label_places.hpp"
#include "viz/plot.hpp"
#include "viz/window_field.hpp"
#include "viz/window_key.hpp"

namespace drumlin::viz {
namespace {

constexpr double key_width = 450;  ///< where it stands beside the map [pixel]

std::string axis_title(const sim::WindowAxis& axis) {
  return axis.unit.empty() ? axis.name : fmt::format("{} [{}]", axis.name, axis.unit);
}

class WindowDrawing {
 public:
  WindowDrawing(Canvas& canvas, const sim::Window& window) : canvas_(canvas), window_(window) {}

  void draw(const Box& area);

 private:
  void draw_map(const Box& area);
  void draw_regions(const Plot& plot);
  void draw_axes(const Plot& plot);
  void draw_lines(const Plot& plot);
  void draw_box(const Plot& plot);
  void draw_own(const Plot& plot);
  void label_contours(const Plot& plot, LabelPlaces& places);
  [[nodiscard]] std::vector<Point> on_sheet(const Plot& plot, const sim::WindowLine& line) const;
  [[nodiscard]] Point at(const Plot& plot, const sim::MapPlace& place) const {
    return plot.at(window_.axes[0].at(place[0]), window_.axes[1].at(place[1]));
  }

  Canvas& canvas_;
  const sim::Window& window_;
};

std::vector<Point> WindowDrawing::on_sheet(const Plot& plot, const sim::WindowLine& line) const {
  std::vector<Point> points;
  for (const sim::MapPlace& place : line.places)
    points.push_back(at(plot, place));
  return points;
}

void WindowDrawing::draw_regions(const Plot& plot) {
  const Box& area = plot.area();
  const WindowField field(window_);
  const auto kind = [&](Point point) {
    return field.kind_at(
        {(point.x - area.left) / area.width(), (point.y - area.bottom) / area.height()});
  };
  fill_with(canvas_, area, palette::worn, [&](Point p) { return kind(p) == sim::accepted_kind; });
  // Limits beyond those with a hatch of their own share the last one.
  std::map<int, const Hatch*> hatch_of{{sim::not_known_kind, &unknown_hatch()},
                                       {sim::not_computed_kind, &blank_hatch()}};
  for (std::size_t k = 0; k < window_.limits.size(); ++k)
    hatch_of[static_cast<int>(k) + 1] = &region_hatch(window_, static_cast<int>(k) + 1);
  std::vector<const Hatch*> used;
  for (const auto& [of, with] : hatch_of)
    if (std::find(used.begin(), used.end(), with) == used.end()) used.push_back(with);
  for (const Hatch* with : used)
    fill_with(canvas_, area, *with, [&](Point p) {
      const int here = kind(p);
      return here != sim::accepted_kind && hatch_of.at(here) == with;
    });
}

void WindowDrawing::draw_axes(const Plot& plot) {
  const Box& area = plot.area();
  constexpr double size = 24;
  constexpr double tick = 9;
  const std::vector<double> across = round_ticks(plot.x(), area.width() > 700 ? 7 : 5);
  const std::vector<double> up = round_ticks(plot.y(), 6);
  const auto step = [](const std::vector<double>& ticks) {
    return ticks.size() > 1 ? ticks[1] - ticks[0] : 1;
  };
  for (const double value : across) {
    const double x = plot.at(value, plot.y().low).x;
    canvas_.line({x, area.bottom}, {x, area.bottom - tick}, {palette::ink, 2, 0});
    canvas_.text({x, area.bottom - tick - 5}, tick_text(value, step(across)),
                 {.size = size, .across = Across::middle, .along = Along::top});
  }
  double widest = 0;
  for (const double value : up) {
    const double y = plot.at(plot.x().low, value).y;
    const TextStyle style{.size = size, .across = Across::right, .along = Along::middle};
    const std::string text = tick_text(value, step(up));
    canvas_.line({area.left - tick, y}, {area.left, y}, {palette::ink, 2, 0});
    canvas_.text({area.left - tick - 6, y}, text, style);
    widest = std::max(widest, canvas_.text_width(text, style));
  }
  canvas_.text({(area.left + area.right) / 2, area.bottom - 46}, axis_title(window_.axes[0]),
               {.size = size, .across = Across::middle, .along = Along::top});
  canvas_.text({area.left - tick - 20 - widest, (area.bottom + area.top) / 2},
               axis_title(window_.axes[1]),
               {.size = size, .across = Across::middle, .along = Along::bottom, .angle = 90});
  canvas_.frame(area, {palette::ink, 2, 0});
}

void WindowDrawing::draw_lines(const Plot& plot) {
  canvas_.clip(plot.area());
  if (window_.probability) {
    const auto& contours = window_.probability->contours;
    for (std::size_t k = 0; k < contours.size(); ++k)
      for (const sim::WindowLine& line : contours[k].lines) {
        const std::vector<Point> points = on_sheet(plot, line);
        canvas_.line(points, {palette::face, 3, contour_dashes[k % contour_dashes.size()]});
      }
  }
  for (const sim::WindowLine& line : window_.border) {
    const std::vector<Point> points = on_sheet(plot, line);
    canvas_.line(points, {palette::paper, 10, 0});
    canvas_.line(points, {palette::ink, 5, 0});
  }
  canvas_.clip({});
}

void WindowDrawing::label_contours(const Plot& plot, LabelPlaces& places) {
  if (!window_.probability) return;
  double first = 0.2;  // share along its line where a label is tried first
  for (const sim::ProbabilityContour& contour : window_.probability->contours) {
    first += 0.17;
    const sim::WindowLine* longest = nullptr;
    for (const sim::WindowLine& line : contour.lines)
      if (longest == nullptr || line.places.size() > longest->places.size()) longest = &line;
    if (longest == nullptr) continue;
    const std::vector<Point> points = on_sheet(plot, *longest);
    std::vector<Spot> spots;
    for (const double step : {0.0, 0.05, -0.05, 0.1, -0.1, 0.2, -0.2, 0.3, -0.3}) {
      const double share = std::clamp(first + step, 0.02, 0.98);
      const Point& point =
          points[static_cast<std::size_t>(share * static_cast<double>(points.size() - 1))];
      spots.push_back({point, Across::middle, Along::middle});
    }
    places.write(fmt::format("{:g}", contour.level),
                 {.size = 22, .colour = palette::face, .bold = true, .halo = true}, spots);
  }
}

void WindowDrawing::draw_box(const Plot& plot) {
  if (!window_.robust) return;
  const sim::RobustBox& box = *window_.robust;
  const Point low = at(plot, {box.middle[0] - box.reach, box.middle[1] - box.reach});
  const Point high = at(plot, {box.middle[0] + box.reach, box.middle[1] + box.reach});
  const Box frame{low.x, low.y, high.x, high.y};
  canvas_.frame(frame, {palette::paper, 9, 0});
  canvas_.frame(frame, {palette::ink, 4, 0});
  draw_cross(canvas_, at(plot, box.middle), 20);
}

void WindowDrawing::draw_own(const Plot& plot) {
  if (window_.own.place) draw_diamond(canvas_, at(plot, *window_.own.place), 14);
}

void WindowDrawing::draw_map(const Box& area) {
  const auto& [first, second] = window_.axes;
  const Plot plot({area.left + 112, area.bottom + 84, area.right - 14, area.top},
                  {first.from, first.to}, {second.from, second.to});
  draw_regions(plot);
  draw_lines(plot);
  draw_box(plot);
  draw_own(plot);
  draw_axes(plot);
  LabelPlaces places(canvas_, plot.area());
  for (const sim::WindowLine& line : window_.border)
    places.keep_clear(on_sheet(plot, line));
  if (window_.robust) {
    const Point middle = at(plot, window_.robust->middle);
    const auto [x, y] = window_.robust->middle;
    const double r = window_.robust->reach;
    places.keep_clear(std::array{at(plot, {x - r, y - r}), at(plot, {x + r, y - r}),
                                 at(plot, {x + r, y + r}), at(plot, {x - r, y + r}),
                                 at(plot, {x - r, y - r})});
    places.keep_clear(Box{middle.x - 26, middle.y - 26, middle.x + 26, middle.y + 26});
  }
  if (window_.own.place) {
    const Point own = at(plot, *window_.own.place);
    places.keep_clear(Box{own.x - 22, own.y - 22, own.x + 22, own.y + 22});
    places.write("this case", {.size = 23, .bold = true, .halo = true},
                 std::array{Spot{{own.x + 28, own.y}, Across::left, Along::middle},
                            Spot{{own.x, own.y - 26}, Across::middle, Along::top},
                            Spot{{own.x, own.y + 26}, Across::middle, Along::bottom},
                            Spot{{own.x - 28, own.y}, Across::right, Along::middle}});
  }
  label_contours(plot, places);
}

void WindowDrawing::draw(const Box& area) {
  if (area.width() >= narrow_drawing) {
    draw_map({area.left, area.bottom, area.right - key_width - 30, area.top - 8});
    draw_window_key(canvas_, window_,
                    {area.right - key_width, area.bottom, area.right, area.top - 8});
    return;
  }
  const double map_height = 0.86 * area.width();
  draw_map({area.left, area.top - map_height, area.right, area.top - 8});
  draw_window_key(canvas_, window_,
                  {area.left + 8, area.bottom, area.right, area.top - map_height - 24});
}

std::string setup_of(const sim::Window& window) {
  std::string text = fmt::format("{} model, {} evaluations, finest cells {} x {}", window.model,
                                 window.evaluations.map, window.map.cells, window.map.cells);
  if (!window.probability) return text + ", no scatter";
  text += fmt::format("; {} draws of", window.probability->draws);
  for (std::size_t k = 0; k < window.probability->scatter.size(); ++k)
    text += fmt::format("{} {}", k == 0 ? "" : ",", window.probability->scatter[k].name);
  return text;
}

}  // namespace

Drawing window_drawing(const sim::Window& window) {
  std::string shows =
      fmt::format("Map of {} from {:g} to {:g} {} over {} from {:g} to {:g} {}.",
                  window.axes[1].name, window.axes[1].from, window.axes[1].to, window.axes[1].unit,
                  window.axes[0].name, window.axes[0].from, window.axes[0].to, window.axes[0].unit);
  if (!window.words.empty()) shows += " " + window.words.front();
  return {.file = "window",
          .what = "where the limits are kept, and which fails first",
          .setup = setup_of(window),
          .why = window.words.size() > 1 ? window.words[1] : std::string(),
          .paint = [&window](Canvas& canvas,
                             const Box& area) { WindowDrawing(canvas, window).draw(area); },
          .height =
              [&window](double width) {
                return width < narrow_drawing
                           ? 0.86 * width + 24 +
                                 84 * static_cast<double>(window_key_entries(window))
                           : std::max(0.6 * width,
                                      90 * static_cast<double>(window_key_entries(window)));
              },
          .shows = shows};
}

SheetWords window_sheet(const sim::Window& window) {
  constexpr std::size_t shown = 12;  // digits of a hash
  const Drawing drawing = window_drawing(window);
  return {window.title, "where the limits are kept, and which fails first", drawing.setup,
          drawing.why,
          fmt::format("drumlin {}   model {}   case {}   study {}   {}", window.provenance.version,
                      window.model, window.provenance.case_sha256.substr(0, shown),
                      window.study_sha256.substr(0, shown),
                      window.calibrated ? "calibrated"
                                        : "not calibrated: the border may lie "
                                          "elsewhere")};
}

}  // namespace drumlin::viz
