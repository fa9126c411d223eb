#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "sim/result.hpp"
#include "viz/plot.hpp"

/// What pictures and VTK series ask of a section.
namespace drumlin::viz {

/// Neighbouring display points that all have metal: indices [first, last].
struct Piece {
  std::size_t first = 0;
  std::size_t last = 0;
};

/// The pieces of metal of a profile inside `range`; a piece has at least two points.
[[nodiscard]] std::vector<Piece> metal_pieces(std::span<const double> x,
                                              std::span<const double> heights, const Range& range);

/// A range widened to the display points on or just beyond its ends: lines between them cross the
/// ends.
[[nodiscard]] Range covering(std::span<const double> x, const Range& range);

/// Neighbouring points of a piece that all stand on the part's own metal, or all hang over an
/// opening.
struct Run {
  Piece piece;
  bool hangs = false;
};

/// Pieces of metal inside `range`, split where metal begins to hang.
///
/// @param underside  of hanging metal, NaN elsewhere; may be empty.
[[nodiscard]] std::vector<Run> metal_runs(std::span<const double> x,
                                          std::span<const double> heights,
                                          std::span<const double> underside, const Range& range);

/// Value between the display points; none where there is no metal or outside the section.
[[nodiscard]] std::optional<double> value_at(std::span<const double> x,
                                             std::span<const double> values, double at);

/// Lowest and highest finite value inside `range`; none without any.
[[nodiscard]] std::optional<Range> extent(std::span<const double> x, std::span<const double> values,
                                          const Range& range);

/// Whether two records belong to one passage: the same pass over the same station.
template <class Record>
[[nodiscard]] bool same_passage(const Record& a, const Record& b) {
  return a.pass == b.pass && a.station == b.station;
}

/// How far the drum has travelled at each record [mm], counted on through all passages, one after
/// the other; a new passage starts one step after the last one's end, so the travel always grows.
template <class Record>
[[nodiscard]] std::vector<double> travel(const std::vector<Record>& records) {
  std::vector<double> out;
  double base = 0;
  double start = 0;
  for (std::size_t i = 0; i < records.size(); ++i) {
    if (i == 0 || !same_passage(records[i], records[i - 1])) {
      const double step = out.size() > 1 ? out.back() - out[out.size() - 2] : 1;
      base = out.empty() ? 0 : out.back() + step;
      start = records[i].drum_x;
    }
    out.push_back(base + start - records[i].drum_x);
  }
  return out;
}

/// Index of the frame with which a frame's passage begins.
[[nodiscard]] std::size_t passage_start(const std::vector<sim::Frame>& frames, std::size_t frame);

[[nodiscard]] const sim::SectionRecord* section_named(const sim::Result& result,
                                                      const std::string& name);
[[nodiscard]] const sim::SectionEdge* edge_named(const sim::SectionRecord& section,
                                                 const std::string& feature);
[[nodiscard]] const sim::FeatureResult* feature_named(const sim::Result& result,
                                                      const std::string& name);

/// The edge nearest to the highest pressure of a frame; null without edges or pressure.
[[nodiscard]] const sim::SectionEdge* busiest_edge(const sim::SectionRecord& section,
                                                   const sim::Frame& frame);

/// Lower outline of the drum with its belt over the display points [mm]: the belt's face where it
/// was computed, the circle beyond, joined smoothly.
[[nodiscard]] std::vector<double> drum_outline(std::span<const double> x, const sim::Frame& frame,
                                               const sim::DrumShape& drum);

/// Height of the drum's unpressed circle at x [mm]; none beyond its radius.
[[nodiscard]] std::optional<double> drum_circle(const sim::DrumShape& drum, double drum_x,
                                                double x);

/// The drum that made a frame; null if the result has none.
[[nodiscard]] const sim::DrumShape* drum_of(const sim::Result& result, int station);

/// Highest static pressure of a station on the plain, unworn face [MPa], which every picture
/// compares its edges with; none where the result does not give it.
[[nodiscard]] std::optional<double> plain_face_pressure(const sim::Result& result, int station);

}  // namespace drumlin::viz
