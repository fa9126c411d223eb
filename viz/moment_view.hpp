#pragma once

#include <optional>
#include <span>
#include <string>

#include "sim/result.hpp"
#include "viz/plot.hpp"

namespace drumlin::viz {

struct Moment {
  const sim::Result& result;
  const sim::SectionRecord& section;
  const sim::Frame& frame;
  const sim::DrumShape& drum;
};

/// The moment of a section at which the pressure at an edge is highest; none without frames, or
/// where no drum made it.
[[nodiscard]] std::optional<Moment> telling_moment(const sim::Result& result,
                                                   const sim::SectionRecord& section);

/// What of a moment is shown, and on which scales. One view for many moments, or for moments of
/// several results, makes their drawings comparable.
struct MomentView {
  Range x;           ///< [mm] along the feed
  Range z;           ///< [mm] heights that are seen at least; z = 0 keeps its share of the panel
  Range pressure;    ///< [MPa]
  std::string edge;  ///< feature of the edge that a close-up is about; empty: the whole contact
};

/// The whole contact of every one of the moments on one scale. A burr's pressure that is far above
/// the face's runs off the scale; the drawing then says how high it is.
/// @param moments  at least one.
[[nodiscard]] MomentView shared_view(std::span<const Moment> moments);

/// Close-up of the edge with the highest pressure of all moments, on one scale; none without edges.
[[nodiscard]] std::optional<MomentView> shared_close_view(std::span<const Moment> moments);

/// Close-up of the edge of a given feature; none where no moment's section has it.
[[nodiscard]] std::optional<MomentView> shared_close_view(std::span<const Moment> moments,
                                                          const std::string& edge);

}  // namespace drumlin::viz
