#include "viz/plot.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace drumlin::viz {
namespace {

constexpr double axis_text = 23;
constexpr Stroke grid_line{palette::grid, 2, 0};

double round_step(const Range& range, int wanted) {
  const double raw = range.width() / std::max(1, wanted);
  const double decade = std::pow(10.0, std::floor(std::log10(raw)));
  for (const double factor : {1.0, 2.0, 5.0})
    if (raw <= factor * decade * (1 + 1e-9)) return factor * decade;
  return 10 * decade;
}

}  // namespace

std::vector<double> round_ticks(const Range& range, int wanted) {
  std::vector<double> ticks;
  if (!(range.width() > 0)) return ticks;
  const double step = round_step(range, wanted);
  const double slack = 1e-6 * step;  // ends that are round themselves count in
  for (double i = std::ceil((range.low - slack) / step); i * step <= range.high + slack; ++i)
    ticks.push_back(i == 0 ? 0.0 : i * step);
  return ticks;
}

double round_below(double most) {
  const double decade = std::pow(10.0, std::floor(std::log10(most)));
  double best = decade;
  for (const double factor : {2.0, 5.0})
    if (factor * decade <= most) best = factor * decade;
  return best;
}

std::string tick_text(double value, double step) {
  const int decimals =
      step > 0 ? std::clamp(static_cast<int>(-std::floor(std::log10(step) + 1e-9)), 0, 6) : 0;
  return fmt::format("{:.{}f}", value, decimals);
}

void Plot::axis_below(Canvas& canvas, std::string_view title, int ticks) const {
  const std::vector<double> values = round_ticks(x_, ticks);
  const double step = values.size() > 1 ? values[1] - values[0] : 1;
  for (const double value : values) {
    const double x = at(value, y_.low).x;
    canvas.line({x, area_.bottom}, {x, area_.top}, grid_line);
    canvas.text({x, area_.bottom - 10}, tick_text(value, step),
                {.size = axis_text, .across = Across::middle, .along = Along::top});
  }
  canvas.text({(area_.left + area_.right) / 2, area_.bottom - 44}, title,
              {.size = axis_text, .across = Across::middle, .along = Along::top});
}

void Plot::axis_left(Canvas& canvas, std::string_view title, int ticks) const {
  const std::vector<double> values = round_ticks(y_, ticks);
  const double step = values.size() > 1 ? values[1] - values[0] : 1;
  double widest = 0;
  for (const double value : values) {
    const double y = at(x_.low, value).y;
    const TextStyle style{.size = axis_text, .across = Across::right, .along = Along::middle};
    const std::string label = tick_text(value, step);
    canvas.line({area_.left, y}, {area_.right, y}, grid_line);
    canvas.text({area_.left - 10, y}, label, style);
    widest = std::max(widest, canvas.text_width(label, style));
  }
  canvas.text({area_.left - 24 - widest, (area_.bottom + area_.top) / 2}, title,
              {.size = axis_text, .across = Across::middle, .along = Along::bottom, .angle = 90});
}

}  // namespace drumlin::viz
