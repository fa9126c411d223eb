#include "viz/remedy_json.hpp"

#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace drumlin::viz {
namespace {

using Json = nlohmann::ordered_json;

void put(Json& object, const std::string& key, const std::string& unit,
         const std::optional<double>& value) {
  if (!value || !std::isfinite(*value)) return;
  const std::string of = unit_in_key(unit);
  object[of.empty() ? key : key + '_' + of] = *value;
}

void put_text(Json& object, const char* key, const std::string& text) {
  if (!text.empty()) object[key] = text;
}

class Writer {
 public:
  explicit Writer(const sim::RemedyStudy& study) : study_(study) {}

  [[nodiscard]] Json remedies() const;
  [[nodiscard]] Json sensitivities() const;

 private:
  [[nodiscard]] const sim::RemedyKnob& knob(int index) const {
    return study_.knobs[static_cast<std::size_t>(index)];
  }
  [[nodiscard]] Json knobs() const;
  [[nodiscard]] Json looked(const sim::SoughtLimit& sought) const;
  [[nodiscard]] Json remedy(const sim::Remedy& remedy, const std::string& unit) const;
  [[nodiscard]] Json list(const std::vector<sim::Remedy>& remedies, const std::string& unit) const;
  [[nodiscard]] Json breaks() const;

  const sim::RemedyStudy& study_;
};

Json Writer::knobs() const {
  Json list = Json::array();
  for (const sim::RemedyKnob& k : study_.knobs) {
    Json entry = {{"key", k.key}, {"name", k.name}, {"setting_of_this_line", k.setting}};
    entry["as_set"] = k.now_text;
    put(entry, "now", k.unit, k.now);
    put(entry, "low", k.unit, k.low);
    put(entry, "high", k.unit, k.high);
    put_text(entry, "low_by", k.low_by);
    put_text(entry, "high_by", k.high_by);
    put_text(entry, "not_sought", k.not_sought);
    list.push_back(std::move(entry));
  }
  return list;
}

Json Writer::looked(const sim::SoughtLimit& sought) const {
  Json list = Json::array();
  for (const sim::Looked& way : sought.looked) {
    Json entry = {
        {"key", knob(way.knob).key}, {"way", way.way > 0 ? "up" : "down"}, {"found", way.found}};
    put(entry, "to", knob(way.knob).unit, way.to);
    entry["text"] = way.text;
    put(entry, "margin_there", sought.unit, way.margin);
    put_text(entry, "ended_by", way.ended_by);
    list.push_back(std::move(entry));
  }
  return list;
}

Json Writer::remedy(const sim::Remedy& remedy, const std::string& unit) const {
  Json object;
  object["changes"] = Json::array();
  for (const sim::Turned& turned : remedy.changes) {
    Json entry = {{"key", knob(turned.knob).key}};
    put(entry, "limit_at", knob(turned.knob).unit, turned.to);
    put(entry, "setting", knob(turned.knob).unit, turned.setting);
    entry["text"] = turned.text;
    object["changes"].push_back(std::move(entry));
  }
  put(object, "value_then", unit, remedy.value);
  object["other_limits_not_met"] = remedy.failing;
  object["largest_margin_loss"] = remedy.largest_loss;
  put_text(object, "largest_margin_loss_of", remedy.largest_loss_of);
  object["relative_change"] = remedy.relative_change;
  for (const sim::SideEffect& effect : remedy.effects) {
    Json entry = {{"quantity", effect.name}};
    put(entry, "before", effect.unit, effect.before);
    put(entry, "after", effect.unit, effect.after);
    object["side_effects"].push_back(std::move(entry));
  }
  if (remedy.line) {
    Json line = {{"confirmed", remedy.line->confirmed}, {"state", remedy.line->state}};
    // With all limits at once, value and margin are those of the limit that decides, in its unit.
    const bool of_all = unit == "1" && !remedy.line->decided_by.empty();
    put(line, of_all ? "deciding_value" : "value", of_all ? "1" : unit, remedy.line->value);
    put(line, of_all ? "deciding_margin" : "margin", of_all ? "1" : unit, remedy.line->margin);
    put_text(line, "decided_by", remedy.line->decided_by);
    object["line_model"] = std::move(line);
  }
  return object;
}

Json Writer::list(const std::vector<sim::Remedy>& remedies, const std::string& unit) const {
  Json list = Json::array();
  for (const sim::Remedy& one : remedies)
    list.push_back(remedy(one, unit));
  return list;
}

Json Writer::breaks() const {
  Json list = Json::array();
  for (const sim::Break& lost : study_.breaks)
    list.push_back({{"key", knob(lost.knob).key},
                    {"way", lost.way > 0 ? "up" : "down"},
                    {"limit", lost.limit},
                    {"text", lost.text}});
  return list;
}

Json Writer::remedies() const {
  Json object = {{"model", study_.model}, {"calibrated", false}};
  put_text(object, "nothing_proposed", study_.forced);
  object["rule"] = study_.rule;
  object["evaluations"] = study_.evaluations;
  object["cut_short"] = study_.cut_short;
  object["knobs"] = knobs();
  object["limits"] = Json::array();
  for (const sim::SoughtLimit& sought : study_.limits) {
    Json entry = {{"name", sought.name}, {"limit", sought.limit}, {"failed", sought.failed}};
    put(entry, "value", sought.unit, sought.value);
    put(entry, "fast_value", sought.unit, sought.fast_value);
    put_text(entry, "not_sought", sought.not_sought);
    entry["looked"] = looked(sought);
    entry["remedies"] = list(sought.remedies, sought.unit);
    object["limits"].push_back(std::move(entry));
  }
  object["lost_along"] = breaks();
  object["pairs_tried"] = study_.pairs_tried;
  object["pairs"] = list(study_.pairs, "1");
  if (study_.nearest) {
    object["nearest_pair"] = remedy(*study_.nearest, "1");
    object["nearest_pair"]["worst_margin"] = study_.nearest_margin;
    put_text(object["nearest_pair"], "worst_limit", study_.nearest_limit);
  }
  if (study_.conflict)
    object["conflict"] = {{"to_meet", study_.conflict->one},
                          {"loses", study_.conflict->other},
                          {"knobs", study_.conflict->knobs}};
  return object;
}

Json Writer::sensitivities() const {
  Json list = Json::array();
  for (const sim::Sensitivity& moved : study_.sensitivities) {
    Json entry = {
        {"key", knob(moved.knob).key}, {"step", moved.step}, {"quantity", moved.quantity}};
    put(entry, "change", moved.unit, moved.change);
    put(entry, "elasticity", "1", moved.elasticity);
    entry["smooth"] = moved.smooth;
    list.push_back(std::move(entry));
  }
  return list;
}

}  // namespace

std::string unit_in_key(const std::string& unit) {
  if (unit == "1" || unit == "text") return "";
  if (unit == "degC" || unit == "°C") return "C";
  if (unit == "%") return "percent";
  std::string key;
  for (std::size_t i = 0; i < unit.size(); ++i) {
    if (unit.compare(i, 2, "µ") == 0) {
      key += 'u';
      ++i;
    } else if (unit[i] == '/') {
      key += "_per_";
    } else {
      key += unit[i] == ' ' || unit[i] == '*' ? '_' : unit[i];
    }
  }
  return key;
}

nlohmann::ordered_json remedies_json(const sim::RemedyStudy& study) {
  return Writer(study).remedies();
}

nlohmann::ordered_json sensitivities_json(const sim::RemedyStudy& study) {
  return Writer(study).sensitivities();
}

}  // namespace drumlin::viz
