#include "viz/moment_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "viz/drawings.hpp"
#include "viz/label_places.hpp"
#include "viz/layers.hpp"
#include "viz/moment_facts.hpp"
#include "viz/plot.hpp"
#include "viz/section_view.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

constexpr double least_panel = 480;  // [pixel] height of section and pressure together

class MomentDrawing {
 public:
  MomentDrawing(Canvas& canvas, const Moment& moment, const MomentView& view)
      : canvas_(canvas),
        moment_(moment),
        view_(view),
        outline_(drum_outline(moment.section.x, moment.frame, moment.drum)),
        contact_(contact(moment.section, moment.frame)),
        edge_(view.edge.empty() ? busiest_edge(moment.section, moment.frame)
                                : edge_named(moment.section, view.edge)) {}

  void draw_whole(const Box& section_box, const Box& pressure_box);
  void draw_close(const Box& section_box, const Box& pressure_box);

 private:
  void draw_section(const Plot& plot, bool close);
  void draw_cover(const Plot& plot);
  void draw_pressure(const Plot& plot);
  [[nodiscard]] std::vector<Point> circle(const Plot& plot) const;
  [[nodiscard]] std::vector<Point> pressure_line(const Plot& plot) const;
  [[nodiscard]] LabelPlaces places(const Plot& plot);
  void note_scale(const Plot& plot, LabelPlaces& labels);
  void label_whole(const Plot& plot);
  void label_belt(const Plot& plot, LabelPlaces& labels);
  void label_face(const Plot& plot, const FacePressure& face, LabelPlaces& labels);
  void label_spike(const Plot& plot, double pressure, LabelPlaces& labels);
  void label_close(const Plot& plot);

  Canvas& canvas_;
  const Moment& moment_;
  const MomentView& view_;
  std::vector<double> outline_;
  Range contact_;
  const sim::SectionEdge* edge_;
};

void MomentDrawing::draw_cover(const Plot& plot) {
  std::vector<Point> lower;
  std::vector<Point> upper;
  const Range seen = covering(moment_.section.x, plot.x());
  for (std::size_t i = 0; i < moment_.section.x.size(); ++i) {
    const double x = moment_.section.x[i];
    if (!seen.holds(x) || !std::isfinite(outline_[i])) continue;
    // Far above the plot the outline only lengthens lines that are clipped anyway.
    const double z = std::min(outline_[i], plot.y().high + plot.y().width());
    lower.push_back(plot.at(x, z));
    upper.push_back(plot.at(x, std::max(z, plot.y().high)));
  }
  canvas_.fill_between(lower, upper, palette::cover);
  canvas_.line(lower, {palette::belt, 9, 0});
}

/// The drum as it would stand without the part.
std::vector<Point> MomentDrawing::circle(const Plot& plot) const {
  std::vector<Point> out;
  constexpr int points = 120;
  for (int i = 0; i <= points; ++i) {
    const double x = plot.x().low + plot.x().width() * i / points;
    if (const auto z = drum_circle(moment_.drum, moment_.frame.drum_x, x))
      out.push_back(plot.at(x, *z));
  }
  return out;
}

void MomentDrawing::draw_section(const Plot& plot, bool close) {
  const sim::Frame& frame = moment_.frame;
  const sim::SectionRecord& section = moment_.section;
  canvas_.clip(plot.area());
  fill_worn(canvas_, plot, section.x, section.before, section.before_underside, frame.surface,
            palette::worn);
  draw_cover(plot);
  fill_layers(canvas_, plot, section.x, frame.surface, frame.coating, frame.underside);
  if (close) {
    if (edge_ != nullptr) draw_burr_before(canvas_, plot, section, *edge_);
  } else {
    canvas_.line(circle(plot), {palette::ink, 3, 14});
  }
  canvas_.clip({});
  canvas_.frame(plot.area(), {palette::ink, 2, 0});
}

void MomentDrawing::draw_pressure(const Plot& plot) {
  const sim::SectionRecord& section = moment_.section;
  canvas_.clip(plot.area());
  const Range seen = covering(section.x, plot.x());
  for (const Piece& piece : metal_pieces(section.x, moment_.frame.surface, seen)) {
    std::vector<Point> base;
    std::vector<Point> line;
    for (std::size_t i = piece.first; i <= piece.last; ++i) {
      base.push_back(plot.at(section.x[i], 0));
      line.push_back(plot.at(section.x[i], std::min(moment_.frame.pressure[i], 2 * plot.y().high)));
    }
    canvas_.fill_between(base, line, palette::face.faded(110));
    canvas_.line(base.front(), line.front(), {palette::face, 4, 0});
    canvas_.line(line, {palette::face, 4, 0});
    canvas_.line(line.back(), base.back(), {palette::face, 4, 0});
  }
  canvas_.clip({});
  canvas_.frame(plot.area(), {palette::ink, 2, 0});
}

void MomentDrawing::note_scale(const Plot& plot, LabelPlaces& labels) {
  const double factor = plot.pixels_per_y() / plot.pixels_per_x();
  const Box& area = plot.area();
  const std::array spots{Spot{{area.left, area.bottom}, Across::left, Along::bottom},
                         Spot{{area.right, area.bottom}, Across::right, Along::bottom}};
  labels.write(
      factor > 1.01 ? fmt::format("heights drawn {:g} times", factor) : "drawn to one scale",
      {.size = 24, .halo = true}, spots);
}

/// Height scale: the largest whole factor over the length scale that shows all of z; where even
/// heights drawn to one scale do not fit, more of x is shown.
Plot scaled(const Box& box, Range x, const Range& z) {
  const double widest = z.width() * box.width() / box.height();
  if (widest > x.width()) {
    const double more = widest / x.width();
    x = {x.high - x.width() * (1 + more) / 2, x.low + x.width() * (1 + more) / 2};
  }
  const double per_mm = box.width() / x.width();
  const double factor = std::max(1.0, std::floor(box.height() / z.width() / per_mm + 1e-9));
  const double more = box.height() / (per_mm * factor) / z.width();
  return {box, x, {z.low * more, z.high * more}};
}

/// Lines that labels should not cover.
LabelPlaces MomentDrawing::places(const Plot& plot) {
  LabelPlaces labels(canvas_, plot.area());
  const Range seen = covering(moment_.section.x, plot.x());
  const auto keep = [&](const std::vector<double>& heights, bool upright) {
    for (const Piece& piece : metal_pieces(moment_.section.x, heights, seen)) {
      std::vector<Point> line;
      for (std::size_t i = piece.first; i <= piece.last; ++i)
        line.push_back(plot.at(moment_.section.x[i], heights[i]));
      if (upright) {
        line.insert(line.begin(), Point{line.front().x, plot.area().bottom});
        line.push_back({line.back().x, plot.area().bottom});
      }
      labels.keep_clear(line);
    }
  };
  keep(outline_, false);
  keep(moment_.frame.surface, true);
  return labels;
}

void MomentDrawing::label_whole(const Plot& plot) {
  const Box& area = plot.area();
  LabelPlaces labels = places(plot);
  labels.keep_clear(circle(plot));
  std::vector<Spot> spots;
  for (const double share : {0.5, 0.62, 0.38, 0.72, 0.28})
    spots.push_back(
        {{area.left + share * area.width(), area.top - 12}, Across::middle, Along::top});
  labels.write(fmt::format("elastic cover, {:g} mm thick", moment_.drum.cover),
               {.size = 25, .bold = true, .halo = true}, spots);
  // The arrow belongs to its words: both stand where there is room for both.
  const TextStyle way{.size = 24, .halo = true};
  const std::string over = "way of the drum over the part";
  for (Spot& spot : spots) {
    spot.at = {spot.at.x + 58, area.top - 60};
    spot.along = Along::middle;
  }
  const Box words = labels.write(over, way, spots);
  const double y = (words.bottom + words.top) / 2;
  canvas_.arrow({words.left - 16, y}, {words.left - 116, y}, {palette::ink, 4, 0});
  note_scale(plot, labels);
  label_belt(plot, labels);
  if (moment_.drum.interference > 0) {
    const double at = std::clamp(moment_.frame.drum_x, plot.x().low, plot.x().high);
    spots.clear();
    for (const double share : {0.52, 0.35, 0.7, 1.3})
      for (const double aside : {0.0, 0.1, -0.1, 0.2, -0.2})
        spots.push_back({plot.at(at + aside * plot.x().width(), -share * moment_.drum.interference),
                         Across::middle, Along::middle});
    labels.write(fmt::format("drum unpressed: {:.3g} mm deep", moment_.drum.interference),
                 {.size = 24, .halo = true}, spots);
  }
}

void MomentDrawing::label_belt(const Plot& plot, LabelPlaces& labels) {
  const double inset = 0.05 * plot.x().width();
  const auto outline = [&](double x) { return value_at(moment_.section.x, outline_, x); };
  const auto left = outline(plot.x().low + inset);
  const auto right = outline(plot.x().high - inset);
  if (!left && !right) return;
  const bool on_left = left.value_or(-1e9) >= right.value_or(-1e9);
  const double way = on_left ? 1 : -1;
  const Point belt =
      plot.at(on_left ? plot.x().low + inset : plot.x().high - inset,
              std::min(on_left ? *left : *right, plot.y().high - 0.3 * plot.y().width()));
  labels.keep_clear(std::array{Point{belt.x + way * 76, belt.y}, belt});
  labels.write(
      "abrasive belt", {.size = 25, .colour = palette::belt, .bold = true},
      std::array{Spot{{belt.x + way * 84, belt.y}, on_left ? Across::left : Across::right}});
  canvas_.arrow({belt.x + way * 76, belt.y}, {belt.x + way * 12, belt.y}, {palette::belt, 3, 0});
}

void MomentDrawing::draw_whole(const Box& section_box, const Box& pressure_box) {
  const Plot plot = scaled(section_box, view_.x, view_.z);
  draw_section(plot, false);
  label_whole(plot);

  const FacePressure face = face_pressure(moment_.section, moment_.frame);
  const double highest = highest_pressure(moment_.frame);
  const Plot pressure(pressure_box, plot.x(), view_.pressure);
  pressure.axis_below(canvas_, "along the feed [mm]", 8);
  pressure.axis_left(canvas_, "pressure [MPa]", 3);
  draw_pressure(pressure);
  LabelPlaces labels(canvas_, pressure_box);
  labels.keep_clear(pressure_line(pressure));
  if (highest > view_.pressure.high && edge_ != nullptr) label_spike(pressure, highest, labels);
  if (face.value > 0 && face.value > 0.01 * highest) label_face(pressure, face, labels);
}

std::vector<Point> MomentDrawing::pressure_line(const Plot& plot) const {
  std::vector<Point> line;
  const Range seen = covering(moment_.section.x, plot.x());
  for (std::size_t i = 0; i < moment_.section.x.size(); ++i)
    if (seen.holds(moment_.section.x[i]) && std::isfinite(moment_.frame.pressure[i]))
      line.push_back(
          plot.at(moment_.section.x[i], std::min(moment_.frame.pressure[i], plot.y().high)));
  return line;
}

void MomentDrawing::label_face(const Plot& plot, const FacePressure& face, LabelPlaces& labels) {
  const Point top = plot.at(face.x, face.value);
  const double after = plot.at(contact_.high, 0).x + 16;
  const double before = plot.at(contact_.low, 0).x - 16;
  const double low = plot.at(0, 0.42 * face.value).y;
  const std::array spots{Spot{{after, low}, Across::left},
                         Spot{{before, low}, Across::right},
                         Spot{{top.x, top.y + 10}, Across::middle, Along::bottom},
                         Spot{{top.x, top.y + 36}, Across::middle, Along::bottom},
                         Spot{{top.x + 120, top.y + 10}, Across::left, Along::bottom},
                         Spot{{top.x - 120, top.y + 10}, Across::right, Along::bottom},
                         Spot{{after, top.y + 30}, Across::left},
                         Spot{{before, top.y + 30}, Across::right}};
  labels.write("face " + pressure_text(face.value), {.size = 25, .bold = true, .halo = true},
               spots);
}

void MomentDrawing::label_spike(const Plot& plot, double pressure, LabelPlaces& labels) {
  const Point spike = plot.at(std::clamp(edge_->x, plot.x().low, plot.x().high), plot.y().high);
  canvas_.arrow({spike.x, spike.y - 70}, {spike.x, spike.y - 4}, {palette::burr, 5, 0});
  const std::array spots{Spot{{spike.x + 26, spike.y - 10}, Across::left, Along::top},
                         Spot{{spike.x - 26, spike.y - 10}, Across::right, Along::top}};
  labels.write("off this scale: " + pressure_text(pressure),
               {.size = 25, .colour = palette::burr, .bold = true, .halo = true}, spots);
}

void MomentDrawing::label_close(const Plot& plot) {
  const Box& area = plot.area();
  LabelPlaces labels = places(plot);
  const std::array corners{Spot{{area.left + 14, area.top - 12}, Across::left, Along::top},
                           Spot{{area.right - 14, area.top - 12}, Across::right, Along::top}};
  labels.write("close-up at the edge", {.size = 25, .bold = true, .halo = true}, corners);
  if (edge_->burr_height > 0) {
    const std::array below{Spot{{area.left + 76, area.top - 60}},
                           Spot{{area.right - 14, area.top - 60}, Across::right}};
    const Box words = labels.write("burr before", {.size = 24, .halo = true}, below);
    const double y = (words.bottom + words.top) / 2;
    canvas_.line({words.left - 62, y}, {words.left - 10, y}, {palette::burr, 4, 11});
  }
  note_scale(plot, labels);
  const double inside = edge_->metal > 0 ? plot.x().high - edge_->x : edge_->x - plot.x().low;
  const double x = edge_->x + edge_->metal * 0.72 * inside;
  const auto surface = value_at(moment_.section.x, moment_.frame.surface, x);
  const auto left = value_at(moment_.section.x, moment_.frame.coating, x);
  if (!surface || !left || *left <= 0 || !moment_.result.coating) return;
  const Point layer = plot.at(x, *surface - *left / 2);
  if (layer.y < area.bottom + 100) return;
  canvas_.arrow({layer.x, layer.y - 62}, layer, {palette::ink, 3, 0});
  labels.write(*moment_.result.coating + " " + length_text(*left), {.size = 25, .bold = true},
               std::array{Spot{{layer.x, layer.y - 68}, Across::middle, Along::top}});
}

void MomentDrawing::draw_close(const Box& section_box, const Box& pressure_box) {
  const Plot plot = scaled(section_box, view_.x, view_.z);
  draw_section(plot, true);
  if (edge_ != nullptr) label_close(plot);

  const double highest = highest_pressure(moment_.section, moment_.frame, plot.x());
  const Plot pressure(pressure_box, plot.x(), view_.pressure);
  pressure.axis_below(canvas_, "along the feed [mm]", 3);
  pressure.axis_left(canvas_, "pressure [MPa]", 3);
  draw_pressure(pressure);
  if (edge_ == nullptr || highest <= 0) return;
  LabelPlaces labels(canvas_, pressure_box);
  labels.keep_clear(pressure_line(pressure));
  const bool right = edge_->metal > 0;
  const Spot far{{right ? pressure_box.right : pressure_box.left, pressure_box.top},
                 right ? Across::right : Across::left,
                 Along::top};
  const Spot near{{right ? pressure_box.left : pressure_box.right, pressure_box.top},
                  right ? Across::left : Across::right,
                  Along::top};
  const Spot below{{far.at.x, far.at.y - 0.3 * pressure_box.height()}, far.across, Along::top};
  labels.write(fmt::format("{}: {}", burr_or_edge(moment_.section, moment_.frame, *edge_),
                           pressure_text(highest)),
               {.size = 27, .colour = palette::burr, .bold = true, .halo = true},
               std::array{far, near, below});
}

}  // namespace

void draw_moment(Canvas& canvas, const Box& area, const Moment& moment, const MomentView& view) {
  constexpr double axis = 118;  // room for the numbers and the title of an axis
  constexpr double below = 84;
  const double middle = area.bottom + 0.42 * area.height();
  const Box upper{area.left + axis, middle, area.right, area.top};
  const Box lower{area.left + axis, area.bottom + below, area.right, middle - 16};
  MomentDrawing drawing(canvas, moment, view);
  if (view.edge.empty())
    drawing.draw_whole(upper, lower);
  else
    drawing.draw_close(upper, lower);
}

void draw_moment(Canvas& canvas, const Box& area, const Moment& moment) {
  const std::array one{moment};
  const MomentView whole = shared_view(one);
  const std::optional<MomentView> close = shared_close_view(one);
  const bool narrow = area.width() < narrow_drawing;
  if (!close || (narrow && area.height() < 2 * least_panel)) {
    draw_moment(canvas, area, moment, whole);
    return;
  }
  if (narrow) {
    const double split = area.bottom + 0.47 * area.height();
    draw_moment(canvas, {area.left, split + 10, area.right, area.top}, moment, whole);
    draw_moment(canvas, {area.left, area.bottom, area.right, split - 10}, moment, *close);
    return;
  }
  const double split = area.left + 0.62 * area.width();
  draw_moment(canvas, {area.left, area.bottom, split - 16, area.top - 8}, moment, whole);
  draw_moment(canvas, {split, area.bottom, area.right, area.top - 8}, moment, *close);
}

double moment_height(const Moment& moment, double width) {
  const std::array one{moment};
  if (width >= narrow_drawing) return 0.58 * width;
  return shared_close_view(one) ? 2 * std::max(least_panel, 0.78 * width)
                                : std::max(least_drawing_height, 0.8 * width);
}

}  // namespace drumlin::viz
