#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "viz/drawings.hpp"
#include "viz/file_names.hpp"
#include "viz/profile_drawing.hpp"
#include "viz/section_view.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

constexpr double facts_width = 400;

std::string band_text(const sim::Banded& value) {
  if (!value.low || !value.high) return {};
  const double low = std::min(*value.low, *value.high);
  const double high = std::max(*value.low, *value.high);
  return fmt::format("band {} to {}", length_text(low), length_text(high));
}

/// One number of the column beside the drawing; nothing without a value.
void draw_fact(Canvas& canvas, Point& at, const char* name, const sim::Quantity& value,
               Colour colour) {
  if (!value) return;
  canvas.fill({at.x, at.y - 92, at.x + 8, at.y}, colour);
  canvas.text({at.x + 24, at.y}, name, {.size = 24, .along = Along::top});
  canvas.text({at.x + 24, at.y - 28}, length_text(value->value),
              {.size = 36, .bold = true, .along = Along::top});
  canvas.text({at.x + 24, at.y - 70}, band_text(*value),
              {.size = 21, .colour = palette::quiet, .along = Along::top});
  at.y -= 116;
}

/// A burr that is worn below the face reads as a depth, unless its band reaches above the face.
void draw_burr_left(Canvas& canvas, Point& at, const sim::Quantity& height) {
  if (!height) return;
  const double highest =
      std::max(height->low.value_or(height->value), height->high.value_or(height->value));
  if (highest > 0 || height->value >= 0) {
    draw_fact(canvas, at, "burr height over the worn face", height, palette::burr);
    return;
  }
  const auto turned = [](std::optional<double> z) {
    return z ? std::optional<double>(-*z) : std::nullopt;
  };
  draw_fact(canvas, at, "burr worn below the face by",
            sim::Banded{-height->value, turned(height->low), turned(height->high)}, palette::burr);
}

void draw_facts(Canvas& canvas, const Box& box, const sim::Result& result,
                const sim::FeatureResult& feature) {
  Point at{box.left, box.top};
  draw_burr_left(canvas, at, feature.burr_height);
  if (feature.secondary_burr && feature.secondary_burr->value > 0)
    draw_fact(canvas, at, "hangs beyond the edge", feature.secondary_burr, palette::burr);
  draw_fact(canvas, at, "edge drop", feature.edge_drop, palette::ink);
  draw_fact(canvas, at, "edge radius", feature.edge_radius, palette::ink);
  draw_fact(canvas, at, "face removed", result.part.face.removal, palette::face);
  draw_fact(canvas, at, "least coating left near it", feature.coating_left, palette::coating);
  draw_fact(canvas, at, "bare from the edge line on", feature.bare_length, palette::coating);
}

std::string left_of_burr(const std::string& burr, const sim::FeatureResult& feature) {
  if (!feature.burr_height) return fmt::format("The {} stood over the face.", burr);
  const double left = feature.burr_height->value;
  return left > 0
             ? fmt::format("Of the {}, {} still stands over the face.", burr, length_text(left))
             : fmt::format("The {} is worn down to {} below the face.", burr, length_text(-left));
}

/// What became of the burr, in a sentence.
std::string burr_sentence(const sim::SectionEdge& edge, const sim::FeatureResult& feature) {
  const bool stub = edge.burr == "stub";
  const std::string name = edge.burr == "bead" ? "bead" : stub ? "stub" : "burr";
  const std::string burr = fmt::format("{} of {}", name, length_text(edge.burr_height));
  if (feature.outcome == "folded beyond the edge" && feature.secondary_burr)
    return fmt::format("The {} is not cut but lies over the edge: {} hang beyond it.", burr,
                       length_text(feature.secondary_burr->value));
  if (feature.outcome == "folded onto the face")
    return fmt::format("The {} is bent down onto the face and lies there.", burr);
  if (feature.outcome == "broken off") return fmt::format("The {} broke off.", burr);
  if (feature.outcome == "untouched") return fmt::format("No tool met the {}.", burr);
  if (stub && feature.protrusion) {
    const std::string tab =
        fmt::format("The tab sticks out {}.", length_text(feature.protrusion->value));
    return edge.burr_height > 0 ? left_of_burr(burr, feature) + " " + tab : tab;
  }
  return left_of_burr(burr, feature);
}

std::string why(const sim::Result& result, const sim::SectionRecord& section,
                const sim::SectionEdge& edge, const sim::FeatureResult& feature) {
  std::string text = edge.burr != "none" ? burr_sentence(edge, feature)
                                         : "No burr was given here: the belt rounds the edge.";
  text += fmt::format(" The face loses {}.", length_text(section.face_removal));
  const std::optional<double> face = plain_face_pressure(result, 0);
  if (feature.peak_pressure && result.stations.size() == 1 && face) {
    const double ratio = feature.peak_pressure->value / *face;
    if (ratio > 1.5)
      text += fmt::format(
          " Why: the belt presses on the edge with up to {} the pressure on the plain face.",
          times_text(ratio));
  }
  return text;
}

void draw(Canvas& canvas, const Box& area, const sim::Result& result,
          const sim::SectionRecord& section, const sim::SectionEdge& edge,
          const sim::FeatureResult& feature) {
  draw_profile(canvas, {area.left, area.bottom + 10, area.right - facts_width - 40, area.top - 8},
               result, section, edge);
  draw_facts(canvas, {area.right - facts_width, area.bottom, area.right, area.top - 8}, result,
             feature);
}

}  // namespace

std::vector<Drawing> profile_drawings(const sim::Result& result) {
  std::vector<std::string> names;
  for (const sim::FeatureResult& feature : result.part.features)
    names.push_back(feature.name);
  const std::vector<std::string> files = file_names(names);
  std::vector<Drawing> drawings;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const sim::FeatureResult& feature = result.part.features[i];
    const sim::SectionRecord* section = section_named(result, feature.section);
    if (section == nullptr || section->x.size() < 2) continue;
    const sim::SectionEdge* edge = edge_named(*section, feature.name);
    if (edge == nullptr) continue;
    drawings.push_back(
        {.file = "profile-" + files[i],
         .what = feature.name + ", before and after",
         .setup = result.stations.size() == 1
                      ? setup_text(result, 0)
                      : fmt::format("after {} stations", result.stations.size()),
         .why = why(result, *section, *edge, feature),
         .paint = [&result, section, edge, &feature](Canvas& canvas, const Box& area) {
           draw(canvas, area, result, *section, *edge, feature);
         }});
  }
  return drawings;
}

}  // namespace drumlin::viz
