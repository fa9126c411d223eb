#include <cmath>
#include <limits>
#include <vector>

#include <fmt/format.h>

#include "viz/hdf5_tree.hpp"
#include "viz/window_parts.hpp"

namespace drumlin::viz {
namespace {

constexpr int format_version = 1;

std::string unit_of(const sim::WindowAxis& axis) {
  return axis.unit.empty() ? "1" : axis.unit;
}

/// Places as two datasets, in the units of the axes.
void write_places(const H5Group& group, const sim::Window& window,
                  const std::vector<sim::MapPlace>& places) {
  for (std::size_t k = 0; k < 2; ++k) {
    const sim::WindowAxis& axis = window.axes[k];
    std::vector<double> values;
    for (const sim::MapPlace& place : places)
      values.push_back(axis.at(place[k]));
    group.array(k == 0 ? "first" : "second", values, {unit_of(axis), axis.key});
  }
}

sim::MapPlace place_of(const sim::MapPoint& at, std::size_t cells) {
  const auto n = static_cast<double>(cells);
  return {static_cast<double>(at.i) / n, static_cast<double>(at.j) / n};
}

void write_points(const H5Group& group, const sim::Window& window) {
  std::vector<sim::MapPlace> places;
  std::vector<int> kinds;
  for (const sim::WindowPoint& point : window.points) {
    places.push_back(place_of(point.at, window.map.cells));
    kinds.push_back(point.kind);
  }
  write_places(group, window, places);
  group.array("kind", kinds,
              {"1", "0 accepted, -1 not known, -2 cannot be computed, else the limit that fails"});
  const H5Group margins = group.group("margins");
  for (std::size_t k = 0; k < window.limits.size(); ++k) {
    std::vector<double> values;
    for (const sim::WindowPoint& point : window.points)
      values.push_back(point.margins[k]);
    margins.array(std::to_string(k + 1), values,
                  {"1", "distance to the limit over the limit; below zero: not met",
                   "the model does not give it here"});
  }
}

void write_leaves(const H5Group& group, const std::vector<sim::MapCell>& leaves,
                  std::size_t cells) {
  std::vector<int> i, j, side, kind, border;
  for (const sim::MapCell& leaf : leaves) {
    i.push_back(static_cast<int>(leaf.corner.i));
    j.push_back(static_cast<int>(leaf.corner.j));
    side.push_back(static_cast<int>(leaf.side));
    kind.push_back(leaf.kind);
    border.push_back(leaf.at_border ? 1 : 0);
  }
  group.attribute("cells", static_cast<int>(cells));
  group.array("i", i, {"1", "lower corner along the first axis, in finest cells"});
  group.array("j", j, {"1", "lower corner along the second axis, in finest cells"});
  group.array("side", side, {"1", "side in finest cells"});
  group.array("kind", kind, {"1", "of its lower left corner, and of all others off the border"});
  group.array("at_border", border, {"1", "1 where its corners differ"});
}

/// Lines one after the other; `line` numbers them.
void write_lines(const H5Group& group, const sim::Window& window,
                 const std::vector<sim::WindowLine>& lines, bool with_kinds) {
  std::vector<sim::MapPlace> places;
  std::vector<int> number, beyond;
  for (std::size_t k = 0; k < lines.size(); ++k) {
    places.insert(places.end(), lines[k].places.begin(), lines[k].places.end());
    number.insert(number.end(), lines[k].places.size(), static_cast<int>(k));
    beyond.insert(beyond.end(), lines[k].kinds.begin(), lines[k].kinds.end());
  }
  write_places(group, window, places);
  group.array("line", number, {"1", "which line a place belongs to, from 0"});
  if (with_kinds) group.array("beyond", beyond, {"1", "kind behind the border at this place"});
}

void write_probability(const H5Group& group, const sim::Window& window) {
  const sim::WindowProbability& of = *window.probability;
  group.attribute("draws", static_cast<int>(of.draws));
  std::vector<std::string> scatter;
  for (const sim::WindowScatter& one : of.scatter)
    scatter.push_back(one.key + ": " + one.distribution);
  group.texts("scatter", scatter, "keys that scatter, with their distributions");
  std::vector<sim::MapPlace> places;
  std::vector<double> value, low, high;
  std::vector<int> unknown;
  for (const sim::WindowNode& node : of.nodes) {
    places.push_back(place_of(node.at, of.cells));
    value.push_back(node.met.value);
    low.push_back(node.met.low);
    high.push_back(node.met.high);
    unknown.push_back(static_cast<int>(node.unknown));
  }
  const H5Group nodes = group.group("nodes");
  write_places(nodes, window, places);
  nodes.array("probability", value, {"1", "share of the draws that keep all limits"});
  nodes.array("low", low, {"1", "lower end of its exact interval, 95 % confidence"});
  nodes.array("high", high, {"1", "upper end of its exact interval, 95 % confidence"});
  nodes.array("unknown", unknown, {"1", "draws that were not known or not computed: not met"});
  const H5Group contours = group.group("contours");
  for (const sim::ProbabilityContour& contour : of.contours)
    write_lines(contours.group(fmt::format("{:g}", contour.level)), window, contour.lines, false);
}

}  // namespace

void write_window_hdf5(const sim::Window& window, Output& out) {
  const H5Group root = H5Group::create_file(out.place("window.h5"));
  root.attribute("format", "drumlin window");
  root.attribute("format_version", format_version);
  root.attribute("version", window.provenance.version);
  root.attribute("model", window.model);
  root.attribute("seed", window.seed);
  root.text("case", window.provenance.case_text, "the case file, byte by byte");
  root.text("study", window.study_text, "the study file, byte by byte");
  std::vector<std::string> limits;
  for (const sim::WindowLimit& limit : window.limits)
    limits.push_back(limit.name + " " + limit.limit);
  root.texts("limits", limits, "limits by their kind, from 1");
  root.texts("words", window.words, "what the map says");
  root.texts("notes", window.notes, "how sure, and what is left out");
  write_points(root.group("points"), window);
  write_leaves(root.group("leaves"), window.map.leaves, window.map.cells);
  write_lines(root.group("border"), window, window.border, true);
  if (window.robust) {
    const H5Group group = root.group("robust");
    for (std::size_t k = 0; k < 2; ++k) {
      const sim::WindowAxis& axis = window.axes[k];
      const std::string unit = unit_of(axis);
      group.scalar(k == 0 ? "first" : "second", axis.at(window.robust->middle[k]),
                   {unit, axis.key});
      group.scalar(k == 0 ? "first_reach" : "second_reach",
                   window.robust->reach * (axis.to - axis.from),
                   {unit, "from the middle to each side of the box"});
    }
  }
  if (window.probability) write_probability(root.group("probability"), window);
}

}  // namespace drumlin::viz
