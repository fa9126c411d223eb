#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "viz/colour_scale.hpp"
#include "viz/drawings.hpp"
#include "viz/plot.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

/// Rows that a sheet has room for; the barest come first.
constexpr std::size_t most_rows = 14;
/// Height of a row in a narrow box [pixel].
constexpr double narrow_row = 66;
/// From the edge this far [mm], where edges differ from the face.
constexpr double shown = 5.0;

/// One edge of one face.
struct Row {
  std::string name;
  const sim::FeatureResult* edge = nullptr;
  double applied = 0;  // coating before the first station [mm]
};

std::vector<Row> rows_of(const sim::Result& result) {
  std::vector<Row> rows;
  const auto add = [&](const sim::FaceState& face, const char* where) {
    for (const sim::FeatureResult& edge : face.features)
      if (edge.coating && edge.coating->arc.size() > 1 &&
          edge.coating->arc.size() == edge.coating->left.size())
        rows.push_back({edge.name + where, &edge, result.coating_thickness});
  };
  add(result.part, "");
  if (result.part.reverse) add(*result.part.reverse, ", reverse");
  std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) {
    const auto left = [](const Row& row) {
      return row.edge->coating_left ? row.edge->coating_left->value : 0.0;
    };
    return left(a) < left(b);
  });
  return rows;
}

std::string numbers(const Row& row) {
  if (!row.edge->bare_length) return "bare as far as it is read";
  std::string text = row.edge->coating_left ? "least " + length_text(row.edge->coating_left->value)
                                            : std::string();
  if (row.edge->bare_length->value > 0.0)
    text += ", bare to " + length_text(row.edge->bare_length->value);
  return text;
}

/// Coating left along the surface from every edge, one strip per edge.
class CoatingMap {
 public:
  CoatingMap(Canvas& canvas, const sim::Result& result, std::vector<Row> rows)
      : canvas_(canvas), result_(result), rows_(std::move(rows)) {}

  void draw(const Box& area);

 private:
  void draw_bare(const Box& box);
  void draw_strip(const Plot& plot, const Row& row, double bottom, double top);
  void draw_key(const Box& area);

  Canvas& canvas_;
  const sim::Result& result_;
  std::vector<Row> rows_;
};

/// Bare metal in its own colour, hatched, so that a grey print does not take it for a coating.
void CoatingMap::draw_bare(const Box& box) {
  constexpr double apart = 16;  // [pixel]
  canvas_.fill(box, palette::metal);
  canvas_.clip(box);
  // Places of the lines count from the sheet's corner: neighbouring pieces join.
  for (double x = apart * std::floor((box.left - box.height()) / apart); x < box.right; x += apart)
    canvas_.line(Point{x, box.bottom - 1}, {x + box.height() + 2, box.top + 1},
                 {palette::ink, 2, 0});
  canvas_.clip({});
}

void CoatingMap::draw_strip(const Plot& plot, const Row& row, double bottom, double top) {
  const sim::CoatingProfile& profile = *row.edge->coating;
  double bare_from = 0;
  double bare_to = 0;
  const auto end_bare = [&] {
    if (bare_to > bare_from)
      draw_bare({plot.at(bare_from, 0).x, bottom, plot.at(bare_to, 0).x, top});
    bare_from = bare_to = 0;
  };
  for (std::size_t i = 0; i < profile.arc.size(); ++i) {
    const double from = i > 0 ? 0.5 * (profile.arc[i - 1] + profile.arc[i]) : 0.0;
    if (from >= shown) break;
    const double to =
        i + 1 < profile.arc.size() ? 0.5 * (profile.arc[i] + profile.arc[i + 1]) : shown;
    if (profile.left[i] <= 0.0) {
      if (bare_to <= bare_from) bare_from = from;
      bare_to = std::min(to, shown);
      continue;
    }
    end_bare();
    // Each reaches under the next one: no seams.
    canvas_.fill(
        {plot.at(from, 0).x, bottom, std::min(plot.at(to, 0).x + 2, plot.area().right), top},
        coating_scale().at(profile.left[i] / row.applied));
  }
  end_bare();
  canvas_.frame({plot.area().left, bottom, plot.area().right, top}, {palette::ink, 1, 0});
}

/// Hatched metal and the colour bar.
void CoatingMap::draw_key(const Box& area) {
  const double applied = result_.coating_thickness;
  const Box bare{area.left, area.top - 32, area.left + 64, area.top};
  draw_bare(bare);
  canvas_.frame(bare, {palette::ink, 1, 0});
  canvas_.text({bare.right + 14, area.top - 16}, "bare metal",
               {.size = 22, .along = Along::middle});
  const std::string name =
      fmt::format("{} left, of {} applied", *result_.coating, length_text(applied));
  const TextStyle style{.size = 22, .along = Along::middle};
  Point at{bare.right + 190, area.top - 16};
  canvas_.text(at, name, style);
  Box bar{at.x + canvas_.text_width(name, style) + 40, bare.bottom, area.right - 60, bare.top};
  if (area.width() < narrow_drawing)
    bar = {area.left + 30, bare.bottom - 46, area.right - 60, bare.bottom - 14};
  std::vector<Tick> ticks;
  for (const double share : {0.0, 0.25, 0.5, 0.75, 1.0})
    ticks.push_back({share, length_text(share * applied)});
  draw_colour_bar(canvas_, bar, coating_scale(), ticks);
}

void CoatingMap::draw(const Box& area) {
  const bool narrow = area.width() < narrow_drawing;
  const TextStyle label{.size = 22, .along = Along::middle};
  double names = 0;
  for (const Row& row : rows_)
    names = std::max(names, canvas_.text_width(row.name, label));
  const double bottom = area.bottom + 86;
  const double top = area.top - (narrow ? 132 : 84);
  const std::size_t room =
      narrow ? static_cast<std::size_t>(std::max(1.0, (top - bottom) / narrow_row)) : most_rows;
  const std::size_t count = std::min({rows_.size(), most_rows, room});
  const double height = std::min((top - bottom) / static_cast<double>(count), 84.0);
  const double left = narrow ? area.left + 12 : area.left + names + 24;
  const Plot plot({left, top - height * static_cast<double>(count),
                   narrow ? area.right - 12 : area.right - 350, top},
                  {0.0, shown}, {0.0, 1.0});
  plot.axis_below(canvas_, "distance from the edge along the surface [mm]", 5);
  for (std::size_t k = 0; k < count; ++k) {
    const Row& row = rows_[k];
    const double upper = top - height * static_cast<double>(k);
    if (narrow) {  // name and numbers above the strip
      canvas_.fill({area.left, upper - 30, area.right, upper}, palette::paper);
      TextStyle right = label;
      right.across = Across::right;
      canvas_.text({plot.area().right, upper - 15}, numbers(row), right);
      const double rest = plot.area().width() - canvas_.text_width(numbers(row), label) - 24;
      canvas_.text({plot.area().left, upper - 15}, shortened(canvas_, row.name, rest, label),
                   label);
      draw_strip(plot, row, upper - 0.96 * height, upper - 30);
      continue;
    }
    const double lower = upper - 0.84 * height;
    draw_strip(plot, row, lower, upper);
    TextStyle right = label;
    right.across = Across::right;
    canvas_.text({plot.area().left - 14, 0.5 * (lower + upper)}, row.name, right);
    canvas_.text({plot.area().right + 14, 0.5 * (lower + upper)}, numbers(row), label);
  }
  draw_key({area.left + (narrow ? 12 : 0), area.top - 80, area.right, area.top - 4});
}

std::string why(const sim::Result& result, const std::vector<Row>& rows) {
  const auto bare = std::count_if(rows.begin(), rows.end(), [](const Row& row) {
    return !row.edge->bare_length || row.edge->bare_length->value > 0.0;
  });
  std::string text = fmt::format(
      "At {} of {} edges some metal lies bare. Edges wear more than the face: pressure there is "
      "higher, and a burr's root had no coating to begin with.",
      bare, rows.size());
  if (result.part.face.coating_left)
    text += fmt::format(" The plain face keeps {} of {}.",
                        length_text(result.part.face.coating_left->value),
                        length_text(result.coating_thickness));
  if (rows.size() > most_rows) text += fmt::format(" Shown: the {} barest edges.", most_rows);
  return text;
}

std::string shows(const std::vector<Row>& rows) {
  std::string text = fmt::format(
      "One strip per edge, coloured by the coating left, up to {:g} mm from the edge line.", shown);
  for (std::size_t i = 0; i < std::min(rows.size(), most_rows); ++i)
    text += fmt::format(" {}: {}.", rows[i].name, numbers(rows[i]));
  return text;
}

}  // namespace

std::vector<Drawing> coating_map_drawings(const sim::Result& result) {
  if (!result.coating || !(result.coating_thickness > 0)) return {};
  std::vector<Row> rows = rows_of(result);
  if (rows.empty()) return {};
  std::string sentence = why(result, rows);
  std::string words = shows(rows);
  const double count = static_cast<double>(std::min(rows.size(), most_rows));
  return {{.file = "coating-map",
           .what = "coating left at the edges",
           .setup = fmt::format("{} left after {} station{}", *result.coating,
                                result.stations.size(), result.stations.size() == 1 ? "" : "s"),
           .why = std::move(sentence),
           .paint = [&result, rows = std::move(rows)](
                        Canvas& canvas,
                        const Box& area) { CoatingMap(canvas, result, rows).draw(area); },
           .height =
               [count](double width) {
                 return width < narrow_drawing ? 238 + 84 * count : 190 + 56 * count;
               },
           .shows = std::move(words)}};
}

}  // namespace drumlin::viz
