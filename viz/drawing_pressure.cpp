#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include <fmt/format.h>

#include "viz/drawings.hpp"
#include "viz/file_names.hpp"
#include "viz/label_places.hpp"
#include "viz/plot.hpp"
#include "viz/section_view.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

using Step = sim::StepRecord;

/// What the history of a section's passes tells.
class History {
 public:
  explicit History(const sim::SectionRecord& record)
      : section(record),
        travel(viz::travel(record.history)),
        edge(highest(&Step::edge_pressure)),
        face(highest(&Step::face_pressure)) {}

  /// Step at which a quantity is highest.
  [[nodiscard]] std::size_t highest(double Step::*field) const {
    std::size_t best = 0;
    for (std::size_t i = 1; i < section.history.size(); ++i)
      if (value(i, field) > value(best, field)) best = i;
    return best;
  }
  [[nodiscard]] double value(std::size_t i, double Step::*field) const {
    return section.history[i].*field;
  }
  [[nodiscard]] bool has_burr() const {
    return std::any_of(section.edges.begin(), section.edges.end(),
                       [](const sim::SectionEdge& one) { return one.burr_height > 0; });
  }
  [[nodiscard]] std::string why(const sim::Result& result) const;
  [[nodiscard]] std::string shows() const;

  const sim::SectionRecord& section;
  std::vector<double> travel;  ///< [mm] of the drum at each step
  std::size_t edge;            ///< step of the highest pressure on burr or edge
  std::size_t face;            ///< step of the highest on the face
};

/// Pressure and line load over the drum's travel, one above the other.
class HistoryDrawing {
 public:
  HistoryDrawing(Canvas& canvas, const History& history) : canvas_(canvas), history_(history) {}

  void draw(const Box& area);

 private:
  void curve(const Plot& plot, double Step::*field, Colour colour, bool filled);
  void mark(const Plot& plot, double x, const std::string& name, bool left, LabelPlaces* labels);
  void mark_passings(const Plot& plot, LabelPlaces* labels);
  [[nodiscard]] std::string passage_name(const sim::StepRecord& step) const;
  [[nodiscard]] std::size_t place_of_face_label(double wanted) const;
  void label_pressures(const Plot& plot, LabelPlaces& labels);
  [[nodiscard]] std::vector<Point> line(const Plot& plot, double Step::*field) const;
  [[nodiscard]] double value(std::size_t i, double Step::*field) const {
    return history_.value(i, field);
  }

  Canvas& canvas_;
  const History& history_;
};

void HistoryDrawing::curve(const Plot& plot, double Step::*field, Colour colour, bool filled) {
  std::vector<Point> line;
  std::vector<Point> base;
  for (std::size_t i = 0; i < history_.travel.size(); ++i) {
    line.push_back(plot.at(history_.travel[i], value(i, field)));
    base.push_back(plot.at(history_.travel[i], 0));
  }
  if (filled) canvas_.fill_between(base, line, colour.faded(70));
  canvas_.line(line, {colour, 5, 0});
}

/// A vertical line at a travel with its name on top, to the left or to the right of it, unless
/// another name stands there.
void HistoryDrawing::mark(const Plot& plot, double x, const std::string& name, bool left,
                          LabelPlaces* labels) {
  const Point top = plot.at(x, plot.y().high);
  canvas_.line(plot.at(x, plot.y().low), top, {palette::quiet, 2, 8});
  if (labels == nullptr) return;
  labels->write_if_free(
      name, {.size = 23, .colour = palette::quiet, .halo = true},
      {{top.x + (left ? -8 : 8), top.y - 6}, left ? Across::right : Across::left, Along::top});
}

/// "pass 2", or "pass 2, station 1" on a line of several stations.
std::string HistoryDrawing::passage_name(const sim::StepRecord& step) const {
  const auto& history = history_.section.history;
  const bool one_station = std::all_of(history.begin(), history.end(), [&](const auto& other) {
    return other.station == history.front().station;
  });
  if (one_station) return fmt::format("pass {}", step.pass + 1);
  return fmt::format("pass {}, station {}", step.pass + 1, step.station + 1);
}

/// Where one passage ends and the next begins; in a single pass, where the drum's axis stands over
/// an edge.
void HistoryDrawing::mark_passings(const Plot& plot, LabelPlaces* labels) {
  const auto& history = history_.section.history;
  const bool single = same_passage(history.front(), history.back());
  for (std::size_t i = 1; i < history.size(); ++i) {
    if (!same_passage(history[i], history[i - 1]))
      mark(plot, history_.travel[i], passage_name(history[i]), false, labels);
    if (!single) continue;
    for (const sim::SectionEdge& edge : history_.section.edges) {
      if (history[i - 1].drum_x <= edge.x || history[i].drum_x > edge.x) continue;
      const std::string side = edge.feature.substr(edge.feature.find(':') + 1);
      // Of the two rims of a hole the first is written to the left, the second to the right.
      mark(plot, history_.travel[i] - (edge.x - history[i].drum_x), "axis over: " + side,
           edge.metal > 0, labels);
    }
  }
}

/// Step at which the face's label points: its pressure is about the highest there, the edge's curve
/// low; the nearest to a travel. The highest itself where no such place is.
std::size_t HistoryDrawing::place_of_face_label(double wanted) const {
  constexpr double high = 0.9;  // of the highest
  constexpr double low = 0.25;  // of the edge's highest
  std::size_t best = history_.face;
  double nearest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < history_.travel.size(); ++i) {
    const bool tells =
        value(i, &Step::face_pressure) >= high * value(history_.face, &Step::face_pressure) &&
        value(i, &Step::edge_pressure) <= low * value(history_.edge, &Step::edge_pressure);
    // A little inside the frame, so that the label has room.
    const double away = std::abs(history_.travel[i] - wanted) -
                        0.07 * (history_.travel.back() - history_.travel.front());
    if (!tells || std::abs(away) >= nearest) continue;
    nearest = std::abs(away);
    best = i;
  }
  return best;
}

std::vector<Point> HistoryDrawing::line(const Plot& plot, double Step::*field) const {
  std::vector<Point> out;
  for (std::size_t i = 0; i < history_.travel.size(); ++i)
    out.push_back(plot.at(history_.travel[i], value(i, field)));
  return out;
}

void HistoryDrawing::label_pressures(const Plot& plot, LabelPlaces& labels) {
  const double highest_edge = value(history_.edge, &Step::edge_pressure);
  const double highest_face = value(history_.face, &Step::face_pressure);
  labels.keep_clear(line(plot, &Step::edge_pressure));
  labels.keep_clear(line(plot, &Step::face_pressure));
  const Point peak = plot.at(history_.travel[history_.edge], highest_edge);
  const TextStyle style{.size = 28, .colour = palette::burr, .bold = true, .halo = true};
  const std::array above{Spot{{peak.x, peak.y + 14}, Across::middle, Along::bottom},
                         Spot{{peak.x + 20, peak.y + 14}, Across::left, Along::bottom},
                         Spot{{peak.x - 20, peak.y + 14}, Across::right, Along::bottom},
                         Spot{{peak.x, peak.y + 44}, Across::middle, Along::bottom}};
  labels.write(fmt::format("{}: up to {}", history_.has_burr() ? "burr and edge" : "edge",
                           pressure_text(highest_edge)),
               style, above);
  const bool right = history_.travel[history_.edge] < plot.x().low + 0.6 * plot.x().width();
  const std::size_t named = place_of_face_label(right ? plot.x().high : plot.x().low);
  const Point low = plot.at(history_.travel[named], value(named, &Step::face_pressure));
  std::vector<Spot> spots;
  for (const double share : {0.2, 0.3, 0.12, 0.45, 0.6, 0.78})
    for (const Across across : {right ? Across::right : Across::left, Across::middle,
                                right ? Across::left : Across::right})
      spots.push_back({{low.x + (across == Across::right  ? 20
                                 : across == Across::left ? -20
                                                          : 0),
                        low.y + share * plot.area().height()},
                       across,
                       Along::bottom});
  TextStyle blue = style;
  blue.colour = palette::face;
  const Box box = labels.write("plain face: up to " + pressure_text(highest_face), blue, spots);
  if (box.bottom > low.y + 30)
    canvas_.arrow({low.x, box.bottom - 8}, {low.x, low.y + 6}, {palette::face, 3, 0});
}

void HistoryDrawing::draw(const Box& area) {
  constexpr double left = 132;
  const int ticks = area.width() < narrow_drawing ? 5 : 8;
  const double split = area.bottom + 0.36 * area.height();
  const Range x{history_.travel.front(),
                std::max(history_.travel.back(), history_.travel.front() + 1e-9)};
  const double top = 1.36 * std::max({value(history_.edge, &Step::edge_pressure),
                                      value(history_.face, &Step::face_pressure), 1e-6});
  const Plot upper({area.left + left, split + 34, area.right - 12, area.top - 12}, x, {0, top});
  LabelPlaces labels(canvas_, upper.area());
  upper.axis_left(canvas_, "pressure [MPa]", 4);
  mark_passings(upper, &labels);
  curve(upper, &Step::face_pressure, palette::face, true);
  curve(upper, &Step::edge_pressure, palette::burr, false);
  canvas_.frame(upper.area(), {palette::ink, 2, 0});
  label_pressures(upper, labels);

  const double load = value(history_.highest(&Step::line_load), &Step::line_load);
  const Plot lower({area.left + left, area.bottom + 82, area.right - 12, split - 6}, x,
                   {0, 1.3 * std::max(load, 1e-6)});
  lower.axis_below(canvas_, "drum travel [mm]", ticks);
  lower.axis_left(canvas_, "line load [N/mm]", 3);
  mark_passings(lower, nullptr);
  curve(lower, &Step::line_load, palette::ink, true);
  canvas_.frame(lower.area(), {palette::ink, 2, 0});
}

std::string History::why(const sim::Result& result) const {
  const double at_edge = value(edge, &Step::edge_pressure);
  const double at_face = value(face, &Step::face_pressure);
  const char* place = has_burr() ? "burr" : "edge";
  if (at_face <= 0) return "The drum does not touch the face here.";
  const double ratio =
      at_edge / plain_face_pressure(result, section.history[edge].station).value_or(at_face);
  if (ratio < 1.5)
    return fmt::format("The {} carries about what the plain face carries: it is hardly favoured.",
                       place);
  return fmt::format(
      "The {} reaches {} the plain face's pressure, and removal follows pressure: "
      "that is why it wears first.",
      place, times_text(ratio));
}

std::string History::shows() const {
  const std::size_t load = highest(&Step::line_load);
  return fmt::format(
      "Two curves over the drum's travel of {:.0f} mm: pressure on {}, up to {}, and on the plain "
      "face, up to {}. Below them the line load, up to {:.2g} N/mm.",
      travel.back() - travel.front(), has_burr() ? "burr and edge" : "the edge",
      pressure_text(value(edge, &Step::edge_pressure)),
      pressure_text(value(face, &Step::face_pressure)), value(load, &Step::line_load));
}

std::string passes_text(const sim::Result& result, const std::vector<Step>& history) {
  const int passes = history.back().pass - history.front().pass + 1;
  if (passes == 1 && result.stations.size() == 1)
    return setup_text(result, history.front().station);
  return fmt::format("{} pass{}, {} station{}", passes, passes == 1 ? "" : "es",
                     result.stations.size(), result.stations.size() == 1 ? "" : "s");
}

}  // namespace

std::vector<Drawing> pressure_drawings(const sim::Result& result) {
  const std::vector<std::string> files = section_files(result);
  std::vector<Drawing> drawings;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const sim::SectionRecord& section = result.sections[i];
    if (section.history.size() < 2) continue;
    const History history(section);
    drawings.push_back(
        {.file = "pressure-" + files[i],
         .what = section.name + ", pressure during the pass",
         .setup = passes_text(result, section.history),
         .why = history.why(result),
         .paint = [history](Canvas& canvas,
                            const Box& area) { HistoryDrawing(canvas, history).draw(area); },
         .shows = history.shows()});
  }
  return drawings;
}

}  // namespace drumlin::viz
