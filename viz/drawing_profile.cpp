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

constexpr double facts_width = 400;    // of a column of facts [pixel]
constexpr double fact_height = 108;    // [pixel]
constexpr double least_profile = 430;  // [pixel] height of the drawing itself

/// One number beside the drawing.
struct Fact {
  std::string name;
  std::string value;
  std::string band;
  Colour colour;
};

std::string band_text(const sim::Banded& value) {
  if (!value.low || !value.high) return {};
  const double low = std::min(*value.low, *value.high);
  const double high = std::max(*value.low, *value.high);
  return fmt::format("band {} to {}", length_text(low), length_text(high));
}

constexpr double level = 5e-5;  // [mm] heights that a label would round to zero

/// "54 µm below", "12 µm above": a height over the worn face, as one would say it.
std::string height_words(double height) {
  if (std::abs(height) < level) return "level";
  return length_text(std::abs(height)) + (height < 0 ? " below" : " above");
}

Fact burr_fact(const sim::Banded& height) {
  const std::string words = height_words(height.value);
  Fact fact{
      .name = height.value > level ? "burr left over the worn face" : "metal where the burr stood",
      .value = words + (words == "level" ? " with face" : " face"),
      .band = {},
      .colour = palette::burr};
  if (!height.low || !height.high) return fact;
  const auto [low, high] = std::minmax(*height.low, *height.high);
  if (low < -level && high < -level)
    fact.band = fmt::format("{} to {} below", length_text(-high), length_text(-low));
  else if (low > level && high > level)
    fact.band = fmt::format("{} to {} above", length_text(low), length_text(high));
  else if (low < -level || high > level)
    fact.band = fmt::format("{} to {}", height_words(low), height_words(high));
  return fact;
}

std::vector<Fact> facts_of(const sim::Result& result, const sim::FeatureResult& feature,
                           const sim::SectionEdge& edge) {
  std::vector<Fact> facts;
  const auto add = [&](const char* name, const sim::Quantity& value, Colour colour) {
    if (value) facts.push_back({name, length_text(value->value), band_text(*value), colour});
  };
  if (feature.burr_height && edge.burr != "none") facts.push_back(burr_fact(*feature.burr_height));
  if (feature.secondary_burr && feature.secondary_burr->value > 0)
    add("hangs beyond the edge", feature.secondary_burr, palette::burr);
  add("edge drop", feature.edge_drop, palette::ink);
  add("edge radius", feature.edge_radius, palette::ink);
  add("face removed", result.part.face.removal, palette::face);
  add("least coating left near it", feature.coating_left, palette::coating);
  add("bare from the edge line on", feature.bare_length, palette::coating);
  return facts;
}

void draw_fact(Canvas& canvas, Point at, const Fact& fact) {
  canvas.fill({at.x, at.y - 92, at.x + 8, at.y}, fact.colour);
  canvas.text({at.x + 24, at.y}, fact.name, {.size = 24, .along = Along::top});
  canvas.text({at.x + 24, at.y - 28}, fact.value, {.size = 36, .bold = true, .along = Along::top});
  canvas.text({at.x + 24, at.y - 70}, fact.band,
              {.size = 22, .colour = palette::quiet, .along = Along::top});
}

/// Facts in columns of the same width, row by row, as many rows as the box has room for.
void draw_facts(Canvas& canvas, const Box& box, const std::vector<Fact>& facts, int columns) {
  for (std::size_t i = 0; i < facts.size(); ++i) {
    const auto column = static_cast<double>(i % static_cast<std::size_t>(columns));
    const auto row = static_cast<double>(i / static_cast<std::size_t>(columns));
    const double top = box.top - row * fact_height;
    if (top - 92 < box.bottom - 1) return;
    draw_fact(canvas, {box.left + column * box.width() / columns, top}, facts[i]);
  }
}

double rows_of(const std::vector<Fact>& facts) {
  return std::ceil(static_cast<double>(facts.size()) / 2);
}

std::string left_of_burr(const std::string& burr, const sim::FeatureResult& feature) {
  if (!feature.burr_height) return fmt::format("The {} stood over the face.", burr);
  const double left = feature.burr_height->value;
  if (std::abs(left) < level) return fmt::format("The {} is worn level with the face.", burr);
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

/// The drawing and its numbers in words.
std::string shows(const std::vector<Fact>& facts) {
  std::string text =
      "Cross-section of the edge: metal, coating on it, what was worn away, and the outline "
      "before.";
  for (const Fact& fact : facts) {
    text += fmt::format(" {}: {}", fact.name, fact.value);
    text += fact.band.empty() ? "." : fmt::format(", {}.", fact.band);
  }
  return text;
}

void draw(Canvas& canvas, const Box& area, const sim::Result& result,
          const sim::SectionRecord& section, const sim::SectionEdge& edge,
          const sim::FeatureResult& feature) {
  const std::vector<Fact> facts = facts_of(result, feature, edge);
  if (area.width() >= narrow_drawing) {
    draw_profile(canvas, {area.left, area.bottom + 6, area.right - facts_width - 40, area.top - 8},
                 result, section, edge);
    draw_facts(canvas, {area.right - facts_width, area.bottom, area.right, area.top - 8}, facts, 1);
    return;
  }
  const double room = std::floor((area.height() - least_profile) / fact_height);
  const double rows = std::clamp(room, 0.0, rows_of(facts));
  const double split = area.bottom + rows * fact_height;
  draw_profile(canvas, {area.left, split + 8, area.right, area.top}, result, section, edge);
  draw_facts(canvas, {area.left, area.bottom, area.right, split - 8}, facts, 2);
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
    drawings.push_back({.file = "profile-" + files[i],
                        .what = feature.name + ", before and after",
                        .setup = result.stations.size() == 1
                                     ? setup_text(result, 0)
                                     : fmt::format("after {} stations", result.stations.size()),
                        .why = why(result, *section, *edge, feature),
                        .paint =
                            [&result, section, edge, &feature](Canvas& canvas, const Box& area) {
                              draw(canvas, area, result, *section, *edge, feature);
                            },
                        .height =
                            [&result, edge, &feature](double width) {
                              if (width >= narrow_drawing) return 0.58 * width;
                              return std::max(least_profile, 0.62 * width) +
                                     rows_of(facts_of(result, feature, *edge)) * fact_height + 16;
                            },
                        .shows = shows(facts_of(result, feature, *edge))});
  }
  return drawings;
}

}  // namespace drumlin::viz
