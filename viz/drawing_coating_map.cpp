#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "viz/drawings.hpp"
#include "viz/plot.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

/// Rows that a sheet has room for; the barest come first.
constexpr std::size_t most_rows = 14;
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

/// Colour of a coating of which a share is left: darker where there is more of it, so that a grey
/// print tells as much.
Colour shade(double share) {
  const auto mix = [&](unsigned char from, unsigned char to) {
    const double t = std::clamp(share, 0.0, 1.0);
    return static_cast<unsigned char>(std::lround(from + t * (to - from)));
  };
  constexpr Colour thin{224, 242, 236};
  constexpr Colour thick{0, 92, 68};
  return {mix(thin.red, thick.red), mix(thin.green, thick.green), mix(thin.blue, thick.blue)};
}

/// Coating left along the surface from every edge, one strip per edge.
class CoatingMap {
 public:
  CoatingMap(Canvas& canvas, const sim::Result& result, std::vector<Row> rows)
      : canvas_(canvas), result_(result), rows_(std::move(rows)) {}

  void draw(const Box& area);

 private:
  void draw_strip(const Plot& plot, const Row& row, double bottom, double top);
  void draw_key(const Box& area);

  Canvas& canvas_;
  const sim::Result& result_;
  std::vector<Row> rows_;
};

void CoatingMap::draw_strip(const Plot& plot, const Row& row, double bottom, double top) {
  const sim::CoatingProfile& profile = *row.edge->coating;
  const double bare = row.edge->bare_length ? row.edge->bare_length->value : 0.0;
  for (std::size_t i = 0; i < profile.arc.size(); ++i) {
    const double from = i > 0 ? 0.5 * (profile.arc[i - 1] + profile.arc[i]) : 0.0;
    if (from >= shown) break;
    const double to =
        i + 1 < profile.arc.size() ? 0.5 * (profile.arc[i] + profile.arc[i + 1]) : shown;
    const bool none = profile.left[i] <= 0.0;
    canvas_.fill({plot.at(from, 0).x, bottom, plot.at(std::min(to, shown), 0).x, top},
                 none ? palette::burr : shade(profile.left[i] / row.applied));
  }
  canvas_.frame({plot.area().left, bottom, plot.area().right, top}, {palette::ink, 1, 0});
  const double middle = 0.5 * (bottom + top);
  canvas_.text({plot.area().left - 14, middle}, row.name,
               {.size = 22, .across = Across::right, .along = Along::middle});
  std::string text = row.edge->coating_left ? "least " + length_text(row.edge->coating_left->value)
                                            : std::string();
  if (bare > 0.0) text += ", bare to " + length_text(bare);
  if (!row.edge->bare_length) text = "bare as far as it is read";
  canvas_.text({plot.area().right + 14, middle}, text, {.size = 22, .along = Along::middle});
}

void CoatingMap::draw_key(const Box& area) {
  const TextStyle quiet{.size = 22, .along = Along::middle};
  const double middle = 0.5 * (area.bottom + area.top);
  double x = area.left;
  const auto swatch = [&](Colour colour, const std::string& text) {
    canvas_.fill({x, area.bottom, x + 46, area.top}, colour);
    canvas_.frame({x, area.bottom, x + 46, area.top}, {palette::ink, 1, 0});
    canvas_.text({x + 58, middle}, text, quiet);
    x += 58 + canvas_.text_width(text, quiet) + 36;
  };
  swatch(palette::burr, "bare");
  const double applied = result_.coating_thickness;
  for (const double share : {0.1, 0.5, 1.0})
    swatch(shade(share), length_text(share * applied) + (share == 1.0 ? " as applied" : ""));
}

void CoatingMap::draw(const Box& area) {
  const TextStyle label{.size = 22};
  double names = 0;
  for (const Row& row : rows_)
    names = std::max(names, canvas_.text_width(row.name, label));
  const std::size_t count = std::min(rows_.size(), most_rows);
  const double bottom = area.bottom + 86;
  const double top = area.top - 78;
  const double height = std::min((top - bottom) / static_cast<double>(count), 64.0);
  const Plot plot(
      {area.left + names + 24, top - height * static_cast<double>(count), area.right - 350, top},
      {0.0, shown}, {0.0, 1.0});
  plot.axis_below(canvas_, "distance from the edge along the surface [mm]", 5);
  for (std::size_t k = 0; k < count; ++k) {
    const double upper = top - height * static_cast<double>(k);
    draw_strip(plot, rows_[k], upper - 0.84 * height, upper);
  }
  draw_key({plot.area().left, area.top - 50, area.right, area.top - 14});
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

}  // namespace

std::vector<Drawing> coating_map_drawings(const sim::Result& result) {
  if (!result.coating || !(result.coating_thickness > 0)) return {};
  std::vector<Row> rows = rows_of(result);
  if (rows.empty()) return {};
  std::string sentence = why(result, rows);
  return {{.file = "coating-map",
           .what = "coating left at the edges",
           .setup = fmt::format("{} left after {} station{}", *result.coating,
                                result.stations.size(), result.stations.size() == 1 ? "" : "s"),
           .why = std::move(sentence),
           .paint = [&result, rows = std::move(rows)](Canvas& canvas, const Box& area) {
             CoatingMap(canvas, result, rows).draw(area);
           }}};
}

}  // namespace drumlin::viz
