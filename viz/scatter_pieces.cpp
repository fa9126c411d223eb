#include "viz/scatter_pieces.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

namespace drumlin::viz {
namespace {

using sim::ScatterOutput;

constexpr double between = 56;  ///< columns [pixel]

/// How many columns a box has room for.
std::size_t columns_of(double width) {
  return width < narrow_drawing ? 1 : 2;
}

/// The box of one of `count` pieces that fill an area column by column.
Box piece_of(const Box& area, std::size_t index, std::size_t count) {
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

}  // namespace

std::vector<const ScatterOutput*> weakest_first(const sim::ScatterStudy& scatter) {
  std::vector<const ScatterOutput*> list;
  for (const ScatterOutput& limit : scatter.limits)
    if (limit.met && limit.value) list.push_back(&limit);
  std::stable_sort(list.begin(), list.end(), [&](const ScatterOutput* a, const ScatterOutput* b) {
    return by_weakness(*a) < by_weakness(*b);
  });
  return list;
}

Drawing drawing_of_pieces(const sim::ScatterStudy& scatter, double each, std::size_t count,
                          std::function<void(Canvas&, const Box&, std::size_t)> draw) {
  Drawing drawing;
  drawing.setup =
      fmt::format("{} draws of the scatter that the case states, by the {} model, seed {}",
                  scatter.draws, scatter.model, scatter.seed);
  drawing.paint = [each, count, draw = std::move(draw)](Canvas& canvas, const Box& area) {
    const std::size_t fitting = room_for(area, each, count);
    for (std::size_t i = 0; i < fitting; ++i)
      draw(canvas, piece_of(area, i, fitting), i);
  };
  drawing.height = [each, count](double width) {
    const std::size_t columns = columns_of(width);
    return std::max(least_drawing_height,
                    each * static_cast<double>((count + columns - 1) / columns));
  };
  return drawing;
}

}  // namespace drumlin::viz
