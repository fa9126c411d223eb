#include "viz/hdf5_scatter.hpp"

#include <string>
#include <vector>

#include <fmt/format.h>

namespace drumlin::viz {
namespace {

void write_probability(const H5Group& group, std::string_view name, const sim::Probability& met,
                       std::string_view meaning) {
  group.scalar(name, met.value, {"1", meaning}, met.low, met.high);
}

void write_spread(const H5Group& group, const std::string& of, std::string_view unit,
                  const sim::Spread& spread) {
  group.scalar(of + "_p5", spread.p5, {unit, "5 % of the draws lie below"});
  group.scalar(of + "_p50", spread.p50, {unit, "half of the draws lie below"});
  group.scalar(of + "_p95", spread.p95, {unit, "95 % of the draws lie below"});
  group.scalar(of + "_mean", spread.mean, {unit, "mean of the draws"});
  group.scalar(of + "_deviation", spread.deviation, {unit, "standard deviation of the draws"});
}

void write_shares(const H5Group& group, const std::vector<sim::ScatterShare>& shares) {
  const auto list = [&](double sim::ScatterShare::*member) {
    std::vector<double> values;
    for (const sim::ScatterShare& share : shares)
      values.push_back(share.*member);
    return values;
  };
  group.array("first_order", list(&sim::ScatterShare::first),
              {"1", "share of the variance that a key's scatter makes alone, key by key"});
  group.array("first_order_error", list(&sim::ScatterShare::first_error),
              {"1", "standard deviation of that estimate"});
  group.array("total", list(&sim::ScatterShare::total),
              {"1", "share of the variance in which a key's scatter has a part"});
  group.array("total_error", list(&sim::ScatterShare::total_error),
              {"1", "standard deviation of that estimate"});
}

void write_output(const H5Group& group, const sim::ScatterOutput& output) {
  group.attribute("name", output.name);
  group.attribute("quantity", output.quantity);
  group.attribute("unit", output.unit);
  if (!output.limit.empty()) group.attribute("limit", output.limit);
  if (output.low)
    group.scalar("limit_low", *output.low, {output.unit, "lower end of what is accepted"});
  if (output.high)
    group.scalar("limit_high", *output.high, {output.unit, "upper end of what is accepted"});
  if (output.met)
    write_probability(group, "probability_met", *output.met,
                      "share of draws that meet the limit; low and high: interval of 95 %");
  if (!output.why_not.empty()) group.attribute("why_no_probability", output.why_not);
  if (output.value) write_spread(group, "value", output.unit, *output.value);
  if (output.margin) write_spread(group, "margin", output.unit, *output.margin);
  if (output.margin_deviations)
    group.scalar("margin_in_deviations", *output.margin_deviations,
                 {"1", "mean margin over its standard deviation"});
  if (!output.shares.empty()) write_shares(group, output.shares);
  group.array("draws", output.values,
              {output.unit, "value draw by draw: set A, then set B",
               "the draw could not be computed, or the model gives no value"});
}

void write_list(const H5Group& group, const std::vector<sim::ScatterOutput>& outputs) {
  for (std::size_t i = 0; i < outputs.size(); ++i)
    write_output(group.group(fmt::format("{}", i)), outputs[i]);
}

}  // namespace

void write_scatter(const H5Group& group, const sim::ScatterStudy& scatter) {
  group.attribute("model", scatter.model);
  group.attribute("points_per_set", static_cast<int>(scatter.size));
  group.attribute("seed", static_cast<int>(scatter.seed));
  group.attribute("runs", static_cast<int>(scatter.runs));
  std::vector<std::string> keys;
  std::vector<std::string> distributions;
  for (const sim::ScatterInput& input : scatter.inputs) {
    keys.push_back(input.key);
    distributions.push_back(input.distribution);
  }
  group.texts("keys", keys, "keys of the case that scatter; order of all shares");
  group.texts("distributions", distributions, "how, as the case gives it");
  group.texts("notes", scatter.notes, "what was drawn, how, and what is not in it");
  if (scatter.all_met)
    write_probability(group, "probability_all_met", *scatter.all_met,
                      "share of draws that meet every limit; low and high: interval of 95 %");
  write_list(group.group("limits"), scatter.limits);
  write_list(group.group("without_limit"), scatter.others);
}

}  // namespace drumlin::viz
