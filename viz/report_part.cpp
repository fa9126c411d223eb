#include <algorithm>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/report_parts.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

/// What a shop asks of an edge first; everything else stands in the edge's own table.
constexpr auto first_asked = std::to_array<std::string_view>(
    {"burr_height_um", "secondary_burr_um", "edge_radius_um", "edge_drop_um", "edge_size_um",
     "coating_left_um", "bare_length_um", "peak_pressure_MPa", "temperature_C"});

const QuantityKey<sim::FeatureResult>& key_called(std::string_view name) {
  return *std::find_if(feature_quantities.begin(), feature_quantities.end(),
                       [&](const auto& key) { return key.key == name; });
}

std::string column_title(std::string_view key) {
  if (key == "burr_height_um") return "burr left";
  return spoken_key(key, key_called(key).unit);
}

std::string about(const sim::FeatureResult& feature) {
  std::string text = feature.kind;
  if (!feature.side.empty()) text += ", " + feature.side;
  if (!feature.fed_as.empty() && feature.fed_as != feature.side)
    text += fmt::format(" (fed as {})", feature.fed_as);
  if (!feature.burr.empty() && feature.burr != "none")
    text += fmt::format("; {} burr", feature.burr);
  if (!feature.outcome.empty()) text += " " + feature.outcome;
  return text;
}

std::string edges_table(const std::vector<sim::FeatureResult>& features,
                        const std::string& caption) {
  Table table{caption, {"edge"}, {}};
  for (const std::string_view key : first_asked)
    table.head.push_back(column_title(key));
  for (const sim::FeatureResult& feature : features) {
    std::vector<Cell> row{{feature.name, about(feature), ""}};
    for (const std::string_view name : first_asked) {
      const auto& key = key_called(name);
      row.push_back(quantity_cell(feature.*key.member, key.scale, key.unit));
    }
    table.rows.push_back(std::move(row));
  }
  return table_html(table);
}

std::string feature_fold(const sim::FeatureResult& feature) {
  std::string body =
      meaning_table("Every quantity of " + feature.name, feature, feature_quantities);
  if (!feature.size_class.empty())
    body += fmt::format("<p>Preferred size of ISO 13715 that holds this edge: {}.</p>\n",
                        escaped(feature.size_class));
  for (const sim::CoatingBeyond& beyond : feature.coating_beyond)
    if (beyond.left)
      body += fmt::format("<p>Least coating from {} mm on: {}.</p>\n", number_text(beyond.distance),
                          with_unit(beyond.left->value * 1e3, "um"));
  if (!feature.note.empty()) body += fmt::format("<p>{}</p>\n", escaped(feature.note));
  return fold_html(feature.name + ": every quantity", body);
}

std::string face_table(const sim::FaceResult& face, const std::string& caption) {
  std::string html = meaning_table(caption, face, face_quantities);
  if (!face.lay.empty()) html += fmt::format("<p>Lay: {}.</p>\n", escaped(face.lay));
  return html;
}

/// @param folds  whether each edge's own table follows.
std::string state_html(const sim::FaceState& state, const std::string& where, bool folds) {
  std::string html;
  if (!state.features.empty())
    html += edges_table(state.features, "Edges" + where + "; heights from the worn face");
  html += face_table(state.face, "Plain face" + where + ", far from every edge");
  if (!folds || state.features.empty()) return html;
  html += "<div class=\"bulk\">\n";
  for (const sim::FeatureResult& feature : state.features)
    html += feature_fold(feature);
  return html + "</div>\n";
}

}  // namespace

std::string report_part(const sim::Result& result) {
  std::string body = result.calibrated ? "<p>Calibrated with sample parts."
                                       : "<p>Uncalibrated: no sample part stands behind these "
                                         "numbers.";
  body +=
      " The band below a value is where the truth is expected while each input is "
      "within its own band; it is no promise. What the model does not give is said to be not "
      "given: it is not zero. Folds with every quantity are printed only where they are "
      "open.</p>\n";
  body += state_html(result.part, "", true);
  if (result.part.reverse)
    body +=
        "<h3>The other face</h3>\n" + state_html(*result.part.reverse, " of the other face", true);
  std::string stations;
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    const sim::StationResult& station = result.stations[i];
    const std::string where = fmt::format(" after station {} ({})", i + 1, station.kind);
    stations += state_html(station.after, where, false);
    if (station.after.reverse)
      stations += state_html(*station.after.reverse, where + ", other face", false);
  }
  if (!stations.empty() && result.stations.size() > 1)
    body +=
        "<div class=\"bulk\">\n" + fold_html("The part after each station", stations) + "</div>\n";
  return section_html("part", "The part as it leaves", body);
}

}  // namespace drumlin::viz
