#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "viz/label_places.hpp"
#include "viz/plot.hpp"
#include "viz/study/analysis_words.hpp"
#include "viz/study/study_drawings.hpp"

namespace drumlin::viz {
namespace {

constexpr double row_mark = 7;     // [pixel]
constexpr double front_mark = 13;  // [pixel]
constexpr double key_height = 84;  // [pixel] of what the marks mean
/// Front points beyond this are drawn thinned: they run into each other anyway.
constexpr std::size_t most_drawn = 600;

/// The two aims of a picture.
struct Pair {
  std::size_t across = 0;
  std::size_t up = 1;
};

std::vector<Pair> pairs_of(std::size_t aims) {
  if (aims == 3) return {{0, 1}, {0, 2}, {1, 2}};
  std::vector<Pair> pairs;
  for (std::size_t k = 1; k < aims; ++k)
    pairs.push_back({0, k});
  return pairs;
}

class FrontView {
 public:
  FrontView(const sim::StudyAnalysis& study, Pair pair) : study_(study), pair_(pair) {}

  void draw(Canvas& canvas, const Box& area) const;

 private:
  [[nodiscard]] Range range(std::size_t aim) const;
  [[nodiscard]] std::string title(std::size_t aim) const;
  void draw_key(Canvas& canvas, const Box& area) const;
  void draw_front(Canvas& canvas, const Plot& plot) const;
  void draw_knee(Canvas& canvas, const Plot& plot) const;
  [[nodiscard]] Point place(const Plot& plot, const std::vector<double>& aims) const {
    return plot.at(aims[pair_.across], aims[pair_.up]);
  }

  const sim::StudyAnalysis& study_;
  Pair pair_;
};

void square(Canvas& canvas, Point at, double size, Colour colour) {
  canvas.fill({at.x - size / 2, at.y - size / 2, at.x + size / 2, at.y + size / 2}, colour);
}

/// A cross tells a row that was not accepted without any colour.
void cross(Canvas& canvas, Point at, double size, Colour colour) {
  const double half = size / 2;
  canvas.line({at.x - half, at.y - half}, {at.x + half, at.y + half}, {colour, 2, 0});
  canvas.line({at.x - half, at.y + half}, {at.x + half, at.y - half}, {colour, 2, 0});
}

void ring(Canvas& canvas, Point at, double radius, const Stroke& stroke) {
  constexpr int sides = 24;
  std::array<Point, sides + 1> points;
  for (int i = 0; i <= sides; ++i) {
    const double angle = 2 * std::numbers::pi * i / sides;
    points[static_cast<std::size_t>(i)] = {at.x + radius * std::cos(angle),
                                           at.y + radius * std::sin(angle)};
  }
  canvas.line(points, stroke);
}

Range FrontView::range(std::size_t aim) const {
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  const auto take = [&](const auto& points) {
    for (const auto& point : points) {
      low = std::min(low, point.aims[aim]);
      high = std::max(high, point.aims[aim]);
    }
  };
  take(study_.cloud);
  take(study_.front.points);
  const double margin = high > low ? 0.04 * (high - low) : std::max(0.1 * std::abs(high), 1e-9);
  return {low - margin, high + margin};
}

std::string FrontView::title(std::size_t aim) const {
  return fmt::format("{} ({} is better)", study_.header.columns[study_.aims[aim].column].name,
                     study_.aims[aim].up ? "more" : "less");
}

void FrontView::draw_key(Canvas& canvas, const Box& area) const {
  const TextStyle style{.size = 22, .along = Along::middle};
  const double middle = area.left + area.width() / 2;
  const double first = area.top - 20;
  const double second = area.top - 56;
  const auto words = [&](double x, double y, const char* text) {
    canvas.text({x + 28, y}, text, style);
  };
  square(canvas, {area.left + 12, first}, row_mark, palette::quiet);
  words(area.left, first, "accepted row");
  cross(canvas, {area.left + 12, second}, row_mark + 3, palette::metal);
  words(area.left, second, "not accepted, not known");
  square(canvas, {middle + 12, first}, front_mark, palette::coating);
  words(middle, first, "front: beaten by no accepted row");
  if (!study_.front.knee) return;
  ring(canvas, {middle + 12, second}, 10, {palette::burr, 4, 0});
  words(middle, second, "knee");
}

void FrontView::draw_front(Canvas& canvas, const Plot& plot) const {
  const auto& points = study_.front.points;
  if (study_.aims.size() == 2) {
    std::vector<Point> line;
    for (const sim::FrontPoint& point : points)
      line.push_back(place(plot, point.aims));
    if (line.size() > 1) canvas.line(line, {palette::coating, 3, 0});
  }
  const std::size_t drawn = std::min(points.size(), most_drawn);
  for (std::size_t j = 0; j < drawn; ++j)
    square(canvas, place(plot, points[j * points.size() / drawn].aims), front_mark,
           palette::coating);
}

void FrontView::draw_knee(Canvas& canvas, const Plot& plot) const {
  if (!study_.front.knee) return;
  const sim::FrontPoint& knee = study_.front.points[study_.front.knee->point];
  const Point at = place(plot, knee.aims);
  ring(canvas, at, 15, {palette::burr, 5, 0});
  LabelPlaces labels(canvas, plot.area());
  labels.keep_clear(Box{at.x - 17, at.y - 17, at.x + 17, at.y + 17});
  const std::size_t drawn = std::min(study_.front.points.size(), most_drawn);
  for (std::size_t j = 0; j < drawn; ++j) {
    const Point p = place(plot, study_.front.points[j * study_.front.points.size() / drawn].aims);
    labels.keep_clear(Box{p.x - front_mark / 2, p.y - front_mark / 2, p.x + front_mark / 2,
                          p.y + front_mark / 2});
  }
  const std::array<Spot, 8> spots{Spot{{at.x + 24, at.y}},
                                  Spot{{at.x + 18, at.y + 26}},
                                  Spot{{at.x - 18, at.y + 26}, Across::right},
                                  Spot{{at.x + 18, at.y - 26}},
                                  Spot{{at.x - 18, at.y - 26}, Across::right},
                                  Spot{{at.x - 24, at.y}, Across::right},
                                  Spot{{at.x, at.y + 24}, Across::middle, Along::bottom},
                                  Spot{{at.x, at.y - 24}, Across::middle, Along::top}};
  labels.write(fmt::format("knee: row {}", knee.row),
               {.size = 24, .colour = palette::burr, .bold = true, .halo = true}, spots);
}

void FrontView::draw(Canvas& canvas, const Box& area) const {
  draw_key(canvas, area);
  const Box box{area.left + 124, area.bottom + 84, area.right - 12, area.top - key_height};
  const Plot plot(box, range(pair_.across), range(pair_.up));
  plot.axis_below(canvas, title(pair_.across), area.width() < narrow_drawing ? 4 : 6);
  plot.axis_left(canvas, title(pair_.up), 5);
  canvas.clip(box);
  for (const sim::CloudPoint& point : study_.cloud)
    if (!point.accepted) cross(canvas, place(plot, point.aims), row_mark + 1, palette::metal);
  for (const sim::CloudPoint& point : study_.cloud)
    if (point.accepted) square(canvas, place(plot, point.aims), row_mark, palette::quiet);
  draw_front(canvas, plot);
  canvas.clip({});
  canvas.frame(box, {palette::ink, 2, 0});
  draw_knee(canvas, plot);
}

std::string shows(const sim::StudyAnalysis& study, Pair pair) {
  const auto name = [&](std::size_t aim) {
    return column_text(study.header.columns[study.aims[aim].column]);
  };
  return fmt::format("Rows as points, {} across and {} up, the front of {} rows marked.",
                     name(pair.across), name(pair.up), study.front.points.size());
}

}  // namespace

std::vector<Drawing> front_drawings(const sim::StudyAnalysis& study) {
  std::vector<Drawing> drawings;
  if (study.front.points.empty()) return drawings;
  const auto name = [&](std::size_t aim) {
    return column_text(study.header.columns[study.aims[aim].column]);
  };
  for (const Pair pair : pairs_of(study.aims.size())) {
    std::string why = study.aims.size() > 2
                          ? "A row that looks beaten here is better in another aim."
                          : "Going along the front, what one aim gains the other gives up.";
    if (study.front.knee) why += " At the knee the trade turns.";
    drawings.push_back(
        {.file = fmt::format("front-{}-{}", pair.across + 1, pair.up + 1),
         .what = fmt::format("{} against {}", name(pair.up), name(pair.across)),
         .setup = fmt::format("{} of {} rows drawn, {} of the front", study.cloud.size(),
                              study.header.rows, std::min(study.front.points.size(), most_drawn)),
         .why = why,
         .paint = [view = FrontView(study, pair)](Canvas& canvas,
                                                  const Box& area) { view.draw(canvas, area); },
         .height = [](double width) { return std::max(least_drawing_height, 0.62 * width); },
         .shows = shows(study, pair)});
  }
  return drawings;
}

}  // namespace drumlin::viz
