#pragma once

#include <cstddef>
#include <cstdint>
#include <variant>
#include <vector>

#include "models/removal/layered.hpp"
#include "sim/line/strip.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim::line {

/// Whose burr metal a cell would carry: per cell 1 + the nearest edge; 0 without edges.
[[nodiscard]] std::vector<std::uint8_t> burr_owners(const Strip& strip);

/// Removal laws of a strip's columns under one station: burr metal by the edge that it belongs to,
/// the layers on the face, the base metal.
template <class Law>
class WearLayers {
 public:
  using Column = models::LayeredColumn<Law, 3>;

  /// @param owner  `burr_owners` of the strip; must outlive the object, as the laws must.
  WearLayers(const Law& top, const Law& coating, const Law& base, const Strip& strip,
             const std::vector<std::uint8_t>& owner)
      : top_(top), coating_(coating), base_(base), owner_(owner) {
    burr_.push_back(base_);
    for (const StripEdge& edge : strip.edges) {
      burr_.push_back(base_);
      burr_.back().coefficient *= edge.ease;
    }
  }

  /// Those of a belt, which must outlive the object.
  WearLayers(const BeltSetup& station, const Strip& strip, const std::vector<std::uint8_t>& owner)
      : WearLayers(std::get<Law>(station.top.law), std::get<Law>(station.coating.law),
                   std::get<Law>(station.substrate.law), strip, owner) {}

  /// A column of the plain face, from the layers it has left [mm].
  [[nodiscard]] Column plain(double top, double coating) const {
    return {.left = {0.0, top, coating}, .law = {&base_, &top_, &coating_, &base_}};
  }
  [[nodiscard]] Column column(const Strip& strip, std::size_t cell) const {
    return {.left = {strip.burr[cell], strip.top[cell], strip.coating[cell]},
            .law = {&burr_[owner_[cell]], &top_, &coating_, &base_}};
  }
  /// Takes a depth [mm] off a cell.
  void wear(Strip& strip, std::size_t cell, double depth) const {
    Column stack = column(strip, cell);
    stack.take(depth);
    strip.height[cell] -= depth;
    strip.burr[cell] = stack.left[0];
    strip.top[cell] = stack.left[1];
    strip.coating[cell] = stack.left[2];
  }

 private:
  std::vector<Law> burr_;  // per edge, from 1 on
  const Law& top_;
  const Law& coating_;
  const Law& base_;
  const std::vector<std::uint8_t>& owner_;
};

}  // namespace drumlin::sim::line
