#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "viz/page.hpp"
#include "viz/report_parts.hpp"

namespace drumlin::viz {
namespace {

/// The longest name of a section, feature or edge with which a picture's title begins; empty where
/// the picture is of the whole case.
std::string group_of(const sim::Result& result, const Drawing& drawing) {
  std::string longest;
  const auto look_at = [&](const std::string& name) {
    if (name.size() > longest.size() && drawing.what.starts_with(name)) longest = name;
  };
  for (const sim::SectionRecord& section : result.sections)
    look_at(section.name);
  for (const sim::FeatureResult& feature : result.part.features)
    look_at(feature.feature.empty() ? feature.name : feature.feature);
  return longest;
}

}  // namespace

std::string report_pictures(const sim::Result& result) {
  constexpr double width = 1300;  // [pixel]
  constexpr double height = 780;  // [pixel]
  std::vector<std::string> names;
  std::map<std::string, std::string> figures;
  for (const Drawing& drawing : all_drawings(result)) {
    if (drawing.file == "what-to-change") continue;      // stands with its table
    if (drawing.file.starts_with("scatter-")) continue;  // stands beside its numbers
    const std::string group = group_of(result, drawing);
    if (!figures.contains(group)) names.push_back(group);
    figures[group] += figure_html(drawing, width, height);
  }
  if (names.empty()) return "";
  // What decides is open, and so is what shows the whole case; the rest waits in folds.
  std::string body;
  for (const std::string& name : names) {
    const bool decides = !name.empty() && result.verdict.decided_by.starts_with(name);
    const bool open = name.empty() || decides || names.size() <= 2;
    body += fold_html(name.empty() ? "The whole case" : name, figures[name], open);
  }
  return section_html("pictures", "Pictures", body);
}

}  // namespace drumlin::viz
