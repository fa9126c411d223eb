#include "viz/moment_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "viz/layers.hpp"
#include "viz/moment_facts.hpp"
#include "viz/plot.hpp"
#include "viz/section_view.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

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
  void draw_burr_before(const Plot& plot);
  void draw_pressure(const Plot& plot);
  void note_scale(const Plot& plot);
  void label_whole(const Plot& plot);
  void label_face(const Plot& plot, const FacePressure& face);
  void label_spike(const Plot& plot, double pressure);
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
  const double more = 0.05 * plot.x().width();
  for (std::size_t i = 0; i < moment_.section.x.size(); ++i) {
    const double x = moment_.section.x[i];
    if (x < plot.x().low - more || x > plot.x().high + more || !std::isfinite(outline_[i]))
      continue;
    // Far above the plot the outline only lengthens lines that are clipped anyway.
    const double z = std::min(outline_[i], plot.y().high + plot.y().width());
    lower.push_back(plot.at(x, z));
    upper.push_back(plot.at(x, std::max(z, plot.y().high)));
  }
  canvas_.fill_between(lower, upper, palette::cover);
  canvas_.line(lower, {palette::belt, 9, 0});
}

void MomentDrawing::draw_burr_before(const Plot& plot) {
  if (edge_ == nullptr || edge_->burr_height <= 0) return;
  std::vector<Point> outline;
  const double end = edge_->x + 1.3 * edge_->metal * edge_->burr_root;
  const Range range{std::min(edge_->x, end) - 1e-6, std::max(edge_->x, end)};
  for (const Piece& piece : metal_pieces(moment_.section.x, moment_.section.before, range))
    for (std::size_t i = piece.first; i <= piece.last; ++i)
      outline.push_back(plot.at(moment_.section.x[i], moment_.section.before[i]));
  if (edge_->metal < 0) std::reverse(outline.begin(), outline.end());
  std::vector<Point> line{plot.at(edge_->x, 0)};
  for (const Point& point : outline)
    line.push_back(point);
  canvas_.line(line, {palette::burr, 4, 11});
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
    draw_burr_before(plot);
  } else {
    std::vector<Point> circle;
    constexpr int points = 120;
    for (int i = 0; i <= points; ++i) {
      const double x = plot.x().low + plot.x().width() * i / points;
      if (const auto z = drum_circle(moment_.drum, frame.drum_x, x))
        circle.push_back(plot.at(x, *z));
    }
    canvas_.line(circle, {palette::ink, 3, 14});
  }
  canvas_.clip({});
  canvas_.frame(plot.area(), {palette::ink, 2, 0});
}

void MomentDrawing::draw_pressure(const Plot& plot) {
  const sim::SectionRecord& section = moment_.section;
  canvas_.clip(plot.area());
  const double more = 0.03 * plot.x().width();
  const Range range{plot.x().low - more, plot.x().high + more};
  for (const Piece& piece : metal_pieces(section.x, moment_.frame.surface, range)) {
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

void MomentDrawing::note_scale(const Plot& plot) {
  const double factor = plot.pixels_per_y() / plot.pixels_per_x();
  canvas_.text({plot.area().left + 14, plot.area().bottom + 12},
               fmt::format("heights drawn {:g} times", factor), {.size = 24, .halo = true});
}

/// Height scale: the largest whole factor over the length scale that shows all of z.
Plot scaled(const Box& box, const Range& x, const Range& z) {
  const double per_mm = box.width() / x.width();
  const double factor = std::max(1.0, std::floor(box.height() / z.width() / per_mm));
  const double more = box.height() / (per_mm * factor) / z.width();
  return {box, x, {z.low * more, z.high * more}};
}

void MomentDrawing::label_whole(const Plot& plot) {
  const Box& area = plot.area();
  canvas_.text({area.left + area.width() * 0.5, area.top - 14},
               fmt::format("elastic cover, {:g} mm thick", moment_.drum.cover),
               {.size = 25, .bold = true, .across = Across::middle, .along = Along::top});
  const double y = area.top - 62;
  const double middle = area.left + area.width() * 0.5;
  canvas_.arrow({middle - 90, y}, {middle - 200, y}, {palette::ink, 4, 0});
  canvas_.text({middle - 74, y}, "way of the drum over the part",
               {.size = 23, .along = Along::middle});
  // The belt is named where it is high over the part.
  const double inset = 0.05 * plot.x().width();
  const auto outline = [&](double x) { return value_at(moment_.section.x, outline_, x); };
  const auto left = outline(plot.x().low + inset);
  const auto right = outline(plot.x().high - inset);
  if (left || right) {
    const bool on_left = left.value_or(-1e9) >= right.value_or(-1e9);
    const double way = on_left ? 1 : -1;
    const Point belt =
        plot.at(on_left ? plot.x().low + inset : plot.x().high - inset,
                std::min(on_left ? *left : *right, plot.y().high - 0.3 * plot.y().width()));
    canvas_.text({belt.x + way * 84, belt.y}, "abrasive belt",
                 {.size = 25,
                  .colour = palette::belt,
                  .bold = true,
                  .across = on_left ? Across::left : Across::right,
                  .along = Along::middle});
    canvas_.arrow({belt.x + way * 76, belt.y}, {belt.x + way * 12, belt.y}, {palette::belt, 3, 0});
  }
  if (moment_.drum.interference > 0) {
    const double at = std::clamp(moment_.frame.drum_x, plot.x().low, plot.x().high);
    canvas_.text(plot.at(at, -0.52 * moment_.drum.interference),
                 fmt::format("drum unpressed: {:.3g} mm deep", moment_.drum.interference),
                 {.size = 24, .across = Across::middle, .along = Along::middle, .halo = true});
  }
}

void MomentDrawing::draw_whole(const Box& section_box, const Box& pressure_box) {
  const Plot plot = scaled(section_box, view_.x, view_.z);
  draw_section(plot, false);
  label_whole(plot);
  note_scale(plot);

  const FacePressure face = face_pressure(moment_.section, moment_.frame);
  const double highest = highest_pressure(moment_.frame);
  const Plot pressure(pressure_box, view_.x, view_.pressure);
  pressure.axis_below(canvas_, "along the feed [mm]", 8);
  pressure.axis_left(canvas_, "pressure [MPa]", 3);
  draw_pressure(pressure);
  if (face.value > 0 && face.value > 0.01 * highest) label_face(pressure, face);
  if (highest > view_.pressure.high && edge_ != nullptr) label_spike(pressure, highest);
}

void MomentDrawing::label_face(const Plot& plot, const FacePressure& face) {
  const std::string text = "face " + pressure_text(face.value);
  TextStyle style{.size = 25, .bold = true, .along = Along::middle};
  const double width = canvas_.text_width(text, style);
  const Point beside = plot.at(contact_.high, 0.42 * face.value);
  if (beside.x + width + 28 < plot.area().right) {  // there is room beside the curve
    canvas_.text({beside.x + 16, beside.y}, text, style);
    return;
  }
  style.across = Across::middle;
  canvas_.text({std::clamp(plot.at(face.x, 0).x, plot.area().left + width / 2 + 12,
                           plot.area().right - width / 2 - 12),
                beside.y},
               text, style);
}

void MomentDrawing::label_spike(const Plot& plot, double pressure) {
  const Point spike = plot.at(edge_->x, plot.y().high);
  const bool right = spike.x < plot.area().left + 0.5 * plot.area().width();
  canvas_.text({spike.x + (right ? 26 : -26), spike.y - 12},
               "off this scale: " + pressure_text(pressure),
               {.size = 25,
                .colour = palette::burr,
                .bold = true,
                .across = right ? Across::left : Across::right,
                .along = Along::top,
                .halo = true});
  canvas_.arrow({spike.x, spike.y - 70}, {spike.x, spike.y - 4}, {palette::burr, 5, 0});
}

void MomentDrawing::label_close(const Plot& plot) {
  const Box& area = plot.area();
  canvas_.text({area.left + 14, area.top - 14}, "close-up at the edge",
               {.size = 25, .bold = true, .along = Along::top});
  if (edge_->burr_height > 0)
    canvas_.text({area.left + 14, area.top - 48}, "dashed: burr before",
                 {.size = 24, .colour = palette::burr, .bold = true, .along = Along::top});
  const double inside = edge_->metal > 0 ? plot.x().high - edge_->x : edge_->x - plot.x().low;
  const double x = edge_->x + edge_->metal * 0.72 * inside;
  const auto surface = value_at(moment_.section.x, moment_.frame.surface, x);
  const auto left = value_at(moment_.section.x, moment_.frame.coating, x);
  if (!surface || !left || *left <= 0 || !moment_.result.coating) return;
  const Point layer = plot.at(x, *surface - *left / 2);
  canvas_.arrow({layer.x, layer.y - 62}, layer, {palette::ink, 3, 0});
  canvas_.text({edge_->metal > 0 ? area.right - 12 : area.left + 12, layer.y - 68},
               *moment_.result.coating + " " + length_text(*left),
               {.size = 25,
                .bold = true,
                .across = edge_->metal > 0 ? Across::right : Across::left,
                .along = Along::top});
}

void MomentDrawing::draw_close(const Box& section_box, const Box& pressure_box) {
  const Plot plot = scaled(section_box, view_.x, view_.z);
  draw_section(plot, true);
  if (edge_ != nullptr) label_close(plot);
  note_scale(plot);

  const double highest = highest_pressure(moment_, view_.x);
  const Plot pressure(pressure_box, view_.x, view_.pressure);
  pressure.axis_below(canvas_, "along the feed [mm]", 3);
  pressure.axis_left(canvas_, "pressure [MPa]", 3);
  draw_pressure(pressure);
  if (edge_ == nullptr || highest <= 0) return;
  const bool right = edge_->metal > 0;
  canvas_.text(
      {right ? pressure.area().right - 12 : pressure.area().left + 12, pressure.area().top - 10},
      fmt::format("{}: {}", burr_or_edge(moment_.section, moment_.frame, *edge_),
                  pressure_text(highest)),
      {.size = 27,
       .colour = palette::burr,
       .bold = true,
       .across = right ? Across::right : Across::left,
       .along = Along::top,
       .halo = true});
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
  const std::optional<MomentView> close = shared_close_view(one);
  const double split = close ? area.left + 0.62 * area.width() : area.right;
  draw_moment(canvas, {area.left, area.bottom, split - 16, area.top - 8}, moment, shared_view(one));
  if (close) draw_moment(canvas, {split, area.bottom, area.right, area.top - 8}, moment, *close);
}

}  // namespace drumlin::viz
