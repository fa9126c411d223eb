#include "sim/run.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "sim/advice.hpp"
#include "sim/bands.hpp"
#include "sim/line/line_result.hpp"
#include "sim/verdict.hpp"

namespace drumlin::sim {
namespace {

/// Frames kept per section: enough for a smooth look at the pass, few enough to stay small on disk.
constexpr int frames_per_section = 48;

void fill_case(const Setup& setup, Result& result) {
  const cases::Case& scenario = setup.scenario;
  result.title = scenario.title;
  result.model = "line";
  const cases::Numerics& numerics = scenario.numerics;
  result.options = {"cover_geometry = " + numerics.cover_geometry,
                    "cover_motion = " + numerics.cover_motion, "belt_grip = " + numerics.belt_grip,
                    "cover_strain = " + numerics.cover_strain};
  for (const auto& unused : scenario.unused) {
    result.unused_keys.push_back(
        fmt::format("{} (line {}): {}", unused.key, unused.line, unused.text));
  }
  result.defaults = scenario.defaults;
  result.part_material = scenario.part.material.name;
  if (scenario.part.coating) {
    result.coating = scenario.part.coating->material.name;
    result.coating_thickness = scenario.part.coating->thickness;
  }
  result.provenance.version = DRUMLIN_VERSION;
  result.provenance.case_file = scenario.file;
  result.provenance.case_text = scenario.text;
  result.provenance.case_sha256 = scenario.sha256;
  result.provenance.seed = scenario.seed;
}

void fill_drums(const Setup& setup, Result& result) {
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    const BeltSetup& station = setup.stations[i];
    result.drums.push_back({.radius = station.radius,
                            .cover = station.cover.thickness,
                            .interference = result.stations[i].interference->value,
                            .belt_speed = station.belt_speed});
  }
}

}  // namespace

Result run(const Setup& setup, const Progress& progress, const std::stop_token& stop) {
  const cases::Numerics& numerics = setup.scenario.numerics;
  const double pass_share = numerics.bands ? 0.7 : 1.0;
  line::LineOptions options{
      .fineness = {.resolution = numerics.resolution, .root_cells = 8, .steps = numerics.steps},
      .frames = frames_per_section,
      .progress = {},
      .stop = stop};
  if (progress) {
    options.progress = [&](double share, std::string_view what) {
      progress(pass_share * share, what);
    };
  }
  Result result;
  fill_case(setup, result);
  line::LineAnswer answer = line::simulate(setup, options);
  line::StatedAnswer stated = line::state(setup, answer);
  if (numerics.bands) {
    result.influences = add_bands(
        setup, stated,
        [&](double share) {
          if (progress) progress(pass_share + (1.0 - pass_share) * share, "bands");
        },
        stop);
  }
  result.stations = std::move(stated.stations);
  result.part = std::move(stated.part);
  fill_drums(setup, result);
  result.verdict = judge(setup.scenario.accept, result.part);
  advise(setup, result);
  result.sections = std::move(answer.records);
  return result;
}

}  // namespace drumlin::sim
