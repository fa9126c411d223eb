#include "sim/app/edges_text.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "sim/app/result_table.hpp"

namespace drumlin::app {
namespace {

using sim::FeatureResult;

constexpr double micrometre = 1e3;  // um per mm

std::string length_text(const sim::Quantity& quantity) {
  return fmt::format("{} µm", fixed(quantity->value * micrometre, 0));
}

/// What became of a burr, in a sentence; empty where nothing stood.
std::string story(const FeatureResult& f) {
  if (f.outcome.empty()) return "";
  std::string text = f.name + ": " + f.burr + " " + f.outcome;
  const bool hangs = f.secondary_burr && f.secondary_burr->value > 0.0;
  if (f.fold_start) text += fmt::format(", bent at {} of height", length_text(f.fold_start));
  if (f.fold_stop && hangs)
    text += fmt::format(", came to rest with its top at {}", length_text(f.fold_stop));
  if (hangs)
    text += fmt::format(
        "; it hangs {} beyond the edge line{}", length_text(f.secondary_burr),
        f.lip_thickness ? fmt::format(", {} thick", length_text(f.lip_thickness)) : std::string());
  if (f.protrusion) text += fmt::format("; the tab sticks out {}", length_text(f.protrusion));
  return text;
}

Table burrs_table(const std::vector<FeatureResult>& features) {
  return table_of<FeatureResult>(
      "edge", features, [&](std::size_t i) { return features[i].name; },
      {{"burr left", "µm", [](const FeatureResult& f) { return f.burr_height; }, micrometre, 1},
       {"secondary", "µm", [](const FeatureResult& f) { return f.secondary_burr; }, micrometre, 1},
       {"edge drop", "µm", [](const FeatureResult& f) { return f.edge_drop; }, micrometre, 1},
       {"edge radius", "µm", [](const FeatureResult& f) { return f.edge_radius; }, micrometre, 1},
       {"coating left", "µm", [](const FeatureResult& f) { return f.coating_left; }, micrometre, 1},
       {"bare", "mm", [](const FeatureResult& f) { return f.bare_length; }, 1, 2},
       {"peak", "MPa", [](const FeatureResult& f) { return f.peak_pressure; }, 1, 2}});
}

Table sizes_table(const std::vector<FeatureResult>& features) {
  return table_of<FeatureResult>(
      "edge", features,
      [&](std::size_t i) {
        const FeatureResult& f = features[i];
        return f.size_class.empty() ? f.name : fmt::format("{} ({})", f.name, f.size_class);
      },
      {{"size", "mm", [](const FeatureResult& f) { return f.edge_size; }, 1, 3},
       {"on face", "mm", [](const FeatureResult& f) { return f.face_extent; }, 1, 3},
       {"on flank", "mm", [](const FeatureResult& f) { return f.flank_extent; }, 1, 3},
       {"least radius", "µm", [](const FeatureResult& f) { return f.minimum_radius; }, micrometre,
        1},
       {"oxide left", "%", [](const FeatureResult& f) { return f.oxide_left; }, 100, 1}});
}

}  // namespace

std::string edges_text(const sim::FaceState& state, std::string_view what, const Style& style) {
  const auto& features = state.features;
  if (features.empty()) return "";
  std::string out = heading(what, style) + to_text(burrs_table(features), style);
  const auto is_low = [](const FeatureResult& f) {
    return f.burr_height && f.burr_height->value < 0;
  };
  if (std::any_of(features.begin(), features.end(), is_low))
    out += wrapped("burr left below zero: worn below the face", "  ", style);
  const Table sizes = sizes_table(features);
  if (sizes.head[0].size() > 1)
    out += heading("Size of the worn edges as ISO 13715 counts it (class in brackets)", style) +
           to_text(sizes, style);
  std::vector<std::string> stories;
  for (const FeatureResult& f : features) {
    if (const std::string text = story(f); !text.empty()) stories.push_back(text);
  }
  out += list("What became of the burrs", stories, Paint::heading, style);
  for (const FeatureResult& f : features)
    if (!f.note.empty()) out += wrapped(f.name + ": " + f.note, "  ", style);
  return out;
}

}  // namespace drumlin::app
