#include <cmath>

#include "viz/json_values.hpp"
#include "viz/window_parts.hpp"

namespace drumlin::viz {
namespace {

constexpr int format_version = 1;

class WindowJson {
 public:
  explicit WindowJson(const sim::Window& window) : window_(window) {}

  [[nodiscard]] Json whole() const;

 private:
  [[nodiscard]] Json place(const sim::MapPlace& at) const {
    return {window_.axes[0].at(at[0]), window_.axes[1].at(at[1])};
  }
  [[nodiscard]] Json grid_place(const sim::MapPoint& at, std::size_t cells) const {
    const auto n = static_cast<double>(cells);
    return place({static_cast<double>(at.i) / n, static_cast<double>(at.j) / n});
  }
  [[nodiscard]] Json lines(const std::vector<sim::WindowLine>& list, bool with_kinds) const;
  [[nodiscard]] Json distances(const sim::BorderDistances& all) const;
  [[nodiscard]] static Json share(const sim::Proportion& of) {
    return {{"value", of.value}, {"low", of.low}, {"high", of.high}};
  }
  [[nodiscard]] Json axes() const;
  [[nodiscard]] Json limits() const;
  [[nodiscard]] Json map() const;
  [[nodiscard]] Json own() const;
  [[nodiscard]] Json robust() const;
  [[nodiscard]] Json probability() const;
  [[nodiscard]] Json provenance() const;

  const sim::Window& window_;
};

Json WindowJson::lines(const std::vector<sim::WindowLine>& list, bool with_kinds) const {
  Json all = Json::array();
  for (const sim::WindowLine& line : list) {
    Json places = Json::array();
    for (const sim::MapPlace& at : line.places)
      places.push_back(place(at));
    Json one = {{"places", std::move(places)}};
    if (with_kinds) one["beyond"] = line.kinds;
    all.push_back(std::move(one));
  }
  return all;
}

/// Per axis, towards lower and towards higher values.
Json WindowJson::distances(const sim::BorderDistances& all) const {
  Json list = Json::array();
  for (std::size_t axis = 0; axis < 2; ++axis) {
    Json both = Json::object();
    for (std::size_t side = 0; side < 2; ++side) {
      const sim::BorderDistance& distance = all[axis][side];
      if (!distance.share) continue;
      const sim::WindowAxis& of = window_.axes[axis];
      both[side == 0 ? "towards_lower" : "towards_higher"] = {
          {"distance", *distance.share * (of.to - of.from)},
          {"beyond", window_.kind_name(distance.beyond)}};
    }
    list.push_back(std::move(both));
  }
  return list;
}

Json WindowJson::axes() const {
  Json list = Json::array();
  for (const sim::WindowAxis& axis : window_.axes) {
    Json one = {{"key", axis.key}, {"name", axis.name}};
    one["unit"] = axis.unit.empty() ? "1" : axis.unit;
    one["from"] = axis.from;
    one["to"] = axis.to;
    if (!axis.meaning.empty()) one["meaning"] = axis.meaning;
    list.push_back(std::move(one));
  }
  return list;
}

Json WindowJson::limits() const {
  Json list = Json::array();
  for (std::size_t k = 0; k < window_.limits.size(); ++k) {
    const sim::WindowLimit& limit = window_.limits[k];
    list.push_back({{"kind", k + 1},
                    {"name", limit.name},
                    {"limit", limit.limit},
                    {"share_of_map", limit.share},
                    {"leaps", limit.leaps}});
  }
  return list;
}

Json WindowJson::map() const {
  Json points = Json::array();
  for (const sim::WindowPoint& point : window_.points) {
    Json one = {{"at", grid_place(point.at, window_.map.cells)}, {"kind", point.kind}};
    Json margins = Json::object();
    for (std::size_t k = 0; k < point.margins.size(); ++k)
      if (std::isfinite(point.margins[k])) margins[std::to_string(k + 1)] = point.margins[k];
    if (!margins.empty()) one["margins"] = std::move(margins);
    if (!point.reason.empty()) one["reason"] = point.reason;
    points.push_back(std::move(one));
  }
  Json leaves = Json::array();
  for (const sim::MapCell& leaf : window_.map.leaves)
    leaves.push_back({leaf.corner.i, leaf.corner.j, leaf.side, leaf.kind, leaf.at_border ? 1 : 0});
  return {{"cells", window_.map.cells},
          {"stopped_early", window_.map.stopped_early},
          {"accepted_share", window_.accepted_share},
          {"not_known_share", window_.not_known_share},
          {"not_computed_share", window_.not_computed_share},
          {"margins_are",
           "distance to the limit over the limit, by the limit's kind; below zero: "
           "not met"},
          {"points", std::move(points)},
          {"leaves_are", {"i", "j", "side", "kind", "at_border"}},
          {"leaves", std::move(leaves)},
          {"border", lines(window_.border, true)}};
}

Json WindowJson::own() const {
  const sim::OwnPoint& own = window_.own;
  Json object = Json::object();
  Json values = Json::object();
  for (std::size_t k = 0; k < 2; ++k)
    if (own.values[k]) values[window_.axes[k].key] = *own.values[k];
  object["values"] = std::move(values);
  object["on_map"] = own.place.has_value();
  object["kind"] = own.kind;
  object["state"] = own.kind > 0 ? "not accepted" : window_.kind_name(own.kind);
  if (own.kind > 0) object["fails"] = window_.kind_name(own.kind);
  if (own.distances) object["border"] = distances(*own.distances);
  return object;
}

Json WindowJson::robust() const {
  const sim::RobustBox& box = *window_.robust;
  Json object = {{"middle", place(box.middle)}};
  Json reach = Json::array();
  Json held = Json::array();
  for (std::size_t axis = 0; axis < 2; ++axis) {
    const sim::WindowAxis& of = window_.axes[axis];
    reach.push_back(box.reach * (of.to - of.from));
    Json both = Json::object();
    for (std::size_t side = 0; side < 2; ++side)
      if (box.held_by[axis][side])
        both[side == 0 ? "towards_lower" : "towards_higher"] =
            window_.kind_name(*box.held_by[axis][side]);
    held.push_back(std::move(both));
  }
  object["reach"] = std::move(reach);
  object["reach_share_of_range"] = box.reach;
  object["held_by"] = std::move(held);
  object["border"] = distances(box.distances);
  if (box.least_margin) {
    object["least_margin"] = *box.least_margin;
    object["least_margin_of"] = window_.kind_name(box.least_limit);
  }
  return object;
}

Json WindowJson::probability() const {
  const sim::WindowProbability& of = *window_.probability;
  Json scatter = Json::array();
  for (const sim::WindowScatter& one : of.scatter)
    scatter.push_back({{"key", one.key}, {"distribution", one.distribution}});
  Json nodes = Json::array();
  for (const sim::WindowNode& node : of.nodes) {
    Json one = share(node.met);
    one["at"] = grid_place(node.at, of.cells);
    if (node.unknown > 0) one["unknown_draws"] = node.unknown;
    nodes.push_back(std::move(one));
  }
  Json contours = Json::array();
  for (const sim::ProbabilityContour& contour : of.contours)
    contours.push_back({{"level", contour.level}, {"lines", lines(contour.lines, false)}});
  Json object = {{"draws", of.draws},
                 {"confidence", 0.95},
                 {"scatter", std::move(scatter)},
                 {"cells", of.cells},
                 {"stopped_early", of.stopped_early}};
  object["best"] = share(of.best.met);
  object["best"]["at"] = place(of.best_place);
  if (of.at_robust) object["at_robust"] = share(*of.at_robust);
  if (of.at_own) object["at_own"] = share(*of.at_own);
  object["nodes"] = std::move(nodes);
  object["contours"] = std::move(contours);
  return object;
}

Json WindowJson::provenance() const {
  return {{"version", window_.provenance.version},
          {"case_file", window_.provenance.case_file},
          {"case_sha256", window_.provenance.case_sha256},
          {"study_file", window_.study_file},
          {"study_sha256", window_.study_sha256},
          {"seed", window_.seed},
          {"wall_s", window_.provenance.wall_s}};
}

Json WindowJson::whole() const {
  Json root = {{"format", "drumlin window"}, {"format_version", format_version}};
  root["title"] = window_.title;
  root["case_title"] = window_.case_title;
  root["model"] = window_.model;
  root["options"] = window_.options;
  root["calibrated"] = window_.calibrated;
  root["axes"] = axes();
  root["kinds"] = {{"0", "accepted"}, {"-1", "not known"}, {"-2", "cannot be computed"}};
  root["limits"] = limits();
  root["words"] = window_.words;
  if (window_.robust) root["robust"] = robust();
  root["own"] = own();
  root["map"] = map();
  if (window_.probability) root["probability"] = probability();
  Json missing = Json::array();
  for (const sim::NotComputed& of : window_.not_computed)
    missing.push_back(
        {{"reason", of.reason}, {"points", of.points}, {"example", place(of.example)}});
  root["not_computed"] = std::move(missing);
  root["evaluations"] = {{"map", window_.evaluations.map},
                         {"checks", window_.evaluations.checks},
                         {"probability", window_.evaluations.probability}};
  root["notes"] = window_.notes;
  root["cautions"] = window_.cautions;
  root["samples"] = window_.samples;
  root["unused_keys"] = window_.unused_keys;
  root["provenance"] = provenance();
  return root;
}

}  // namespace

std::string window_json(const sim::Window& window) {
  return WindowJson(window).whole().dump(1) + "\n";
}

}  // namespace drumlin::viz
