#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "sim/scatter_result.hpp"
#include "viz/canvas.hpp"

/// What the drawings of scatter share: many small plots, column by column.
namespace drumlin::viz {

inline constexpr TextStyle scatter_title{.size = 24, .bold = true, .along = Along::top};
inline constexpr TextStyle scatter_note{.size = 22, .colour = palette::quiet, .along = Along::top};

/// Limits that are judged, the one that is met least first.
[[nodiscard]] std::vector<const sim::ScatterOutput*> weakest_first(
    const sim::ScatterStudy& scatter);

/// What was drawn, by which model, from which seed.
[[nodiscard]] std::string setup_of(const sim::ScatterStudy& scatter);

/// The box of one of `count` pieces that fill an area column by column.
[[nodiscard]] Box piece_of(const Box& area, std::size_t index, std::size_t count);

/// Pieces of a height [pixel] that an area has room for.
[[nodiscard]] std::size_t room_for(const Box& area, double height, std::size_t count);

/// Height of a drawing of `count` pieces of a height each [pixel].
[[nodiscard]] double height_of_pieces(double width, double each, std::size_t count);

}  // namespace drumlin::viz
