#include "sim/advice.hpp"

#include <algorithm>
#include <numbers>
#include <utility>

#include <fmt/format.h>

#include "sim/cautions.hpp"
#include "sim/drum_state.hpp"
#include "sim/early_warnings.hpp"
#include "sim/feed_angle.hpp"
#include "sim/heat/heat_warnings.hpp"
#include "sim/heat/zinc_heat.hpp"
#include "sim/line_warnings.hpp"
#include "sim/removal_text.hpp"
#include "sim/warnings.hpp"

namespace drumlin::sim {
namespace {

bool has_brush(const cases::Case& scenario) {
  return std::any_of(scenario.stations.begin(), scenario.stations.end(), [](const auto& station) {
    return std::holds_alternative<cases::BrushStation>(station);
  });
}

double um(double mm) {
  return 1000.0 * mm;
}

/// What the chosen options leave out, by how much.
void note_options(const Options& options, std::vector<std::string>& notes) {
  notes.emplace_back(
      options.curved ? "cover taken as the ring that it is, bonded to a rigid hub: finite elements "
                       "of that ring agree within 0.1 % for small strain"
                     : "cover taken as a flat layer: the true drum carries 5 to 16 % less line "
                       "load at the same interference; in the bands");
  notes.emplace_back(
      options.gripped
          ? "the belt grips the cover and does not stretch; a friction of 0.1 between them is "
            "enough for that, and a slipping belt would carry 12 to 38 % less line load"
          : "the cover slides freely under the belt: a gripping belt carries 14 to 61 % more line "
            "load; in the bands");
  notes.emplace_back(
      options.finite_strain
          ? "finite strain counts as a factor on the cover's modulus, fitted to neo-Hookean finite "
            "elements up to an interference of a fifth of the cover"
          : "small strain: finite strain carries 2 to 25 % more line load from a fortieth to a "
            "fifth of the cover; in the bands");
  if (!options.moving)
    notes.emplace_back(
        "nothing moves: the stiffening of rubber with frequency (1.2 to 2.5 times is measured), "
        "the inertia of cover and belt, lean and the cover's own heat are left out");
}

/// The drum that the durometer measures is not the drum that the part feels.
void note_speed(const BeltSetup& station, const StationResult& result, std::size_t index,
                std::vector<std::string>& notes) {
  if (result.speed_ratio)
    notes.push_back(fmt::format(
        "station[{}]: belt speed is {:.2f} of the critical speed of cover and belt{} (theory, no "
        "measured onset)",
        index, result.speed_ratio->value,
        station.options.moving ? "" : ", at the modulus that the durometer reads"));
  if (!result.dynamic_stiffening) return;
  const Quantity& depth =
      result.effective_interference ? result.effective_interference : result.interference;
  const double hertz =
      nip_frequency(station, depth ? depth->value : 0.0) / (2.0 * std::numbers::pi);
  notes.push_back(fmt::format(
      "station[{}]: the drum that the durometer measures is not the drum that the part feels: at "
      "{:.2g} Hz in the nip the cover is {:.2f} times as stiff as the hardness says{}",
      index, hertz, result.dynamic_stiffening->value,
      std::holds_alternative<models::PronySeries>(station.relaxation)
          ? ", by its measured relaxation"
          : ", by its loss factor"));
}

void note_drum(const BeltSetup& station, const StationResult& result, std::size_t index,
               std::vector<std::string>& notes) {
  note_speed(station, result, index, notes);
  if (std::holds_alternative<cases::LineLoadSetting>(station.setting))
    notes.push_back(fmt::format(
        "station[{}] is set by line load: {} at edges and burrs, nor in how the load "
        "answers to sheet thickness: once set, the drum stays where it is, so sheet thickness, "
        "bow, cover wear, another belt and warmth change its load as they change the interference",
        index,
        std::holds_alternative<models::Preston>(station.substrate.law)
            ? "the face then loses K P' v/v_f whatever the cover, so hardness cancels on the face; "
              "it does not"
            : "under a power of pressure hardness does not cancel on the face, since a harder drum "
              "presses the same load through a narrower nip; nor does it"));
  if (result.cover_heating)
    notes.push_back(fmt::format(
        "station[{}]: heat of the cover is an estimate: rolling loss spread evenly, a bare drum in "
        "air, belt and part carry nothing off",
        index));
  if (result.ripple_height)
    notes.push_back(fmt::format(
        "station[{}]: the ripple of the run-out comes every {:.3g} mm, far less than the nip is "
        "wide, and averages out; the height given is the most that it can leave",
        index, result.ripple_pitch->value));
}

/// What is known of the finish and of how belts wear.
void note_wear(const Setup& setup, Result& result) {
  auto& notes = result.notes;
  if (result.part.face.roughness)
    notes.emplace_back(
        "Ra comes from charts of the trade, which differ by two to four times for one grit: a "
        "factor of 2.75 either way; which metal is ground is not told apart");
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    const auto* belt = std::get_if<BeltSetup>(&setup.stations[i]);
    if (belt != nullptr && belt->wear.life_share > 0.0)
      notes.push_back(
          fmt::format("station[{}]: the belt has {:.0f} % of its life behind it and keeps {:.0f} % "
                      "of the fresh "
                      "belt's removal coefficient",
                      i, 100.0 * belt->wear.life_share, 100.0 * belt->wear.sharpness));
  }
  if (result.life_study)
    notes.emplace_back(
        "belt life follows from the work that a belt does (grinding ratios of the trade, a factor "
        "of two to three either way); tears, splices and tracking end belts too; brushes are taken "
        "as moved in as they wear");
}

/// What goes for pairs of rollers and for discs.
void note_arrangements(const Setup& setup, std::vector<std::string>& notes) {
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    const auto* brush = std::get_if<BrushSetup>(&setup.stations[i]);
    if (brush == nullptr) continue;
    if (brush->second_of_pair)
      notes.push_back(fmt::format(
          "station[{}] and station[{}] are the two rollers of one counter-rotating brush; stations "
          "are counted roller by roller from there on",
          i - 1, i));
    if (std::holds_alternative<models::DiscBrush>(brush->brush))
      notes.push_back(fmt::format(
          "station[{}]: edges count as struck by the mean over the part's width, its sides by what "
          "passes there; the pattern that a head leaves turn by turn is not followed",
          i));
  }
}

void note_model(const Setup& setup, Result& result) {
  auto& notes = result.notes;
  const cases::Numerics& numerics = setup.scenario.numerics;
  notes.emplace_back(
      "uncalibrated: no measured sample of this line has been used; bands come from the library's "
      "spreads, one input at a time, added in quadrature");
  notes.emplace_back(fmt::format(
      "{} model: plane-strain sections across the edges; corners and the roundness of holes are "
      "outside it{}",
      numerics.model,
      numerics.model == "line" ? "; edges along the feed are solved across the drum's axis under "
                                 "the plain nip's pressure"
                               : ", and so are edges along the feed"));
  bool options_noted = false;
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    const auto* belt = std::get_if<BeltSetup>(&setup.stations[i]);
    if (belt == nullptr) continue;
    if (!std::exchange(options_noted, true)) note_options(belt->options, notes);
    note_drum(*belt, result.stations[i], i, notes);
  }
  if (numerics.model == "line")
    notes.emplace_back(fmt::format(
        "sections are cut in cells of {:.3g} um or finer at edges (eight at least on a burr's "
        "root) "
        "and passed in about {} steps; every edge is treated as if the next were far away; "
        "length and width of the part count for its heat, hold-down and cost, not for contact",
        um(numerics.resolution), numerics.steps));
  if (numerics.model == "fast")
    notes.emplace_back(
        "edges are solved in few cells and steps: against the line model face removal is within "
        "5 %, burr left within 15 % or a twentieth of the burr's height; pressure on a burr comes "
        "out up to a quarter low; edge radius, bare length, lean and rolling loss are not given");
  for (std::string& note : removal_notes(setup.scenario))
    notes.push_back(std::move(note));
  notes.emplace_back(
      "a wall burr stands rigid and is ground down, or bends at its root where the drag of single "
      "grains exceeds what the root stands");
  note_wear(setup, result);
  for (std::string& note : heat_notes(setup))
    notes.push_back(std::move(note));
  if (has_brush(setup.scenario))
    notes.emplace_back(
        "brushes: filaments in balance, each on its own, without their swing; no measured brush "
        "force stands behind them; what they take off is known to a factor of four (common "
        "practice, no source), the life of a lip's root to a factor of ten");
  note_arrangements(setup, notes);
  if (setup.scenario.part.bow > 0.0)
    notes.emplace_back(
        "bow counts as what the hold-down and the drum leave of it, as interference more or less "
        "under the whole drum; that a bowed part lifts under the nip is not followed");
  if (const std::string turning = turning_text(setup.scenario.part); !turning.empty())
    notes.push_back(turning);
  if (numerics.bands) {
    std::string angle = feed_angle_text(setup);
    if (!angle.empty()) notes.push_back(std::move(angle));
  }
}

/// Which sample parts would tell most: where the verdict is closest, and over the scatter.
void plan_samples(const Setup& setup, Result& result) {
  auto& samples = result.samples;
  const cases::Part& part = setup.scenario.part;
  samples.emplace_back(fmt::format(
      "2 blanks at nominal thickness {:.3g} mm, new belt run in, settings as in this case: measure "
      "face removal (micrometer or weighing) to fit the removal coefficient",
      part.thickness));
  if (part.coating) {
    samples.emplace_back(
        "the same blanks: coating gauge at 5 places of the face, 10 mm and more from any edge; a "
        "section where the gauge cannot go (it misreads near edges)");
  }
  const FeatureResult* tallest = nullptr;
  for (const auto& f : result.part.features) {
    if (!f.burr_height) continue;
    if (tallest == nullptr || f.burr_height->value > tallest->burr_height->value) tallest = &f;
  }
  if (tallest != nullptr) {
    samples.emplace_back(
        fmt::format("the same blanks: burr left at {} before and after, without touching it (a "
                    "stylus flattens soft burrs)",
                    tallest->name));
  }
  if (!result.verdict.decided_by.empty()) {
    samples.emplace_back(
        fmt::format("1 blank sectioned for what decides: {}", result.verdict.decided_by));
  }
  for (const auto& f : result.part.features) {
    if (!f.edge_drop) {
      samples.emplace_back(
          fmt::format("1 blank measured at {}: this model says nothing about it", f.name));
    }
  }
  if (part.thickness_tolerance > 0.0) {
    samples.emplace_back(fmt::format(
        "1 of the thickest and 1 of the thinnest blanks ({:.3g} and {:.3g} mm): the spread of the "
        "line load",
        part.thickness + part.thickness_tolerance, part.thickness - part.thickness_tolerance));
  } else {
    samples.emplace_back(
        "1 of the thickest and 1 of the thinnest blanks of the coil, measured first");
  }
  if (has_brush(setup.scenario)) {
    samples.emplace_back(
        "2 blanks taken out before the brush and 2 behind it: lip, edge radius and coating at the "
        "same rim; what a brush takes off is the least known number here");
  }
  samples.emplace_back("1 control blank, untouched, kept with the measured ones");
}

}  // namespace

void advise(const Setup& setup, Result& result) {
  warn(setup, result);
  note_model(setup, result);
  plan_samples(setup, result);
  warn_of_line(result);
  result.cautions = cautions(setup.scenario);
  if (const auto zinc = zinc_heat(setup, result); zinc && zinc->may_melt)
    result.cautions.push_back(fmt::format(
        "Zinc may melt here ({}, station {}){}: stop and look before it is run; fume has limits of "
        "its own, per local rules.",
        zinc->where, zinc->station + 1, zinc->may_boil ? " and boil off as dense fume" : ""));
  result.pressing_cautions = pressing_cautions(setup.scenario);
}

}  // namespace drumlin::sim
