#include "sim/app/life_text.hpp"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "sim/app/result_table.hpp"

namespace drumlin::app {
namespace {

constexpr double micrometre = 1e3;     // um per mm
constexpr double metre = 1e-3;         // m per mm
constexpr double hour = 1.0 / 3600.0;  // h per s
constexpr double m_per_min = 0.06;     // of mm/s

std::string rounded(double value) {
  return fmt::format("{:.2g}", value).find('e') == std::string::npos ? fmt::format("{:.2g}", value)
                                                                     : fmt::format("{:.0f}", value);
}

std::string with_band(const sim::Quantity& quantity, double factor, std::string_view unit) {
  return fmt::format("{} {} ({}..{})", rounded(quantity->value * factor), unit,
                     rounded(*quantity->low * factor), rounded(*quantity->high * factor));
}

std::string um(const sim::Quantity& quantity, int decimals) {
  return quantity ? fixed(quantity->value * micrometre, decimals) : "-";
}

/// Of all edges the highest value of one quantity, or the lowest.
sim::Quantity extreme(const sim::PartState& part, sim::Quantity sim::FeatureResult::*member,
                      bool highest) {
  sim::Quantity found;
  for (const auto& feature : part.features) {
    const sim::Quantity& value = feature.*member;
    if (!value) continue;
    if (!found || (value->value > found->value) == highest) found = value;
  }
  return found;
}

}  // namespace

std::string life_text(const sim::LifeStudy& study, const Style& style) {
  using Edge = sim::FeatureResult;
  Table table{{{"belts", "parts", "K", "face loses", "coating left", "Ra", "tallest burr",
                "longest lip", "least radius", "power", "limits"},
               {"", "", "%", "µm", "µm", "µm", "µm", "µm", "µm", "W/mm", ""}},
              {}};
  for (const sim::LifePoint& point : study.points) {
    std::string sharp;
    for (const double share : point.sharpness)
      sharp += fmt::format("{}{:.0f}", sharp.empty() ? "" : "/", 100 * share);
    const auto& face = point.part.face;
    table.rows.push_back({point.when, fmt::format("{:.0f}", point.parts), sharp,
                          um(face.removal, 1), um(face.coating_left, 1), um(face.roughness, 2),
                          um(extreme(point.part, &Edge::burr_height, true), 0),
                          um(extreme(point.part, &Edge::secondary_burr, true), 0),
                          um(extreme(point.part, &Edge::edge_radius, false), 0),
                          fixed(point.power * 1e-3, 2), point.verdict.state});
  }
  std::string out =
      heading(fmt::format("Belts from fresh to worn ({} model, coarse)", study.model), style);
  out += to_text(table, style);
  for (const sim::BeltLife& belt : study.belts)
    out += wrapped(fmt::format("belt of station {} lasts {}, {} of running, {} of sheet; by {}",
                               belt.station + 1, with_band(belt.parts, 1, "parts"),
                               with_band(belt.time, hour, "h"), with_band(belt.length, metre, "m"),
                               belt.origin),
                   "  ", style);
  if (study.lost_after)
    out += wrapped(
        fmt::format("{} is lost after {}", study.lost, with_band(study.lost_after, 1, "parts")),
        "  ", style);
  if (study.feed_for_equal_removal)
    out += wrapped(
        fmt::format("the face loses at the end what it loses with fresh belts at {} m/min instead "
                    "of {} m/min",
                    brief(*study.feed_for_equal_removal * m_per_min, 3),
                    brief(study.feed * m_per_min, 3)),
        "  ", style);
  return out;
}

}  // namespace drumlin::app
