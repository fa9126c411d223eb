#include "viz/label_places.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace drumlin::viz {
namespace {

constexpr double margin = 6;      // [pixel] around a label
constexpr double apart = 4;       // [pixel] between the points that stand for a line
constexpr double text_worth = 5;  // two texts in one place cannot be read, a line behind one can
constexpr double worth = 60;      // [pixel^2] of cover that one point of a line counts as

double common(const Box& a, const Box& b) {
  const double width = std::min(a.right, b.right) - std::max(a.left, b.left);
  const double height = std::min(a.top, b.top) - std::max(a.bottom, b.bottom);
  return width > 0 && height > 0 ? width * height : 0;
}

}  // namespace

void LabelPlaces::keep_clear(std::span<const Point> line) {
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Point from = line[i];
    const Point to = line[i + 1];
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    if (!std::isfinite(length)) continue;
    if (!points_.empty() && length < apart &&
        std::hypot(to.x - points_.back().x, to.y - points_.back().y) < apart)
      continue;
    const int count = std::clamp(static_cast<int>(length / apart), 1, 1000);
    for (int k = 0; k <= count; ++k)
      points_.push_back(
          {from.x + (to.x - from.x) * k / count, from.y + (to.y - from.y) * k / count});
  }
}

Box LabelPlaces::box_of(std::string_view text, const TextStyle& style, const Spot& spot) const {
  const double width = canvas_.text_width(text, style);
  double left = spot.at.x;
  if (spot.across == Across::middle) left -= width / 2;
  if (spot.across == Across::right) left -= width;
  double bottom = spot.at.y;
  if (spot.along == Along::middle) bottom -= style.size / 2;
  if (spot.along == Along::top) bottom -= style.size;
  left = std::max(area_.left + margin, std::min(left, area_.right - margin - width));
  bottom = std::max(area_.bottom + margin, std::min(bottom, area_.top - margin - style.size));
  return {left, bottom, left + width, bottom + style.size};
}

double LabelPlaces::covered(const Box& box) const {
  const Box wide{box.left - margin, box.bottom - margin, box.right + margin, box.top + margin};
  double sum = 0;
  for (const Box& other : boxes_)
    sum += text_worth * common(wide, other);
  for (const Point& p : points_)
    if (p.x > wide.left && p.x < wide.right && p.y > wide.bottom && p.y < wide.top) sum += worth;
  return sum;
}

void LabelPlaces::put(std::string_view text, TextStyle style, const Box& box) {
  style.across = Across::left;
  style.along = Along::bottom;
  canvas_.text({box.left, box.bottom}, text, style);
  boxes_.push_back(box);
}

Box LabelPlaces::write(std::string_view text, TextStyle style, std::span<const Spot> spots) {
  Box best{};
  double least = std::numeric_limits<double>::infinity();
  for (const Spot& spot : spots) {
    const Box box = box_of(text, style, spot);
    const double cover = covered(box);
    if (cover >= least) continue;
    least = cover;
    best = box;
    if (cover == 0) break;
  }
  if (!spots.empty()) put(text, style, best);
  return best;
}

bool LabelPlaces::write_if_free(std::string_view text, TextStyle style, const Spot& spot) {
  const Box box = box_of(text, style, spot);
  if (covered(box) > 0) return false;
  put(text, style, box);
  return true;
}

}  // namespace drumlin::viz
