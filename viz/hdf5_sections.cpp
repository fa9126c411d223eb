#include "viz/hdf5_sections.hpp"

#include <functional>
#include <vector>

namespace drumlin::viz {
namespace {

constexpr std::string_view no_metal = "no metal here";

/// Column of a list of records.
template <class Number, class Record, class Member>
std::vector<Number> column(const std::vector<Record>& records, Member member) {
  std::vector<Number> out;
  out.reserve(records.size());
  for (const Record& record : records)
    out.push_back(std::invoke(member, record));
  return out;
}

void write_edges(const sim::SectionRecord& section, const H5Group& group) {
  if (section.edges.empty()) return;
  const auto& edges = section.edges;
  using Edge = sim::SectionEdge;
  group.texts("feature", column<std::string>(edges, &Edge::feature), "name of the feature");
  group.array("x", column<double>(edges, &Edge::x), {"mm", "place of the edge line"});
  group.array("metal", column<int>(edges, &Edge::metal),
              {"1", "+1: metal towards +x; -1: metal towards -x"});
  group.array("burr_root", column<double>(edges, &Edge::burr_root),
              {"mm", "thickness of the burr at its root before the first pass; 0: no burr"});
  group.array("burr_height", column<double>(edges, &Edge::burr_height),
              {"mm", "height of the burr before the first pass; 0: no burr"});
}

void write_history(const std::vector<sim::StepRecord>& history, const H5Group& group) {
  using Step = sim::StepRecord;
  group.array("pass", column<int>(history, &Step::pass), {"1", "pass over the whole line, from 0"});
  group.array("station", column<int>(history, &Step::station), {"1", "index of the station"});
  group.array("drum_x", column<double>(history, &Step::drum_x),
              {"mm", "place of the drum's axis in the part's frame; it travels towards -x"});
  group.array("line_load", column<double>(history, &Step::line_load),
              {"N/mm", "line load of the drum"});
  group.array("face_pressure", column<double>(history, &Step::face_pressure),
              {"MPa", "highest pressure outside the edges' neighbourhood"});
  group.array("edge_pressure", column<double>(history, &Step::edge_pressure),
              {"MPa", "highest pressure on burr or edge"});
  group.array("iterations", column<int>(history, &Step::iterations),
              {"1", "iterations of the contact solver"});
  group.array("applications", column<int>(history, &Step::applications),
              {"1", "applications of the compliance, one pair of transforms each"});
  group.array("residual", column<double>(history, &Step::residual),
              {"mm", "largest complementarity error"});
}

/// Rows of all frames one after the other. @throws std::out_of_range if one is shorter than x.
std::vector<float> rows(const sim::SectionRecord& section, std::vector<double> sim::Frame::*field) {
  std::vector<float> out;
  out.reserve(section.frames.size() * section.x.size());
  for (const sim::Frame& frame : section.frames)
    for (std::size_t i = 0; i < section.x.size(); ++i)
      out.push_back(static_cast<float>((frame.*field).at(i)));
  return out;
}

void write_frames(const sim::SectionRecord& section, const H5Group& group) {
  using Frame = sim::Frame;
  const auto& frames = section.frames;
  group.array("pass", column<int>(frames, &Frame::pass), {"1", "pass over the whole line, from 0"});
  group.array("station", column<int>(frames, &Frame::station), {"1", "index of the station"});
  group.array("step", column<int>(frames, &Frame::step), {"1", "step of the pass"});
  group.array("drum_x", column<double>(frames, &Frame::drum_x),
              {"mm", "place of the drum's axis in the part's frame; it travels towards -x"});
  group.array("line_load", column<double>(frames, &Frame::line_load),
              {"N/mm", "line load of the drum"});
  const hsize_t columns = section.x.size();
  group.matrix(
      "surface", rows(section, &Frame::surface), columns,
      {"mm", "height of the part's top over the nominal, unworn face [frame][point]", no_metal});
  group.matrix("coating", rows(section, &Frame::coating), columns,
               {"mm", "coating left [frame][point]", no_metal});
  if (!frames.empty() && !frames.front().burr.empty())
    group.matrix("burr", rows(section, &Frame::burr), columns,
                 {"mm", "burr metal left on top of each place [frame][point]", no_metal});
  group.matrix("pressure", rows(section, &Frame::pressure), columns,
               {"MPa", "contact pressure [frame][point]"});
  group.matrix(
      "belt", rows(section, &Frame::belt), columns,
      {"mm", "height of the belt's face [frame][point]", "beyond the stretch that was computed"});
  group.scalar("telling_frame", section.telling_frame,
               {"1", "index of the frame with the highest edge pressure"});
}

}  // namespace

void write_section(const sim::SectionRecord& section, const H5Group& group) {
  group.attribute("name", section.name);
  group.attribute("frame", "x is the feed direction, z is up, z = 0 is the nominal, unworn face");
  group.scalar("part_thickness", section.part_thickness, {"mm", "thickness of the part"});
  group.scalar("face_removal", section.face_removal, {"mm", "depth the far face lost"});
  group.array("x", section.x, {"mm", "display points, finer at edges"});
  group.array("before", section.before,
              {"mm", "height of the part's top before the first pass", no_metal});
  group.array("coating_before", section.before_coating,
              {"mm", "coating before the first pass", no_metal});
  group.array("after", section.after,
              {"mm", "height of the part's top after the last pass", no_metal});
  group.array("coating_after", section.after_coating,
              {"mm", "coating after the last pass", no_metal});
  if (!section.after_underside.empty())
    group.array("underside_after", section.after_underside,
                {"mm", "underside of burr that hangs over an opening after the last pass",
                 "where no burr hangs"});
  write_edges(section, group.group("edges"));
  if (!section.history.empty()) write_history(section.history, group.group("history"));
  if (!section.frames.empty()) write_frames(section, group.group("frames"));
}

}  // namespace drumlin::viz
