#include "viz/hatch.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace drumlin::viz {
namespace {

constexpr auto set = std::to_array<Hatch>({
    {.colour = palette::burr, .angle = 45, .spacing = 20},
    {.colour = palette::face, .angle = -45, .spacing = 14, .dash = 16},
    {.colour = palette::coating, .angle = 0, .spacing = 17},
    {.colour = palette::belt, .angle = 90, .spacing = 24},
    {.colour = palette::quiet, .angle = 20, .spacing = 30, .crossed = true},
});
static_assert(set.size() == hatches);
constexpr Hatch unknown{.colour = palette::quiet, .angle = 0, .spacing = 16, .dash = 4, .width = 4};
constexpr Hatch blank{
    .colour = palette::ink, .angle = 45, .spacing = 12, .width = 2, .crossed = true};

constexpr double walk = 2;  ///< [pixel] between two looks along a line

/// Stretches of a line that are inside, their ends to a small part of a pixel.
template <class Visit>
void inside_along(Point from, Point to, const std::function<bool(Point)>& inside,
                  const Visit& visit) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  const auto at = [&](double s) {
    return Point{from.x + (to.x - from.x) * s / length, from.y + (to.y - from.y) * s / length};
  };
  const auto turn = [&](double a, double b) {
    const bool first = inside(at(a));
    for (int k = 0; k < 6; ++k)
      (inside(at((a + b) / 2)) == first ? a : b) = (a + b) / 2;
    return (a + b) / 2;
  };
  double begin = 0;
  double before = 0;
  bool in = inside(from);
  for (double s = walk; before < length; s += walk) {
    const double here = std::min(s, length);
    if (const bool now = inside(at(here)); now != in) {
      const double end = turn(before, here);
      if (in) visit(at(begin), at(end));
      begin = end;
      in = now;
    }
    before = here;
  }
  if (in) visit(at(begin), to);
}

/// The part of a straight line through a point that lies in a box; false if none does.
bool cut_to(const Box& box, Point through, Point way, Point& from, Point& to) {
  double low = -1e9;
  double high = 1e9;
  const auto cut = [&](double start, double step, double least, double most) {
    if (std::abs(step) < 1e-12) {
      if (start < least || start > most) high = low - 1;
      return;
    }
    const auto [a, b] = std::minmax({(least - start) / step, (most - start) / step});
    low = std::max(low, a);
    high = std::min(high, b);
  };
  cut(through.x, way.x, box.left, box.right);
  cut(through.y, way.y, box.bottom, box.top);
  from = {through.x + low * way.x, through.y + low * way.y};
  to = {through.x + high * way.x, through.y + high * way.y};
  return high - low > 1;
}

}  // namespace

const Hatch& hatch(std::size_t i) {
  return set[std::min(i, set.size() - 1)];
}

const Hatch& unknown_hatch() {
  return unknown;
}

const Hatch& blank_hatch() {
  return blank;
}

void fill_with(Canvas& canvas, const Box& box, const Hatch& with,
               const std::function<bool(Point)>& inside) {
  const double turn = with.angle * std::numbers::pi / 180;
  for (int set_of = 0; set_of < (with.crossed ? 2 : 1); ++set_of) {
    const double angle = turn + set_of * std::numbers::pi / 2;
    const Point way{std::cos(angle), std::sin(angle)};
    const Point across{-way.y, way.x};
    const Point middle{(box.left + box.right) / 2, (box.bottom + box.top) / 2};
    const double reach = std::hypot(box.width(), box.height()) / 2;
    const int lines = static_cast<int>(reach / with.spacing);
    for (int k = -lines; k <= lines; ++k) {
      const double off = k * with.spacing;
      Point from;
      Point to;
      if (!cut_to(box, {middle.x + off * across.x, middle.y + off * across.y}, way, from, to))
        continue;
      inside_along(from, to, inside, [&](Point a, Point b) {
        canvas.line(a, b, {with.colour, with.width, with.dash});
      });
    }
  }
}

void fill_with(Canvas& canvas, const Box& box, Colour colour,
               const std::function<bool(Point)>& inside) {
  constexpr double row = 3;  // [pixel]; the border is drawn over the steps
  const int rows = static_cast<int>(std::ceil(box.height() / row));
  const double height = box.height() / rows;
  for (int k = 0; k < rows; ++k) {
    const double low = box.bottom + k * height;
    const double middle = low + height / 2;
    // Each row reaches a little under the next one: no seams.
    const double high = std::min(low + height + 0.7, box.top);
    inside_along({box.left, middle}, {box.right, middle}, inside, [&](Point a, Point b) {
      canvas.fill({a.x, low, b.x, high}, colour);
    });
  }
}

}  // namespace drumlin::viz
