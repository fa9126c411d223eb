#include <cmath>

#include <fmt/format.h>

#include "viz/disc_quantities.hpp"
#include "viz/file_names.hpp"
#include "viz/hdf5_line.hpp"
#include "viz/hdf5_sections.hpp"
#include "viz/hdf5_studies.hpp"
#include "viz/hdf5_tree.hpp"
#include "viz/heat_quantities.hpp"
#include "viz/output.hpp"

namespace drumlin::viz {
namespace {

constexpr int format_version = 1;

template <class Owner, std::size_t n>
void write_quantities(const H5Group& group, const Owner& owner,
                      const std::array<QuantityKey<Owner>, n>& keys) {
  for (const QuantityKey<Owner>& key : keys) {
    const sim::Quantity& quantity = owner.*key.member;
    if (!quantity || !std::isfinite(quantity->value)) continue;
    const auto scaled = [&](std::optional<double> inner) {
      return inner ? std::optional<double>(key.scale(*inner)) : std::nullopt;
    };
    group.scalar(key.key, key.scale(quantity->value), {key.unit, key.meaning},
                 scaled(quantity->low), scaled(quantity->high));
  }
}

/// Coating along the surface of one edge, and from distances that limits name.
void write_coating(const H5Group& group, const sim::FeatureResult& feature) {
  if (feature.coating) {
    group.array("coating_arc_mm", feature.coating->arc,
                {"mm", "distance from the edge line along the surface"});
    std::vector<double> left;
    for (const double value : feature.coating->left)
      left.push_back(mm_to_um(value));
    group.array("coating_along_um", left, {"um", "coating left at these distances"});
  }
  for (std::size_t i = 0; i < feature.coating_beyond.size(); ++i) {
    const sim::CoatingBeyond& beyond = feature.coating_beyond[i];
    if (!beyond.left) continue;
    const H5Group entry = group.group(fmt::format("coating_beyond_{}", i));
    entry.scalar("distance_mm", beyond.distance, {"mm", "distance to the edge that a limit names"});
    entry.scalar("coating_left_um", mm_to_um(beyond.left->value),
                 {"um", "least coating left from there on"});
  }
}

void write_part(const H5Group& face, const H5Group& features, const sim::FaceState& part) {
  write_quantities(face, part.face, face_quantities);
  face.attribute("lay", part.face.lay);
  std::vector<std::string> names;
  for (const sim::FeatureResult& feature : part.features)
    names.push_back(feature.name);
  const std::vector<std::string> groups = file_names(names);
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const sim::FeatureResult& feature = part.features[i];
    const H5Group group = features.group(groups[i]);
    group.attribute("name", feature.name);
    group.attribute("feature", feature.feature);
    group.attribute("kind", feature.kind);
    group.attribute("side", feature.side);
    group.attribute("burr", feature.burr);
    group.attribute("fed_as", feature.fed_as);
    group.attribute("outcome", feature.outcome);
    group.attribute("size_class", feature.size_class);
    group.attribute("section", feature.section);
    group.attribute("note", feature.note);
    write_quantities(group, feature, feature_quantities);
    write_coating(group, feature);
  }
}

void write_heat(const H5Group& group, const sim::StationHeat& heat) {
  write_quantities(group, heat, heat_quantities);
  std::vector<std::string> names;
  for (const sim::EdgeHeat& edge : heat.edges)
    names.push_back(edge.name);
  const std::vector<std::string> groups = file_names(names);
  const H5Group edges = group.group("edges");
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (!heat.edges[i].burr) continue;
    const H5Group edge = edges.group(groups[i]);
    edge.attribute("name", heat.edges[i].name);
    edge.attribute("reaches_melting_point", heat.edges[i].melts ? 1 : 0);
    write_quantities(edge, heat.edges[i], edge_heat_quantities);
  }
}

void write_stations(const H5Group& stations, const sim::Result& result) {
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    const sim::StationResult& station = result.stations[i];
    const H5Group group = stations.group(fmt::format("{}", i));
    group.attribute("kind", station.kind);
    group.attribute("description", station.description);
    write_quantities(group, station, station_quantities);
    if (station.disc) {
      const H5Group disc = group.group("disc");
      for (const DiscKey& key : disc_quantities)
        disc.scalar(key.key, key.factor * ((*station.disc).*key.member), {key.unit, key.meaning});
    }
    if (station.heat) write_heat(group.group("heat"), *station.heat);
    if (i < result.drums.size()) {
      const sim::DrumShape& drum = result.drums[i];
      group.scalar("drum_radius_mm", drum.radius, {"mm", "outer radius of the drum"});
      group.scalar("drum_cover_mm", drum.cover, {"mm", "thickness of the elastic cover"});
      group.scalar("belt_speed_m_per_s", drum.belt_speed * 1e-3, {"m/s", "speed of the belt"});
    }
    const H5Group after = group.group("after");
    write_part(after.group("face"), after.group("features"), station.after);
  }
}

void write_verdict(const H5Group& group, const sim::Verdict& verdict) {
  group.scalar("accepted", verdict.accepted ? 1 : 0, {"1", "1: accepted; 0: not"});
  group.text("state", verdict.state, "verdict in words");
  group.text("decided_by", verdict.decided_by, "name of the item that decides");
  const H5Group items = group.group("items");
  for (std::size_t i = 0; i < verdict.items.size(); ++i) {
    const sim::VerdictItem& item = verdict.items[i];
    const H5Group entry = items.group(fmt::format("{}", i));
    entry.attribute("name", item.name);
    entry.attribute("quantity", item.quantity);
    entry.attribute("limit", item.limit);
    if (item.value)
      entry.scalar("value", item.value->value, {item.unit, "predicted value"}, item.value->low,
                   item.value->high);
    if (item.low) entry.scalar("low", *item.low, {item.unit, "lower limit"});
    if (item.high) entry.scalar("high", *item.high, {item.unit, "upper limit"});
    if (item.margin)
      entry.scalar("margin", *item.margin,
                   {item.unit, "distance to the nearer limit; negative: outside"});
    if (item.accepted)
      entry.scalar("accepted", *item.accepted ? 1 : 0, {"1", "1: accepted; 0: not"});
  }
}

void write_influences(const H5Group& influences, const sim::Result& result) {
  for (std::size_t i = 0; i < result.influences.size(); ++i) {
    const sim::Influence& influence = result.influences[i];
    const H5Group group = influences.group(fmt::format("{}", i));
    group.attribute("input", influence.input);
    group.attribute("meaning", influence.meaning);
    group.attribute("output", influence.output);
    group.scalar("low", influence.low, {influence.unit, "low end of the input"});
    group.scalar("high", influence.high, {influence.unit, "high end of the input"});
    group.scalar("output_low_um", mm_to_um(influence.output_low),
                 {"um", "output at the low end of the input"});
    group.scalar("output_high_um", mm_to_um(influence.output_high),
                 {"um", "output at the high end of the input"});
  }
}

void write_root(const H5Group& root, const sim::Result& result) {
  root.attribute("format", "drumlin result");
  root.attribute("format_version", format_version);
  root.attribute("program", "drumlin " + result.provenance.version);
  root.attribute("model", result.model);
  root.attribute("title", result.title);
  root.attribute("calibrated", result.calibrated ? 1 : 0);
  root.attribute("nan",
                 "NaN stands in arrays only and means 'no metal here', or what the array's own "
                 "attribute 'nan' says; a quantity that the model does not give is absent");
  root.attribute("bands",
                 "attributes band_low and band_high hold the band in which the truth is expected");
  root.attribute("reading", "any HDF5 reader; every dataset has the attributes unit and meaning");
}

}  // namespace

void write_hdf5(const sim::Result& result, Output& out) {
  const H5Group root = H5Group::create_file(out.place("results.h5"));
  write_root(root, result);
  const H5Group scenario = root.group("case");
  scenario.attribute("sha256", result.provenance.case_sha256);
  scenario.attribute("file", result.provenance.case_file);
  scenario.text("text", result.provenance.case_text, "the case file, byte for byte");
  scenario.text("sha256", result.provenance.case_sha256, "SHA-256 of the text, hexadecimal");
  scenario.text("part_material", result.part_material, "material of the part");
  if (result.coating) {
    scenario.text("coating", *result.coating, "material of the coating");
    scenario.scalar("coating_thickness_um", mm_to_um(result.coating_thickness),
                    {"um", "coating before the first station"});
  }
  scenario.texts("options", result.options, "how the answer was computed");
  scenario.texts("defaults", result.defaults, "values that the library supplied, and why");
  scenario.texts("unused_keys", result.unused_keys, "keys without effect on this result");
  write_stations(root.group("stations"), result);
  write_part(root.group("face"), root.group("features"), result.part);
  if (result.part.reverse) {
    const H5Group reverse = root.group("reverse");
    write_part(reverse.group("face"), reverse.group("features"), *result.part.reverse);
  }
  write_verdict(root.group("verdict"), result.verdict);
  write_influences(root.group("influences"), result);
  write_studies(root, result);
  write_line(root, result);
  const H5Group remarks = root.group("remarks");
  remarks.texts("warnings", result.warnings, "what to beware of");
  remarks.texts("notes", result.notes, "what the model leaves out and by how much");
  remarks.texts("cautions", result.cautions, "for people's safety");
  remarks.texts("samples", result.samples, "which sample parts to run and what to measure");
  const H5Group provenance = root.group("provenance");
  provenance.text("version", result.provenance.version, "version of the program");
  provenance.text("case_sha256", result.provenance.case_sha256, "SHA-256 of the case file");
  provenance.scalar("seed", result.provenance.seed, {"1", "seed of the case"});
  const H5Group sections = root.group("sections");
  std::vector<std::string> names;
  for (const sim::SectionRecord& section : result.sections)
    names.push_back(section.name);
  const std::vector<std::string> groups = file_names(names);
  for (std::size_t i = 0; i < groups.size(); ++i)
    write_section(result.sections[i], sections.group(groups[i]));
  root.flush();
}

}  // namespace drumlin::viz
