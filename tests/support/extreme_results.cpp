#include "tests/support/extreme_results.hpp"

#include "tests/support/sample_result.hpp"

namespace drumlin::support {
namespace {

/// A burr of a height and root, worn to a share of the face's own pressure scale.
sim::Result with_burr(double height, double root) {
  Sample sample;
  sample.burr_height = height;
  sample.burr_root = root;
  return sample_result(sample);
}

sim::Result pressed_deep() {
  Sample sample;
  sample.interference = 2;
  sample.half_width = 18;
  sample.line_load = 9;
  sample.face_pressure = 0.45;
  return sample_result(sample);
}

/// Several passes over two stations, with the frames and steps of one pass again and again.
sim::Result long_line() {
  sim::Result result = sample_result();
  result.title =
      "Bracket of the longest name that an office ever gave to a part, left and right hand";
  result.stations.push_back(result.stations.front());
  result.drums.push_back(result.drums.front());
  sim::SectionRecord& section = result.sections.front();
  const auto once = section.history;
  for (int passage = 1; passage < 8; ++passage)
    for (sim::StepRecord step : once) {
      step.pass = passage / 2;
      step.station = passage % 2;
      section.history.push_back(step);
    }
  for (int i = 0; i < 18; ++i) {
    sim::FeatureResult feature = result.part.features[static_cast<std::size_t>(i % 2)];
    feature.name = "slot for the cable of lamp number " + std::to_string(i);
    feature.section.clear();
    result.part.features.push_back(feature);
  }
  return result;
}

/// A limit's draws as a saw between two values.
sim::ScatterOutput sawed(const std::string& name, double low, double high, int keys) {
  sim::ScatterOutput output;
  output.name = name;
  output.quantity = name.substr(name.rfind(' ') + 1);
  output.unit = "mm";
  output.limit = "-0.30..0.05 mm";
  output.low = -0.30;
  output.high = 0.05;
  for (int i = 0; i < 512; ++i)
    output.values.push_back(low + (high - low) * ((i * 37) % 512) / 512);
  output.value = sim::Spread{low, 0.5 * (low + high), high, 0.5 * (low + high), high - low};
  output.met = sim::Probability{0.5, 0.45, 0.55, 256, 512};
  output.margin_deviations = -1.5;
  for (int i = 0; i < keys && high > low; ++i)
    output.shares.push_back({0.9 / keys, 0.02, 1.3 / keys, 0.05});
  return output;
}

/// Many keys of long names scatter; limits far from the draws, and draws that are all alike.
sim::Result scattered() {
  sim::Result result = sample_result();
  constexpr int keys = 9;
  sim::ScatterStudy& scatter = result.scatter.emplace();
  scatter.model = "fast";
  scatter.draws = 512;
  for (int i = 0; i < keys; ++i)
    scatter.inputs.push_back({"part.feature[" + std::to_string(i) + "].burr.specific_energy_of_it",
                              "energy",
                              "normal: mean 1 J/mm3, deviation 0.1 J/mm3",
                              "J/mm3",
                              {}});
  scatter.limits = {
      sawed("slot for the cable of lamp number 11:trailing secondary_burr", -0.4, 0.1, keys),
      sawed("slot for the cable of lamp number 11:trailing burr_height", 40, 41, keys),
      sawed("hole-6 edge_drop", -1e-4, 1e-4, keys),
      sawed("hole-6 edge_size", 0.02, 0.02, keys),
      sawed("hole-6 coating_left", -20, 20, keys),
      sawed("face face_removal", 0.01, 0.06, keys),
      sawed("back burr_height", 0.01, 0.06, keys)};
  return result;
}

}  // namespace

std::vector<std::pair<std::string, sim::Result>> extreme_results() {
  std::vector<std::pair<std::string, sim::Result>> out;
  out.emplace_back("usual", sample_result());
  out.emplace_back("feather-burr", with_burr(0.02, 0.01));
  out.emplace_back("burr-1-mm", with_burr(1, 0.3));
  out.emplace_back("burr-5-mm", with_burr(5, 0.6));
  out.emplace_back("pressed-2-mm", pressed_deep());
  out.emplace_back("long-line", long_line());
  out.emplace_back("scattered", scattered());
  return out;
}

}  // namespace drumlin::support
