#include "sim/run.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "sim/advice.hpp"
#include "sim/bands.hpp"
#include "sim/belt_life.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/fold_map.hpp"
#include "sim/interference_study.hpp"
#include "sim/life_study.hpp"
#include "sim/line/line_result.hpp"
#include "sim/line_economy.hpp"
#include "sim/speed_study.hpp"
#include "sim/verdict.hpp"
#include "sim/wet_dry_study.hpp"

namespace drumlin::sim {
namespace {

/// Frames kept per section: enough for a smooth look at the pass, few enough to stay small on disk.
constexpr int frames_per_section = 48;

void fill_case(const Setup& setup, Result& result) {
  const cases::Case& scenario = setup.scenario;
  result.title = scenario.title;
  result.model = scenario.numerics.model;
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
  result.feed = scenario.conveyor.speed;
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
    const auto* belt = std::get_if<BeltSetup>(&setup.stations[i]);
    DrumShape drum;
    if (belt != nullptr)
      drum = {.radius = belt->radius,
              .cover = belt->cover.thickness,
              .interference = result.stations[i].interference->value,
              .belt_speed = belt->belt_speed};
    result.drums.push_back(drum);
  }
}

/// Coarse passes for differences: five cells on a burr's root and some twenty steps while a nip
/// goes by; a difference of two such runs is good to a tenth of itself.
constexpr line::Fineness coarse{.resolution = 0.04, .root_cells = 5, .steps = 64};

/// What a model says of a case, and how it is asked again for bands.
struct ModelRun {
  StatedAnswer answer;
  std::vector<SectionRecord> sections;  ///< none from a model that resolves no section
  Rerun again;
};

ModelRun run_line(const Setup& setup, const Progress& progress, const std::stop_token& stop) {
  const cases::Numerics& numerics = setup.scenario.numerics;
  const line::LineOptions options{.fineness = {.resolution = numerics.resolution,
                                               .root_cells = 8,
                                               .steps = numerics.steps,
                                               .nested = numerics.grid == "nested"},
                                  .frames = frames_per_section,
                                  .progress = progress,
                                  .stop = stop};
  line::LineAnswer answer = line::simulate(setup, options);
  ModelRun run;
  run.answer = line::state(setup, answer);
  run.sections = std::move(answer.records);
  run.again = [stop](const Setup& varied) {
    const line::LineOptions rough{.fineness = coarse, .frames = 0, .progress = {}, .stop = stop};
    return line::state(varied, line::simulate(varied, rough));
  };
  return run;
}

/// Parts that each station's belt lasts, where the life study says so.
PredictedLife predicted_life(const Result& result) {
  PredictedLife life(result.stations.size());
  if (!result.life_study) return life;
  for (const BeltLife& belt : result.life_study->belts)
    if (belt.parts) life[static_cast<std::size_t>(belt.station)] = belt.parts->value;
  return life;
}

ModelRun run_fast(const Setup& setup, const std::stop_token& stop) {
  const auto again = [stop](const Setup& varied) {
    fast::Drums drums;
    return fast::state(varied, fast::simulate(varied, drums, stop));
  };
  return {.answer = again(setup), .sections = {}, .again = again};
}

}  // namespace

Result run(const Setup& fresh, const Progress& progress, const std::stop_token& stop) {
  const Setup setup = with_belt_ages(fresh, stop);
  const cases::Numerics& numerics = setup.scenario.numerics;
  const double pass_share = numerics.bands ? 0.7 : 1.0;
  Progress passes;
  if (progress) {
    passes = [&](double share, std::string_view what) { progress(pass_share * share, what); };
  }
  Result result;
  fill_case(setup, result);
  ModelRun made = numerics.model == "fast" ? run_fast(setup, stop) : run_line(setup, passes, stop);
  if (numerics.bands) {
    result.influences = add_bands(setup, made.answer, made.again, [&](double share) {
      if (progress) progress(pass_share + (1.0 - pass_share) * share, "bands");
    });
  }
  result.stations = std::move(made.answer.stations);
  result.part = std::move(made.answer.part);
  fill_drums(setup, result);
  if (numerics.bands) {
    result.speed_study = study_speed(setup, stop);
    result.interference_study = study_interference(setup, setup.scenario.accept, stop);
    result.fold_map = study_folding(setup, stop);
    result.wet_dry = study_wet_dry(setup, stop);
  }
  // A limit on it is judged even where nobody asks for bands and studies.
  if (numerics.bands || setup.scenario.accept.limits.contains("belt_life"))
    result.life_study = study_life(fresh, made.again, stop);
  result.verdict = judge(setup.scenario.accept, result.part, result.life_study);
  result.line_economy = line_economy(setup, result.stations, predicted_life(result));
  advise(setup, result);
  result.sections = std::move(made.sections);
  return result;
}

}  // namespace drumlin::sim
