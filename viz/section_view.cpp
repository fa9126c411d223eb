#include "viz/section_view.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

namespace drumlin::viz {
namespace {

template <class List>
auto named(const List& list, const std::string& name) -> decltype(list.data()) {
  for (const auto& entry : list)
    if (entry.name == name) return &entry;
  return nullptr;
}

}  // namespace

std::vector<Piece> metal_pieces(std::span<const double> x, std::span<const double> heights,
                                const Range& range) {
  std::vector<Piece> pieces;
  bool open = false;
  for (std::size_t i = 0; i < std::min(x.size(), heights.size()); ++i) {
    const bool metal = range.holds(x[i]) && std::isfinite(heights[i]);
    if (metal && !open) pieces.push_back({i, i});
    if (metal) pieces.back().last = i;
    open = metal;
  }
  std::erase_if(pieces, [](const Piece& piece) { return piece.first == piece.last; });
  return pieces;
}

Range covering(std::span<const double> x, const Range& range) {
  Range out = range;
  const auto above = std::lower_bound(x.begin(), x.end(), range.high);
  if (above != x.end()) out.high = *above;
  const auto below = std::upper_bound(x.begin(), x.end(), range.low);
  if (below != x.begin()) out.low = *std::prev(below);
  return out;
}

std::vector<Run> metal_runs(std::span<const double> x, std::span<const double> heights,
                            std::span<const double> underside, const Range& range) {
  const auto hangs = [&](std::size_t i) {
    return i < underside.size() && std::isfinite(underside[i]);
  };
  std::vector<Run> runs;
  for (const Piece& piece : metal_pieces(x, heights, range)) {
    for (std::size_t i = piece.first; i <= piece.last; ++i) {
      if (i == piece.first || hangs(i) != runs.back().hangs)
        runs.push_back({{i, i}, hangs(i)});
      else
        runs.back().piece.last = i;
    }
  }
  return runs;
}

std::optional<double> value_at(std::span<const double> x, std::span<const double> values,
                               double at) {
  const auto above = std::lower_bound(x.begin(), x.end(), at);
  if (above == x.end()) return {};
  const auto i = static_cast<std::size_t>(above - x.begin());
  if (i >= values.size()) return {};
  if (x[i] == at) return std::isfinite(values[i]) ? std::optional(values[i]) : std::nullopt;
  if (i == 0) return {};
  const double share = (at - x[i - 1]) / (x[i] - x[i - 1]);
  const double value = values[i - 1] + share * (values[i] - values[i - 1]);
  return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

std::optional<Range> extent(std::span<const double> x, std::span<const double> values,
                            const Range& range) {
  std::optional<Range> out;
  for (std::size_t i = 0; i < std::min(x.size(), values.size()); ++i) {
    if (!range.holds(x[i]) || !std::isfinite(values[i])) continue;
    if (!out) out = Range{values[i], values[i]};
    out->low = std::min(out->low, values[i]);
    out->high = std::max(out->high, values[i]);
  }
  return out;
}

std::size_t passage_start(const std::vector<sim::Frame>& frames, std::size_t frame) {
  while (frame > 0 && same_passage(frames[frame - 1], frames[frame]))
    --frame;
  return frame;
}

const sim::SectionRecord* section_named(const sim::Result& result, const std::string& name) {
  return named(result.sections, name);
}

const sim::SectionEdge* edge_named(const sim::SectionRecord& section, const std::string& feature) {
  for (const sim::SectionEdge& edge : section.edges)
    if (edge.feature == feature) return &edge;
  return nullptr;
}

const sim::FeatureResult* feature_named(const sim::Result& result, const std::string& name) {
  return named(result.part.features, name);
}

const sim::SectionEdge* busiest_edge(const sim::SectionRecord& section, const sim::Frame& frame) {
  const auto highest = std::max_element(frame.pressure.begin(), frame.pressure.end());
  if (highest == frame.pressure.end() || section.edges.empty()) return nullptr;
  const double x = section.x.at(static_cast<std::size_t>(highest - frame.pressure.begin()));
  return &*std::min_element(section.edges.begin(), section.edges.end(),
                            [x](const sim::SectionEdge& a, const sim::SectionEdge& b) {
                              return std::abs(a.x - x) < std::abs(b.x - x);
                            });
}

std::optional<double> drum_circle(const sim::DrumShape& drum, double drum_x, double x) {
  const double u = x - drum_x;
  if (std::abs(u) >= drum.radius) return {};
  // R - sqrt(R^2 - u^2) without the loss of digits of the plain form
  const double rise = u * u / (drum.radius + std::sqrt(drum.radius * drum.radius - u * u));
  return rise - drum.interference;
}

std::vector<double> drum_outline(std::span<const double> x, const sim::Frame& frame,
                                 const sim::DrumShape& drum) {
  constexpr double fade = 4;  // [mm] over which the belt comes back to the circle, for the eye only
  constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
  std::vector<double> circle(x.size(), unknown);
  std::vector<double> out(x.size(), unknown);
  std::size_t first = x.size();  // and last: the stretch where the belt was computed
  std::size_t last = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    circle[i] = drum_circle(drum, frame.drum_x, x[i]).value_or(unknown);
    out[i] = circle[i];
    if (i >= frame.belt.size() || !std::isfinite(frame.belt[i])) continue;
    out[i] = frame.belt[i];
    first = std::min(first, i);
    last = i;
  }
  if (first >= x.size()) return out;
  const auto beyond = [&](std::size_t i, std::size_t end) {
    const double share = std::max(0.0, 1 - std::abs(x[i] - x[end]) / fade);
    const double offset = frame.belt[end] - circle[end];
    if (std::isfinite(offset)) out[i] += offset * share * share;
  };
  for (std::size_t i = 0; i < first; ++i)
    beyond(i, first);
  for (std::size_t i = last + 1; i < x.size(); ++i)
    beyond(i, last);
  return out;
}

const sim::DrumShape* drum_of(const sim::Result& result, int station) {
  const auto index = static_cast<std::size_t>(std::max(0, station));
  return index < result.drums.size() ? &result.drums[index] : nullptr;
}

std::optional<double> plain_face_pressure(const sim::Result& result, int station) {
  const auto index = static_cast<std::size_t>(std::max(0, station));
  if (index >= result.stations.size()) return {};
  const sim::Quantity& peak = result.stations[index].peak_pressure;
  return peak && peak->value > 0 ? std::optional(peak->value) : std::nullopt;
}

}  // namespace drumlin::viz
