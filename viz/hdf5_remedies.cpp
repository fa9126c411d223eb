#include "viz/hdf5_remedies.hpp"

#include <limits>
#include <string>
#include <vector>

namespace drumlin::viz {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

const sim::RemedyKnob& knob_of(const sim::RemedyStudy& study, int index) {
  return study.knobs[static_cast<std::size_t>(index)];
}

void write_singles(const H5Group& group, const sim::RemedyStudy& study) {
  std::vector<std::string> limits, keys, units, texts;
  std::vector<double> to, losses, changes;
  std::vector<int> others, confirmed;
  for (const sim::SoughtLimit& sought : study.limits) {
    for (const sim::Remedy& remedy : sought.remedies) {
      const sim::Turned& turned = remedy.changes.front();
      limits.push_back(sought.name);
      keys.push_back(knob_of(study, turned.knob).key);
      units.push_back(knob_of(study, turned.knob).unit);
      texts.push_back(turned.text);
      to.push_back(turned.to.value_or(none));
      others.push_back(static_cast<int>(remedy.failing.size()));
      losses.push_back(remedy.largest_loss);
      changes.push_back(remedy.relative_change);
      confirmed.push_back(!remedy.line ? -1 : remedy.line->confirmed ? 1 : 0);
    }
  }
  if (limits.empty()) return;
  group.texts("limit", limits, "limit that is met by the change, row by row");
  group.texts("key", keys, "knob that is turned alone");
  group.texts("unit", units, "unit of the column to");
  group.texts("text", texts, "setting as shown, rounded away from the case's");
  group.array("to", to, {"see column unit", "value of the knob at the limit", "a word, see text"});
  group.array("other_limits_not_met", others, {"1", "other limits that are not met then"});
  group.array("largest_margin_loss", losses, {"1", "of another limit, over that limit"});
  group.array("relative_change", changes, {"1", "of the knob: logarithm of the factor, or steps"});
  group.array("confirmed_by_line", confirmed,
              {"1", "1: met in the line model too, 0: not met there, -1: not asked"});
}

void write_sensitivities(const H5Group& group, const sim::RemedyStudy& study) {
  std::vector<std::string> keys, steps, quantities, units;
  std::vector<double> changes, elasticities;
  std::vector<int> smooth;
  for (const sim::Sensitivity& moved : study.sensitivities) {
    keys.push_back(knob_of(study, moved.knob).key);
    steps.push_back(moved.step);
    quantities.push_back(moved.quantity);
    units.push_back(moved.unit);
    changes.push_back(moved.change);
    elasticities.push_back(moved.elasticity.value_or(none));
    smooth.push_back(moved.smooth ? 1 : 0);
  }
  if (keys.empty()) return;
  group.texts("key", keys, "knob, row by row");
  group.texts("step", steps, "by how much it is turned");
  group.texts("quantity", quantities, "limit's item or main quantity");
  group.texts("unit", units, "unit of the column change");
  group.array("change", changes, {"see column unit", "of the quantity with that step"});
  group.array("elasticity", elasticities,
              {"1", "relative change over relative change", "not both positive, or a whole step"});
  group.array("smooth", smooth, {"1", "0: half the step differs by more than a tenth"});
}

}  // namespace

void write_remedies(const H5Group& group, const sim::RemedyStudy& study) {
  group.attribute("model", study.model);
  group.attribute("rule", study.rule);
  group.attribute("evaluations", study.evaluations);
  if (!study.forced.empty()) group.attribute("nothing_proposed", study.forced);
  write_singles(group.group("single_knobs"), study);
  write_sensitivities(group.group("sensitivities"), study);
}

}  // namespace drumlin::viz
