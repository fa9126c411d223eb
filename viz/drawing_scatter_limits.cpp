#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/drawings.hpp"
#include "viz/plot.hpp"
#include "viz/scatter_pieces.hpp"

namespace drumlin::viz {
namespace {

using sim::ScatterOutput;

constexpr std::size_t most_limits = 6;
constexpr double least_limit_height = 236;

std::string met_text(const ScatterOutput& limit) {
  const sim::Probability& met = *limit.met;
  if (met.met == met.of) return fmt::format("met in all {} draws", met.of);
  return fmt::format("met in {:.1f} % of {} draws", 100 * met.value, met.of);
}

bool keeps(const ScatterOutput& limit, double value) {
  return (!limit.low || value >= *limit.low) && (!limit.high || value <= *limit.high);
}

/// Values of the draws and the limits between which they may lie: what the axis has to show.
Range axis_of(const ScatterOutput& limit) {
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (const double value : limit.values) {
    if (std::isnan(value)) continue;
    low = std::min(low, value);
    high = std::max(high, value);
  }
  const double span = high > low ? high - low : std::max(0.1 * std::abs(high), 1e-9);
  // A limit further away than this would press the draws into one bar.
  constexpr double furthest = 3;
  for (const auto& end : {limit.low, limit.high})
    if (end && *end > low - furthest * span && *end < high + furthest * span) {
      low = std::min(low, *end);
      high = std::max(high, *end);
    }
  const double room = 0.04 * std::max(high - low, span);
  return {low - room, high + room};
}

struct Bins {
  std::vector<int> met, not_met;
  int most = 1;
};

Bins binned(const ScatterOutput& limit, const Range& axis) {
  constexpr std::size_t count = 40;
  Bins bins{std::vector<int>(count), std::vector<int>(count)};
  for (const double value : limit.values) {
    if (std::isnan(value)) continue;
    const double share = (value - axis.low) / axis.width();
    const auto bin = std::min(static_cast<std::size_t>(share * count), count - 1);
    ++(keeps(limit, value) ? bins.met : bins.not_met)[bin];
  }
  for (std::size_t i = 0; i < count; ++i)
    bins.most = std::max(bins.most, bins.met[i] + bins.not_met[i]);
  return bins;
}

/// How often each value came, and where the limit lies.
void draw_limit(Canvas& canvas, const Box& box, const ScatterOutput& limit) {
  canvas.text({box.left, box.top},
              shortened(canvas, spoken(limit.name), box.width(), scatter_title), scatter_title);
  canvas.text({box.left, box.top - 32},
              shortened(canvas, fmt::format("limit {}; {}", limit.limit, met_text(limit)),
                        box.width(), scatter_note),
              scatter_note);
  const Range axis = axis_of(limit);
  const Bins bins = binned(limit, axis);
  const Plot plot({box.left + 44, box.bottom + 92, box.right - 44, box.top - 70}, axis,
                  {0.0, 1.05 * bins.most});
  plot.axis_below(canvas, shown_unit(limit.unit), 5);
  const double width = axis.width() / static_cast<double>(bins.met.size());
  for (std::size_t i = 0; i < bins.met.size(); ++i) {
    const double from = axis.low + width * static_cast<double>(i);
    const Point foot = plot.at(from, 0);
    const Point middle = plot.at(from + width, bins.met[i]);
    const Point top = plot.at(from + width, bins.met[i] + bins.not_met[i]);
    if (bins.met[i] > 0) canvas.fill({foot.x, foot.y, middle.x - 1, middle.y}, palette::face);
    if (bins.not_met[i] > 0) canvas.fill({foot.x, middle.y, top.x - 1, top.y}, palette::burr);
  }
  for (const auto& end : {limit.low, limit.high}) {
    if (!end || !axis.holds(*end)) continue;
    const double x = plot.at(*end, 0).x;
    canvas.line({x, plot.area().bottom}, {x, plot.area().top + 6}, {palette::ink, 4, 0});
  }
  canvas.line({plot.area().left, plot.area().bottom}, {plot.area().right, plot.area().bottom},
              {palette::ink, 2, 0});
}

std::string shows_limits(const std::vector<const ScatterOutput*>& limits) {
  std::string text =
      "How often each value came over the draws; blue: the limit is met, orange: it is not, "
      "upright "
      "line: the limit.";
  for (std::size_t i = 0; i < std::min(limits.size(), most_limits); ++i) {
    const ScatterOutput& limit = *limits[i];
    text += fmt::format(" {}, limit {}: {} to {} between 5 and 95 %, {}.", spoken(limit.name),
                        limit.limit, number_text(limit.value->p5),
                        with_unit(limit.value->p95, limit.unit), met_text(limit));
  }
  return text;
}

}  // namespace

std::vector<Drawing> scatter_limits_drawings(const sim::Result& result) {
  if (!result.scatter) return {};
  const sim::ScatterStudy& scatter = *result.scatter;
  const auto limits = weakest_first(scatter);
  const std::size_t drawn = std::min(limits.size(), most_limits);
  if (drawn == 0) return {};
  Drawing drawing = drawing_of_pieces(scatter, least_limit_height, drawn,
                                      [limits](Canvas& canvas, const Box& box, std::size_t i) {
                                        draw_limit(canvas, box, *limits[i]);
                                      });
  drawing.file = "scatter-limits";
  drawing.what = "limits over the scatter of the case";
  drawing.why =
      "Blue draws meet the limit, orange ones do not; the upright line is the limit. Values are "
      "those of draws that could be computed; the limit met least comes first.";
  drawing.shows = shows_limits(limits);
  return {drawing};
}

}  // namespace drumlin::viz
