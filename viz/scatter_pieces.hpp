#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "sim/scatter_result.hpp"
#include "viz/canvas.hpp"
#include "viz/drawings.hpp"

/// What the drawings of scatter share: many small plots, column by column.
namespace drumlin::viz {

inline constexpr TextStyle scatter_title{.size = 24, .bold = true, .along = Along::top};
inline constexpr TextStyle scatter_note{.size = 22, .colour = palette::quiet, .along = Along::top};

/// Limits that are judged, the one that is met least first.
[[nodiscard]] std::vector<const sim::ScatterOutput*> weakest_first(
    const sim::ScatterStudy& scatter);

/// A drawing of pieces that fill its box column by column, as many as it has room for. File, words
/// and what is to be seen are left to the caller.
/// @param each  height of a piece [pixel].
/// @param draw  draws the piece of that index into its box.
[[nodiscard]] Drawing drawing_of_pieces(const sim::ScatterStudy& scatter, double each,
                                        std::size_t count,
                                        std::function<void(Canvas&, const Box&, std::size_t)> draw);

}  // namespace drumlin::viz
