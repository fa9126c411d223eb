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

}  // namespace

std::vector<std::pair<std::string, sim::Result>> extreme_results() {
  std::vector<std::pair<std::string, sim::Result>> out;
  out.emplace_back("usual", sample_result());
  out.emplace_back("feather-burr", with_burr(0.02, 0.01));
  out.emplace_back("burr-1-mm", with_burr(1, 0.3));
  out.emplace_back("burr-5-mm", with_burr(5, 0.6));
  out.emplace_back("pressed-2-mm", pressed_deep());
  out.emplace_back("long-line", long_line());
  return out;
}

}  // namespace drumlin::support
