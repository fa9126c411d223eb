#include "viz/scatter_json.hpp"

#include "viz/json_values.hpp"

namespace drumlin::viz {
namespace {

void put_spread(Json& object, const char* key, const std::optional<sim::Spread>& spread) {
  if (!spread) return;
  Json& into = object[key] = Json::object();
  put_finite(into, "p5", spread->p5);
  put_finite(into, "p50", spread->p50);
  put_finite(into, "p95", spread->p95);
  put_finite(into, "mean", spread->mean);
  put_finite(into, "deviation", spread->deviation);
}

Json probability_json(const sim::Probability& met) {
  return {{"value", met.value},
          {"low", met.low},
          {"high", met.high},
          {"met_draws", met.met},
          {"draws", met.of}};
}

Json output_json(const sim::ScatterOutput& output, const std::vector<sim::ScatterInput>& inputs) {
  Json object = {{"name", output.name}, {"quantity", output.quantity}, {"unit", output.unit}};
  if (!output.limit.empty()) object["limit"] = output.limit;
  if (output.low) put_finite(object, "limit_low", *output.low);
  if (output.high) put_finite(object, "limit_high", *output.high);
  if (output.met) object["probability_met"] = probability_json(*output.met);
  if (!output.why_not.empty()) object["why_no_probability"] = output.why_not;
  put_spread(object, "value", output.value);
  put_spread(object, "margin", output.margin);
  if (output.margin_deviations)
    put_finite(object, "margin_in_deviations", *output.margin_deviations);
  if (output.not_known > 0) object["not_known_draws"] = output.not_known;
  for (std::size_t i = 0; i < output.shares.size(); ++i) {
    const sim::ScatterShare& share = output.shares[i];
    object["shares"].push_back({{"key", inputs[i].key},
                                {"first_order", share.first},
                                {"first_order_error", share.first_error},
                                {"total", share.total},
                                {"total_error", share.total_error}});
  }
  if (!output.decides.empty()) object["decides"] = output.decides;
  return object;
}

}  // namespace

nlohmann::ordered_json scatter_json(const sim::ScatterStudy& scatter) {
  Json object = {{"model", scatter.model}, {"points_per_set", scatter.size},
                 {"draws", scatter.draws}, {"runs", scatter.runs},
                 {"seed", scatter.seed},   {"confidence", 0.95}};
  object["inputs"] = Json::array();
  for (const sim::ScatterInput& input : scatter.inputs)
    object["inputs"].push_back(
        {{"key", input.key}, {"meaning", input.meaning}, {"distribution", input.distribution}});
  if (scatter.all_met) object["probability_all_met"] = probability_json(*scatter.all_met);
  if (!scatter.decides.empty()) object["decides"] = scatter.decides;
  object["limits"] = Json::array();
  for (const sim::ScatterOutput& output : scatter.limits)
    object["limits"].push_back(output_json(output, scatter.inputs));
  object["without_limit"] = Json::array();
  for (const sim::ScatterOutput& output : scatter.others)
    object["without_limit"].push_back(output_json(output, scatter.inputs));
  object["failures"] = Json::array();
  for (const sim::ScatterFailure& failure : scatter.failures)
    object["failures"].push_back({{"what", failure.what},
                                  {"draws", failure.draws},
                                  {"runs", failure.runs},
                                  {"first_reason", failure.reason}});
  object["notes"] = scatter.notes;
  return object;
}

}  // namespace drumlin::viz
