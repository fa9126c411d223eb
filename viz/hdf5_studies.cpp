#include "viz/hdf5_studies.hpp"

#include <vector>

#include <fmt/format.h>

#include "viz/hdf5_life.hpp"
#include "viz/hdf5_remedies.hpp"
#include "viz/hdf5_scatter.hpp"
#include "viz/quantities.hpp"

namespace drumlin::viz {
namespace {

void write_speed_study(const H5Group& group, const sim::SpeedStudy& study) {
  group.attribute("model", study.model);
  group.attribute("held", study.held);
  group.attribute("burr", study.burr);
  group.scalar("belt_speed_m_per_s", study.belt_speed * 1e-3, {"m/s", "belt speed of the case"});
  const H5Group covers = group.group("covers");
  for (std::size_t i = 0; i < study.curves.size(); ++i) {
    const sim::SpeedCurve& curve = study.curves[i];
    const H5Group entry = covers.group(fmt::format("{}", i));
    entry.attribute("cover", curve.cover);
    entry.array("speed_mm_per_s", curve.speed, {"mm/s", "belt speed"});
    entry.array("face_pressure", curve.face_pressure, {"MPa", "highest pressure on the face"});
    entry.array("burr_pressure", curve.burr_pressure, {"MPa", "highest pressure on the burr"});
    if (curve.critical_speed)
      entry.scalar("critical_speed_m_per_s", *curve.critical_speed * 1e-3,
                   {"m/s", "critical speed of cover and belt; theory, no measured onset"});
  }
}

void write_cause(const H5Group& group, const sim::Disturbance& cause) {
  group.attribute("name", cause.name);
  group.attribute("key", cause.key);
  group.attribute("given", cause.given ? 1 : 0);
  group.scalar("interference_low_mm", cause.low,
               {"mm", "interference taken off or added, one end"});
  group.scalar("interference_high_mm", cause.high, {"mm", "and at the other end"});
  group.scalar("removal_low_um", mm_to_um(cause.removal_low),
               {"um", "face removal at the low end"});
  group.scalar("removal_high_um", mm_to_um(cause.removal_high), {"um", "and at the high end"});
  if (cause.coating_low)
    group.scalar("coating_left_low_um", mm_to_um(*cause.coating_low),
                 {"um", "coating left on the face at the low end"});
  if (cause.coating_high)
    group.scalar("coating_left_high_um", mm_to_um(*cause.coating_high),
                 {"um", "and at the high end"});
  if (cause.accepted)
    group.scalar("accepted", *cause.accepted ? 1 : 0,
                 {"1", "whether the limits hold at both ends"});
}

void write_interference_study(const H5Group& group, const sim::InterferenceStudy& study) {
  group.attribute("model", study.model);
  group.scalar("removal_um", mm_to_um(study.removal), {"um", "face removal as set"});
  group.scalar("removal_um_per_mm", mm_to_um(study.removal_per_mm),
               {"um/mm", "slope of face removal with interference"});
  const H5Group causes = group.group("causes");
  for (std::size_t i = 0; i < study.disturbances.size(); ++i)
    write_cause(causes.group(fmt::format("{}", i)), study.disturbances[i]);
  if (study.most_less)
    group.scalar("most_less_mm", *study.most_less, {"mm", "least change within which limits hold"});
  if (study.most_more)
    group.scalar("most_more_mm", *study.most_more, {"mm", "largest change within which they hold"});
  if (!study.limited_less.empty()) group.attribute("limited_less", study.limited_less);
  if (!study.limited_more.empty()) group.attribute("limited_more", study.limited_more);
}

std::vector<double> in_um(const std::vector<double>& values) {
  std::vector<double> out;
  out.reserve(values.size());
  for (const double value : values)
    out.push_back(mm_to_um(value));
  return out;
}

void write_fold_map(const H5Group& group, const sim::FoldMap& map) {
  group.attribute("model", map.model);
  group.attribute("station", map.station);
  group.attribute("edge", map.edge);
  group.array("height", in_um(map.height), {"um", "height of the burr; rows of the fields below"});
  group.array("root", in_um(map.root), {"um", "root thickness; columns of the fields below"});
  std::vector<int> outcome;
  for (const auto what : map.outcome)
    outcome.push_back(static_cast<int>(what));
  group.array("outcome", outcome, {"1", "0: ground off, 1: stands, 2: folds; row by row"});
  group.array("burr_left", in_um(map.burr_left), {"um", "above the worn face; row by row"});
  group.array("secondary_burr", in_um(map.secondary_burr),
              {"um", "overhang beyond the edge line; row by row"});
  if (map.case_height)
    group.scalar("case_height_um", mm_to_um(*map.case_height), {"um", "height of the case's burr"});
  if (map.case_root)
    group.scalar("case_root_um", mm_to_um(*map.case_root), {"um", "its root thickness"});
}

}  // namespace

void write_studies(const H5Group& root, const sim::Result& result) {
  if (result.speed_study) write_speed_study(root.group("speed_study"), *result.speed_study);
  if (result.interference_study)
    write_interference_study(root.group("interference_study"), *result.interference_study);
  if (result.fold_map) write_fold_map(root.group("fold_map"), *result.fold_map);
  if (result.remedies) write_remedies(root.group("remedies"), *result.remedies);
  if (result.scatter) write_scatter(root.group("uncertainty"), *result.scatter);
  if (result.life_study) write_life(root.group("life_study"), *result.life_study);
}

}  // namespace drumlin::viz
