#include "sim/app/part_as_it_is_text.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace drumlin::app {
namespace {

constexpr double micrometre = 1e3;  // um per mm

std::string range(double low, double high, int decimals) {
  return fmt::format("{}..{}", fixed(low, decimals), fixed(high, decimals));
}

}  // namespace

std::string part_as_it_is_text(const sim::InterferenceStudy& study, const Style& style) {
  Table table{{{"cause", "interference", "face loses", "coating left", "limits"},
               {"", "mm", "µm", "µm", ""}},
              {}};
  for (const sim::Disturbance& cause : study.disturbances) {
    const std::string name = cause.given ? cause.name : cause.name + " (usual)";
    const std::string coating =
        cause.coating_low && cause.coating_high
            ? range(*cause.coating_low * micrometre, *cause.coating_high * micrometre, 1)
            : "-";
    table.rows.push_back({name, range(cause.low, cause.high, 3),
                          range(cause.removal_low * micrometre, cause.removal_high * micrometre, 1),
                          coating,
                          !cause.accepted   ? "-"
                          : *cause.accepted ? "kept"
                                            : "broken"});
  }
  std::string out = heading(
      fmt::format("Part as it is: what moves the interference ({} model)", study.model), style);
  out += to_text(table, style);
  out += wrapped(fmt::format("face removal changes by {} µm per 0.1 mm of interference",
                             fixed(0.1 * study.removal_per_mm * micrometre, 1)),
                 "  ", style);
  if (study.most_less || study.most_more) {
    const auto end = [](const std::optional<double>& most, const std::string& by) {
      if (!most) return std::string("not known");
      return fmt::format("{} mm{}", fixed(*most, 3), by.empty() ? "" : " (" + by + ")");
    };
    out += wrapped(fmt::format("limits hold from {} less to {} more interference",
                               end(study.most_less, study.limited_less),
                               end(study.most_more, study.limited_more)),
                   "  ", style);
  }
  return out;
}

std::string cut_or_fold_text(const sim::FoldMap& map, const Style& style) {
  using Outcome = sim::FoldMap::Outcome;
  const auto count = [&](Outcome what) {
    return std::count(map.outcome.begin(), map.outcome.end(), what);
  };
  std::string out =
      heading(fmt::format("Cut or fold at {} ({} model)", map.edge, map.model), style);
  // The thickest root that still folds, of any height.
  double thickest = 0.0;
  for (std::size_t i = 0; i < map.outcome.size(); ++i) {
    if (map.outcome[i] == Outcome::folds)
      thickest = std::max(thickest, map.root[i % map.root.size()]);
  }
  const std::string range_text =
      fmt::format("burrs {}..{} µm high with roots of {}..{} µm",
                  fixed(map.height.front() * 1e3, 0), fixed(map.height.back() * 1e3, 0),
                  fixed(map.root.front() * 1e3, 0), fixed(map.root.back() * 1e3, 0));
  if (count(Outcome::folds) == 0)
    return out + wrapped("of " + range_text + " none folds beyond the edge", "  ", style);
  return out + wrapped(fmt::format("of {} those with roots up to {} µm fold beyond the edge in the "
                                   "first belt's pass, thicker ones are ground",
                                   range_text, fixed(thickest * 1e3, 0)),
                       "  ", style);
}

}  // namespace drumlin::app
