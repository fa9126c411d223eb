#include "viz/colour_scale.hpp"

#include <algorithm>
#include <cmath>

#include "viz/cielab.hpp"

namespace drumlin::viz {
namespace {

constexpr int fine = 1024;  // steps of the path before it is made even
constexpr int steps = 256;  // of the scale, finer than a screen can tell

/// A colour on the way from light to dark: chroma rises towards the middle, where a screen can show
/// most of it, and falls again.
Lab on_the_way(double way, double cosine, double sine) {
  constexpr double light = 93;   // L*: still apart from paper
  constexpr double dark = 28;    // L*: still apart from ink
  constexpr double pale = 9;     // chroma at the light end
  constexpr double deep = 26;    // and at the dark end, just within what a screen can show
  constexpr double richer = 20;  // in the middle, over the mean of both
  const double chroma = pale + (deep - pale) * way + 4 * richer * way * (1 - way);
  return {light + (dark - light) * way, chroma * cosine, chroma * sine};
}

}  // namespace

ColourScale::ColourScale(Colour hue) {
  const Lab lab = lab_of(hue);
  const double chroma = std::max(std::hypot(lab.a, lab.b), 1e-9);
  std::vector<Lab> path;
  std::vector<double> gone{0};
  for (int i = 0; i <= fine; ++i) {
    path.push_back(on_the_way(static_cast<double>(i) / fine, lab.a / chroma, lab.b / chroma));
    if (i > 0) gone.push_back(gone.back() + difference(path[path.size() - 2], path.back()));
  }
  for (int i = 0; i < steps; ++i) {
    const double wanted = gone.back() * i / (steps - 1);
    const auto next = std::lower_bound(gone.begin(), gone.end(), wanted);
    colours_.push_back(colour_of(path[static_cast<std::size_t>(next - gone.begin())]));
  }
}

Colour ColourScale::at(double share) const {
  const double place = std::clamp(std::isfinite(share) ? share : 0.0, 0.0, 1.0) * (steps - 1);
  return colours_[static_cast<std::size_t>(std::lround(place))];
}

const ColourScale& coating_scale() {
  static const ColourScale scale(palette::coating);
  return scale;
}

void draw_colour_bar(Canvas& canvas, const Box& bar, const ColourScale& scale,
                     const std::vector<Tick>& ticks) {
  constexpr int pieces = 64;
  for (int i = 0; i < pieces; ++i) {
    const double left = bar.left + bar.width() * i / pieces;
    // Each reaches under the next one: no seams.
    const double right = i + 1 < pieces ? left + 2 * bar.width() / pieces : bar.right;
    canvas.fill({left, bar.bottom, std::min(right, bar.right), bar.top},
                scale.at((i + 0.5) / pieces));
  }
  canvas.frame(bar, {palette::ink, 2, 0});
  for (const Tick& tick : ticks) {
    const double x = bar.left + std::clamp(tick.share, 0.0, 1.0) * bar.width();
    canvas.line({x, bar.bottom}, {x, bar.bottom - 7}, {palette::ink, 2, 0});
    canvas.text({x, bar.bottom - 11}, tick.text,
                {.size = 22, .across = Across::middle, .along = Along::top});
  }
}

}  // namespace drumlin::viz
