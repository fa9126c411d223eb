#include "viz/window_key.hpp"

#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "viz/cells.hpp"

namespace drumlin::viz {
namespace {

constexpr double least_share = 0.002;  ///< of the map, for an entry in the key
constexpr TextStyle quiet{.size = 22, .colour = palette::quiet, .along = Along::top};

/// "accepted", "not accepted: face coating left", ...
std::string state_text(const sim::Window& window, int kind) {
  return kind > 0 ? "not accepted: " + spoken(window.kind_name(kind)) : window.kind_name(kind);
}

}  // namespace

std::vector<std::size_t> limits_on_map(const sim::Window& window) {
  std::vector<std::size_t> limits;
  for (std::size_t k = 0; k < window.limits.size(); ++k)
    if (window.limits[k].share >= least_share) limits.push_back(k);
  std::stable_sort(limits.begin(), limits.end(), [&](std::size_t a, std::size_t b) {
    return window.limits[a].share > window.limits[b].share;
  });
  return limits;
}

const Hatch& region_hatch(const sim::Window& window, int kind) {
  if (kind == sim::not_known_kind) return unknown_hatch();
  if (kind == sim::not_computed_kind) return blank_hatch();
  const std::vector<std::size_t> limits = limits_on_map(window);
  const auto found = std::find(limits.begin(), limits.end(), static_cast<std::size_t>(kind - 1));
  return hatch(static_cast<std::size_t>(found - limits.begin()));
}

void draw_cross(Canvas& canvas, Point middle, double arm) {
  for (const Stroke& stroke : {Stroke{palette::paper, 10, 0}, Stroke{palette::ink, 4, 0}}) {
    canvas.line({middle.x - arm, middle.y}, {middle.x + arm, middle.y}, stroke);
    canvas.line({middle.x, middle.y - arm}, {middle.x, middle.y + arm}, stroke);
  }
}

void draw_diamond(Canvas& canvas, Point middle, double arm) {
  const auto filled = [&](double reach, Colour colour) {
    canvas.triangle({middle.x - reach, middle.y}, {middle.x + reach, middle.y},
                    {middle.x, middle.y + reach}, colour);
    canvas.triangle({middle.x - reach, middle.y}, {middle.x + reach, middle.y},
                    {middle.x, middle.y - reach}, colour);
  };
  filled(arm + 6, palette::ink);
  filled(arm + 1, palette::paper);
  filled(arm - 6, palette::burr);
}

std::size_t window_key_entries(const sim::Window& window) {
  return 1 + std::min(limits_on_map(window).size(), hatches) +
         (window.not_known_share > 0 ? 1U : 0U) + (window.not_computed_share > 0 ? 1U : 0U) +
         (window.robust ? 1U : 0U) + (window.own.place ? 1U : 0U) + (window.probability ? 1U : 0U);
}

void draw_window_key(Canvas& canvas, const sim::Window& window, const Box& area) {
  const std::vector<std::size_t> limits = limits_on_map(window);
  double y = area.top;
  const TextStyle name{.size = 25, .bold = true, .along = Along::top};
  const auto entry = [&](const auto& mark, const std::string& word, const std::string& meaning) {
    const Box box{area.left, y - 44, area.left + 62, y};
    mark(box);
    double used = canvas.paragraph({area.left + 78, y}, area.width() - 78, word, name);
    used += canvas.paragraph({area.left + 78, y - used - 2}, area.width() - 78, meaning, quiet);
    y -= std::max(used, 46.0) + 14;
  };
  const auto everywhere = [](Point) { return true; };
  const auto region = [&](const Hatch& with) {
    return [&](const Box& box) {
      fill_with(canvas, box, with, everywhere);
      canvas.frame(box, {palette::ink, 2, 0});
    };
  };
  const auto percent = [](double share) { return fmt::format("{:.0f} % of the map", 100 * share); };
  entry(
      [&](const Box& box) {
        canvas.fill(box, palette::worn);
        canvas.frame(box, {palette::ink, 5, 0});
      },
      "accepted", percent(window.accepted_share));
  double others = 0;
  for (std::size_t k = 0; k < limits.size(); ++k) {
    const sim::WindowLimit& limit = window.limits[limits[k]];
    if (k + 1 >= hatches && limits.size() > hatches) {
      others += limit.share;
      continue;
    }
    entry(region(hatch(k)), spoken(limit.name),
          fmt::format("{}; fails first in {:.0f} %", limit.limit, 100 * limit.share));
  }
  if (others > 0) entry(region(hatch(hatches - 1)), "other limits", percent(others));
  if (window.not_known_share > 0)
    entry(region(unknown_hatch()), "not known", percent(window.not_known_share));
  if (window.not_computed_share > 0)
    entry(region(blank_hatch()), "cannot be computed", percent(window.not_computed_share));
  if (window.robust)
    entry(
        [&](const Box& box) {
          canvas.frame(box, {palette::ink, 4, 0});
          draw_cross(canvas, {(box.left + box.right) / 2, (box.bottom + box.top) / 2}, 12);
        },
        "most robust setting", "in the widest accepted box");
  if (window.own.place)
    entry(
        [&](const Box& box) {
          draw_diamond(canvas, {(box.left + box.right) / 2, (box.bottom + box.top) / 2}, 14);
        },
        "this case", state_text(window, window.own.kind));
  if (window.probability)
    entry(
        [&](const Box& box) {
          for (std::size_t k = 0; k < contour_dashes.size(); ++k) {
            const double at = box.top - 4 - 12 * static_cast<double>(k);
            canvas.line({box.left, at}, {box.right, at}, {palette::face, 3, contour_dashes[k]});
          }
        },
        "0.5, 0.9, 0.95, 0.99", "share of draws that keep all");
}

}  // namespace drumlin::viz
