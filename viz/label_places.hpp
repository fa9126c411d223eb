#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "viz/canvas.hpp"

namespace drumlin::viz {

/// Where a label may stand, and which part of it stands there.
struct Spot {
  Point at;
  Across across = Across::left;
  Along along = Along::middle;
};

/// Writes labels so that they cover neither each other nor the lines of a drawing, as far as there
/// is room.
class LabelPlaces {
 public:
  LabelPlaces(Canvas& canvas, const Box& area) : canvas_(canvas), area_(area) {}

  void keep_clear(const Box& box) { boxes_.push_back(box); }
  void keep_clear(std::span<const Point> line);

  /// Writes at the first spot that is free, else at the one where least is covered. A label that
  /// would leave the area is moved back into it. @return the box it takes, without any margin.
  Box write(std::string_view text, TextStyle style, std::span<const Spot> spots);

  /// Writes only where it covers nothing. @return whether it was written.
  bool write_if_free(std::string_view text, TextStyle style, const Spot& spot);

 private:
  [[nodiscard]] Box box_of(std::string_view text, const TextStyle& style, const Spot& spot) const;
  [[nodiscard]] double covered(const Box& box) const;
  void put(std::string_view text, TextStyle style, const Box& box);

  Canvas& canvas_;
  Box area_;
  std::vector<Box> boxes_;
  std::vector<Point> points_;  ///< along lines, a few pixels apart
};

}  // namespace drumlin::viz
