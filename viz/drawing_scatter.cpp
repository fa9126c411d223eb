#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/drawings.hpp"
#include "viz/plot.hpp"

namespace drumlin::viz {
namespace {

using sim::ScatterOutput;
using sim::ScatterShare;

constexpr TextStyle title{.size = 24, .bold = true, .along = Along::top};
constexpr TextStyle quiet{.size = 22, .colour = palette::quiet, .along = Along::top};
constexpr std::size_t most_limits = 6;
constexpr std::size_t most_shares = 4;  ///< limits of which shares are drawn
constexpr std::size_t most_keys = 5;    ///< of each, the largest first
constexpr double least_told = 0.005;    ///< a smaller share is no bar
constexpr double between = 56;          ///< columns [pixel]
constexpr double least_limit_height = 236;
constexpr double key_height = 66;  ///< of one key's line and bar [pixel]
constexpr double shares_around = 134;

/// Limits that are judged, the one that is met least first.
std::vector<const ScatterOutput*> weakest_first(const sim::ScatterStudy& scatter) {
  std::vector<const ScatterOutput*> list;
  for (const ScatterOutput& limit : scatter.limits)
    if (limit.met && limit.value) list.push_back(&limit);
  const auto rank = [](const ScatterOutput* limit) {
    return std::pair(limit->met->value,
                     limit->margin_deviations.value_or(std::numeric_limits<double>::infinity()));
  };
  std::stable_sort(list.begin(), list.end(), [&](const ScatterOutput* a, const ScatterOutput* b) {
    return rank(a) < rank(b);
  });
  return list;
}

std::string met_text(const ScatterOutput& limit) {
  const sim::Probability& met = *limit.met;
  if (met.met == met.of) return fmt::format("met in all {} draws", met.of);
  return fmt::format("met in {:.1f} % of {} draws", 100 * met.value, met.of);
}

bool keeps(const ScatterOutput& limit, double value) {
  return (!limit.low || value >= *limit.low) && (!limit.high || value <= *limit.high);
}

/// How many columns a box has room for.
std::size_t columns_of(double width) {
  return width < narrow_drawing ? 1 : 2;
}

/// The box of one of `count` pieces that fill an area column by column.
Box piece(const Box& area, std::size_t index, std::size_t count) {
  const std::size_t columns = std::min(columns_of(area.width()), std::max<std::size_t>(count, 1));
  const std::size_t rows = (count + columns - 1) / columns;
  const auto column = static_cast<double>(index / rows);
  const auto row = static_cast<double>(index % rows);
  const double width =
      (area.width() - between * static_cast<double>(columns - 1)) / static_cast<double>(columns);
  const double height = area.height() / static_cast<double>(rows);
  const double left = area.left + column * (width + between);
  return {left, area.top - (row + 1) * height, left + width, area.top - row * height};
}

/// Pieces that an area has height for.
std::size_t room_for(const Box& area, double height, std::size_t count) {
  const auto rows = static_cast<std::size_t>(std::max(area.height() / height, 1.0));
  return std::min(count, rows * columns_of(area.width()));
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
  canvas.text({box.left, box.top}, shortened(canvas, spoken(limit.name), box.width(), title),
              title);
  canvas.text({box.left, box.top - 32},
              shortened(canvas, fmt::format("limit {}; {}", limit.limit, met_text(limit)),
                        box.width(), quiet),
              quiet);
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

/// Numbers whose shares are drawn: of the limits met least, or where there is none of the others.
std::vector<const ScatterOutput*> shared(const sim::ScatterStudy& scatter) {
  std::vector<const ScatterOutput*> list = weakest_first(scatter);
  for (const ScatterOutput& other : scatter.others)
    list.push_back(&other);
  std::erase_if(list, [](const ScatterOutput* output) { return output->shares.empty(); });
  // One number of each quantity: those of other edges mostly say the same.
  std::vector<std::string> seen;
  std::erase_if(list, [&](const ScatterOutput* output) {
    const bool again = std::find(seen.begin(), seen.end(), output->quantity) != seen.end();
    seen.push_back(output->quantity);
    return again;
  });
  list.resize(std::min(list.size(), most_shares));
  return list;
}

std::vector<std::size_t> largest_first(const ScatterOutput& output) {
  std::vector<std::size_t> order(output.shares.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return output.shares[a].total > output.shares[b].total;
  });
  const auto told = std::find_if(order.begin() + 1, order.end(), [&](std::size_t i) {
    return output.shares[i].total < least_told;
  });
  order.erase(told, order.end());
  order.resize(std::min(order.size(), most_keys));
  return order;
}

/// One bar per key: its total share, darker what it makes alone, a line for how sure that is.
void draw_shares(Canvas& canvas, const Box& box, const sim::ScatterStudy& scatter,
                 const ScatterOutput& output) {
  canvas.text({box.left, box.top}, shortened(canvas, spoken(output.name), box.width(), title),
              title);
  const auto order = largest_first(output);
  double most = 1;
  for (const ScatterShare& share : output.shares)
    most = std::max(most, share.total + 1.96 * share.total_error);
  const Plot plot({box.left + 28, box.bottom + 88, box.right - 28, box.top - 40}, {0, most},
                  {0, 1});
  plot.axis_below(canvas, "share of the variance", 5);
  const double step =
      std::min(plot.area().height() / static_cast<double>(order.size()), 1.4 * key_height);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const ScatterShare& share = output.shares[order[i]];
    const double top = plot.area().top - step * static_cast<double>(i);
    const std::string number =
        fmt::format("{:.2f} ± {:.2f}", share.total, 1.96 * share.total_error);
    TextStyle name = quiet;
    name.colour = palette::ink;
    name.halo = true;
    TextStyle right = name;
    right.across = Across::right;
    const double used = canvas.text_width(number, right) + 24;
    canvas.text({plot.area().left + 6, top - 4},
                shortened(canvas, scatter.inputs[order[i]].key, plot.area().width() - used, name),
                name);
    canvas.text({plot.area().right - 4, top - 4}, number, right);
    const double high = top - 32;
    const double low = std::max(top - step + 8, high - 28);
    const auto at = [&](double value) { return plot.at(std::clamp(value, 0.0, most), 0).x; };
    canvas.fill({at(0), low, at(share.total), high}, palette::cover);
    canvas.fill({at(0), low, at(std::min(share.first, share.total)), high}, palette::face);
    const double middle = 0.5 * (low + high);
    canvas.line({at(share.total - 1.96 * share.total_error), middle},
                {at(share.total + 1.96 * share.total_error), middle}, {palette::ink, 4, 0});
  }
  canvas.line({plot.area().left, plot.area().bottom}, {plot.area().left, plot.area().top},
              {palette::ink, 2, 0});
}

double shares_height(const std::vector<const ScatterOutput*>& outputs) {
  std::size_t keys = 1;
  for (const ScatterOutput* output : outputs)
    keys = std::max(keys, largest_first(*output).size());
  return shares_around + key_height * static_cast<double>(keys);
}

double height_of(double width, double each, std::size_t count) {
  const std::size_t columns = columns_of(width);
  return std::max(least_drawing_height,
                  each * static_cast<double>((count + columns - 1) / columns));
}

std::string shows_shares(const sim::ScatterStudy& scatter,
                         const std::vector<const ScatterOutput*>& outputs) {
  std::string text = "Shares of the variance by key.";
  for (const ScatterOutput* output : outputs) {
    text += fmt::format(" {}:", spoken(output->name));
    std::string keys;
    for (const std::size_t i : largest_first(*output))
      keys += fmt::format("{} {} {:.2f}", keys.empty() ? "" : ",", scatter.inputs[i].key,
                          output->shares[i].total);
    text += keys + ".";
  }
  return text;
}

std::string setup_of(const sim::ScatterStudy& scatter) {
  return fmt::format("{} draws of the scatter that the case states, by the {} model, seed {}",
                     scatter.draws, scatter.model, scatter.seed);
}

}  // namespace

std::vector<Drawing> scatter_drawings(const sim::Result& result) {
  std::vector<Drawing> list;
  if (!result.scatter) return list;
  const sim::ScatterStudy& scatter = *result.scatter;
  const auto limits = weakest_first(scatter);
  const std::size_t drawn = std::min(limits.size(), most_limits);
  if (drawn > 0) {
    list.push_back(
        {.file = "scatter-limits",
         .what = "limits over the scatter of the case",
         .setup = setup_of(scatter),
         .why =
             "Blue draws meet the limit, orange ones do not; the upright line is the limit. "
             "Values are those of draws that could be computed; the limit met least comes first.",
         .paint =
             [limits, drawn](Canvas& canvas, const Box& area) {
               const std::size_t count = room_for(area, least_limit_height, drawn);
               for (std::size_t i = 0; i < count; ++i)
                 draw_limit(canvas, piece(area, i, count), *limits[i]);
             },
         .height = [drawn](double width) { return height_of(width, least_limit_height, drawn); },
         .shows = shows_limits(limits)});
  }
  const auto outputs = shared(scatter);
  if (outputs.empty()) return list;
  list.push_back(
      {.file = "scatter-shares",
       .what = "which scatter decides",
       .setup = setup_of(scatter),
       .why = "Blue: what a key's scatter makes of the variance alone; light: together with other "
              "keys; line: 95 % of the estimate.",
       .paint =
           [&scatter, outputs](Canvas& canvas, const Box& area) {
             const std::size_t count = room_for(area, shares_height(outputs), outputs.size());
             for (std::size_t i = 0; i < count; ++i)
               draw_shares(canvas, piece(area, i, count), scatter, *outputs[i]);
           },
       .height =
           [outputs](double width) {
             return height_of(width, shares_height(outputs), outputs.size());
           },
       .shows = shows_shares(scatter, outputs)});
  return list;
}

}  // namespace drumlin::viz
