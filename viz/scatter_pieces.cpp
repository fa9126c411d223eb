#include "viz/scatter_pieces.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "viz/drawings.hpp"

namespace drumlin::viz {
namespace {

using sim::ScatterOutput;

constexpr double between = 56;  ///< columns [pixel]

/// How many columns a box has room for.
std::size_t columns_of(double width) {
  return width < narrow_drawing ? 1 : 2;
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

std::string setup_of(const sim::ScatterStudy& scatter) {
  return fmt::format("{} draws of the scatter that the case states, by the {} model, seed {}",
                     scatter.draws, scatter.model, scatter.seed);
}

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

std::size_t room_for(const Box& area, double height, std::size_t count) {
  const auto rows = static_cast<std::size_t>(std::max(area.height() / height, 1.0));
  return std::min(count, rows * columns_of(area.width()));
}

double height_of_pieces(double width, double each, std::size_t count) {
  const std::size_t columns = columns_of(width);
  return std::max(least_drawing_height,
                  each * static_cast<double>((count + columns - 1) / columns));
}

}  // namespace drumlin::viz
