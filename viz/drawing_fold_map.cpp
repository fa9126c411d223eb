#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "viz/drawings.hpp"
#include "viz/plot.hpp"
#include "viz/quantities.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

using Outcome = sim::FoldMap::Outcome;

constexpr TextStyle quiet{.size = 22, .colour = palette::quiet, .along = Along::top};
/// Height of the key where it stands below [pixel].
constexpr double narrow_key = 300;

/// What a field of the map is filled with: light, middle and dark, so that a grey print keeps them
/// apart.
struct Field {
  Outcome outcome;
  Colour colour;
  const char* name;
  const char* meaning;
};
constexpr auto fields = std::to_array<Field>({
    {Outcome::ground_off, {198, 224, 240}, "cut", "ground off where it stood"},
    {Outcome::stands, palette::metal, "stands", "some of it stands after the pass"},
    {Outcome::folds, palette::burr, "folds", "bent beyond the edge: a lip is left"},
});

const Field& field_of(Outcome outcome) {
  return *std::find_if(fields.begin(), fields.end(),
                       [&](const Field& field) { return field.outcome == outcome; });
}

/// Ends of the fields of a list that goes evenly in logarithm: half a step to either side.
std::vector<double> bounds(const std::vector<double>& values) {
  const double half =
      0.5 * std::log10(values.back() / values.front()) / static_cast<double>(values.size() - 1);
  std::vector<double> ends;
  for (const double value : values)
    ends.push_back(std::log10(mm_to_um(value)) - half);
  ends.push_back(ends.back() + 2.0 * half);
  return ends;
}

/// 1, 2 and 5 of every decade in a range of logarithms.
std::vector<double> decade_ticks(const Range& logs) {
  std::vector<double> ticks;
  for (double decade = std::floor(logs.low); decade <= logs.high; ++decade)
    for (const double factor : {1.0, 2.0, 5.0})
      if (logs.holds(decade + std::log10(factor))) ticks.push_back(decade + std::log10(factor));
  return ticks;
}

bool is_whole(const sim::FoldMap& map) {
  const std::size_t cells = map.height.size() * map.root.size();
  return map.height.size() > 1 && map.root.size() > 1 && map.outcome.size() == cells &&
         map.secondary_burr.size() == cells && map.height.front() > 0 && map.root.front() > 0;
}

/// Burr height over root thickness: where the belt cuts, and where it folds.
class FoldMapDrawing {
 public:
  FoldMapDrawing(Canvas& canvas, const sim::FoldMap& map)
      : canvas_(canvas), map_(map), across_(bounds(map.root)), up_(bounds(map.height)) {}

  void draw(const Box& area);

 private:
  void draw_fields(const Plot& plot);
  void draw_axes(const Plot& plot);
  void draw_case(const Plot& plot);
  void draw_map(const Box& area);
  double draw_fields_key(const Box& area, int columns);
  void draw_key(const Box& area, int columns);
  [[nodiscard]] double longest_lip() const;

  Canvas& canvas_;
  const sim::FoldMap& map_;
  std::vector<double> across_, up_;  // ends of fields, log10 of um
};

void FoldMapDrawing::draw_fields(const Plot& plot) {
  const std::size_t n = map_.root.size();
  for (std::size_t i = 0; i < map_.height.size(); ++i) {
    // Neighbours that come out alike are one field: no seams between them.
    for (std::size_t j = 0; j < n;) {
      std::size_t end = j + 1;
      while (end < n && map_.outcome[i * n + end] == map_.outcome[i * n + j])
        ++end;
      const Point low = plot.at(across_[j], up_[i]);
      const Point high = plot.at(across_[end], up_[i + 1]);
      // Each reaches under the next one, above and beside it: no seams.
      const double more = 2;
      canvas_.fill({low.x, low.y, std::min(high.x + more, plot.area().right),
                    std::min(high.y + more, plot.area().top)},
                   field_of(map_.outcome[i * n + j]).colour);
      j = end;
    }
  }
}

void FoldMapDrawing::draw_axes(const Plot& plot) {
  const Box& area = plot.area();
  constexpr double size = 23;
  for (const double tick : decade_ticks(plot.x())) {
    const double x = plot.at(tick, plot.y().low).x;
    canvas_.line({x, area.bottom}, {x, area.bottom - 8}, {palette::ink, 2, 0});
    canvas_.text({x, area.bottom - 14}, fmt::format("{:.3g}", std::pow(10.0, tick)),
                 {.size = size, .across = Across::middle, .along = Along::top});
  }
  for (const double tick : decade_ticks(plot.y())) {
    const double y = plot.at(plot.x().low, tick).y;
    canvas_.line({area.left - 8, y}, {area.left, y}, {palette::ink, 2, 0});
    canvas_.text({area.left - 14, y}, fmt::format("{:.3g}", std::pow(10.0, tick)),
                 {.size = size, .across = Across::right, .along = Along::middle});
  }
  canvas_.text({0.5 * (area.left + area.right), area.bottom - 48}, "root thickness [µm]",
               {.size = size, .across = Across::middle, .along = Along::top});
  canvas_.text({area.left - 84, 0.5 * (area.bottom + area.top)}, "burr height [µm]",
               {.size = size, .across = Across::middle, .along = Along::bottom, .angle = 90});
  canvas_.frame(area, {palette::ink, 2, 0});
}

void FoldMapDrawing::draw_case(const Plot& plot) {
  if (!map_.case_height || !map_.case_root) return;
  const double x = std::log10(mm_to_um(*map_.case_root));
  const double y = std::log10(mm_to_um(*map_.case_height));
  if (!plot.x().holds(x) || !plot.y().holds(y)) return;
  const Point at = plot.at(x, y);
  constexpr double arm = 17;
  const auto cross = [&](const Stroke& stroke) {
    canvas_.line({at.x - arm, at.y}, {at.x + arm, at.y}, stroke);
    canvas_.line({at.x, at.y - arm}, {at.x, at.y + arm}, stroke);
  };
  cross({palette::paper, 11, 0});
  cross({palette::ink, 5, 0});
}

double FoldMapDrawing::longest_lip() const {
  double longest = 0;
  for (std::size_t i = 0; i < map_.outcome.size(); ++i)
    if (map_.outcome[i] == Outcome::folds) longest = std::max(longest, map_.secondary_burr[i]);
  return longest;
}

/// What the fields and the cross mean. @return height used.
double FoldMapDrawing::draw_fields_key(const Box& area, int columns) {
  const TextStyle name{.size = 28, .bold = true, .along = Along::top};
  const double step = area.width() / columns;
  double y = area.top;
  double deepest = 0;
  int column = 0;
  const auto entry = [&](const auto& mark, const char* word, const std::string& meaning) {
    const double left = area.left + step * column;
    mark(Box{left, y - 34, left + 56, y});
    canvas_.text({left + 72, y}, word, name);
    const double used = 38 + canvas_.paragraph({left + 72, y - 38}, step - 84, meaning, quiet) + 16;
    deepest = std::max(deepest, used);
    if (++column < columns) return;
    column = 0;
    y -= deepest;
    deepest = 0;
  };
  for (const Field& field : fields)
    entry(
        [&](const Box& box) {
          canvas_.fill(box, field.colour);
          canvas_.frame(box, {palette::ink, 2, 0});
        },
        field.name, field.meaning);
  if (map_.case_height && map_.case_root)
    entry(
        [&](const Box& box) {
          const Point at{(box.left + box.right) / 2, (box.bottom + box.top) / 2};
          canvas_.line({at.x - 17, at.y}, {at.x + 17, at.y}, {palette::ink, 5, 0});
          canvas_.line({at.x, at.y - 17}, {at.x, at.y + 17}, {palette::ink, 5, 0});
        },
        "this case",
        fmt::format("{} high, root {}", length_text(*map_.case_height),
                    length_text(*map_.case_root)));
  return area.top - y + deepest;
}

void FoldMapDrawing::draw_key(const Box& area, int columns) {
  const double y = area.top - draw_fields_key(area, columns) - 4;
  std::string text;
  if (longest_lip() > 0)
    text = fmt::format("Longest lip in the map: {}. ", length_text(longest_lip()));
  text += fmt::format(
      "One pass of this station over {}; taper and flow stress as in the case. Model: {}.",
      map_.edge, map_.model);
  canvas_.paragraph({area.left, y}, area.width(), text, quiet);
}

void FoldMapDrawing::draw_map(const Box& area) {
  const Plot plot({area.left + 130, area.bottom + 86, area.right, area.top},
                  {across_.front(), across_.back()}, {up_.front(), up_.back()});
  draw_fields(plot);
  draw_axes(plot);
  draw_case(plot);
}

void FoldMapDrawing::draw(const Box& area) {
  if (area.width() >= narrow_drawing) {
    constexpr double key_width = 400;
    draw_map({area.left, area.bottom, area.right - key_width - 44, area.top - 20});
    draw_key({area.right - key_width, area.bottom, area.right, area.top - 20}, 1);
    return;
  }
  draw_map({area.left, area.bottom + narrow_key, area.right - 8, area.top - 4});
  draw_key({area.left, area.bottom, area.right, area.bottom + narrow_key - 14}, 2);
}

/// What the case's own height asks of its root.
std::string why(const sim::FoldMap& map) {
  std::string text =
      "A thin root gives way to single grains before the wall is cut: the burr goes over the edge "
      "and stays on the part.";
  if (!map.case_height) return text;
  const auto row =
      std::min_element(map.height.begin(), map.height.end(), [&](double one, double other) {
        return std::abs(one - *map.case_height) < std::abs(other - *map.case_height);
      });
  const auto first = static_cast<std::size_t>(row - map.height.begin()) * map.root.size();
  double thickest = 0;
  for (std::size_t j = 0; j < map.root.size(); ++j)
    if (map.outcome[first + j] == Outcome::folds) thickest = std::max(thickest, map.root[j]);
  if (thickest <= 0) return text + " Here no root of the case's height does.";
  return text + fmt::format(" At {} of height roots up to some {} fold.",
                            length_text(*map.case_height), length_text(thickest));
}

std::string shows(const sim::FoldMap& map) {
  const auto share = [&](Outcome outcome) {
    return 100.0 *
           static_cast<double>(std::count(map.outcome.begin(), map.outcome.end(), outcome)) /
           static_cast<double>(map.outcome.size());
  };
  return fmt::format(
      "Map of burr height from {} to {} over root thickness from {} to {}: burrs are ground off in "
      "{:.0f}\u00a0% of it, some stands in {:.0f}\u00a0%, they fold beyond the edge in "
      "{:.0f}\u00a0%.",
      length_text(map.height.front()), length_text(map.height.back()),
      length_text(map.root.front()), length_text(map.root.back()), share(Outcome::ground_off),
      share(Outcome::stands), share(Outcome::folds));
}

}  // namespace

std::vector<Drawing> fold_map_drawings(const sim::Result& result) {
  if (!result.fold_map || !is_whole(*result.fold_map)) return {};
  const sim::FoldMap& map = *result.fold_map;
  return {
      {.file = "fold-map",
       .what = "where burrs are cut and where they fold",
       .setup = map.station,
       .why = why(map),
       .paint = [&map](Canvas& canvas, const Box& area) { FoldMapDrawing(canvas, map).draw(area); },
       .height =
           [](double width) {
             return width < narrow_drawing ? 0.66 * width + narrow_key : 0.58 * width;
           },
       .shows = shows(map)}};
}

}  // namespace drumlin::viz
