#include "sim/app/summary_text.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include <fmt/format.h>

#include "sim/app/brush_text.hpp"
#include "sim/app/edges_text.hpp"
#include "sim/app/heat_text.hpp"
#include "sim/app/life_text.hpp"
#include "sim/app/line_text.hpp"
#include "sim/app/part_as_it_is_text.hpp"
#include "sim/app/remedy_text.hpp"
#include "sim/app/result_table.hpp"
#include "sim/app/scatter_text.hpp"
#include "sim/app/verdict_text.hpp"

namespace drumlin::app {

namespace {

constexpr double micrometre = 1e3;  // um per mm
constexpr const char* standing_caution =
    "A process estimate, not a safety assessment. Local law, fire and dust codes, the machine's "
    "manual and qualified people decide.";

std::string question_text(const sim::Result& result, const Style& style) {
  std::string out = painted(result.title, Paint::heading, style) + '\n';
  std::string part = result.part_material;
  if (result.coating)
    part += fmt::format(", {} {} µm on the face", *result.coating,
                        fixed(result.coating_thickness * micrometre, 1));
  out += wrapped(part, "  part       ", style);
  for (std::size_t i = 0; i < result.stations.size(); ++i)
    out += wrapped(result.stations[i].description, fmt::format("  station {}  ", i + 1), style);
  out += wrapped(fmt::format("{}, {}", result.model, fmt::join(result.options, ", ")),
                 "  model      ", style);
  return out;
}

std::string stations_text(const sim::Result& result, const Style& style) {
  using sim::StationResult;
  const auto mean_slope = [](const StationResult& s) { return s.line_load_slope; };
  const Table table = table_of<StationResult>(
      "station", result.stations,
      [&](std::size_t i) { return fmt::format("{} {}", i + 1, result.stations[i].kind); },
      {{"interference", "mm", [](const StationResult& s) { return s.interference; }, 1, 3},
       {"penetration", "mm", [](const StationResult& s) { return s.penetration; }, 1, 2},
       {"line load", "N/mm", [](const StationResult& s) { return s.line_load; }, 1, 2},
       {"working", "N/mm", [](const StationResult& s) { return s.working_line_load; }, 1, 2},
       {"per 0.1 mm", "N/mm", mean_slope, 0.1, 2},
       {"half-width", "mm", [](const StationResult& s) { return s.half_width; }, 1, 2},
       {"peak", "MPa", [](const StationResult& s) { return s.peak_pressure; }, 1, 3},
       {"power", "W/mm", [](const StationResult& s) { return s.power; }, 1e-3, 2}});
  return heading("Stations: contact with the plain, unworn face; working: while it wears", style) +
         to_text(table, style);
}

std::string drums_text(const sim::Result& result, const Style& style) {
  using sim::StationResult;
  const Table table = table_of<StationResult>(
      "station", result.stations,
      [&](std::size_t i) { return fmt::format("{} {}", i + 1, result.stations[i].kind); },
      {{"effective", "mm", [](const StationResult& s) { return s.effective_interference; }, 1, 3},
       {"stiffness", "x", [](const StationResult& s) { return s.dynamic_stiffening; }, 1, 2},
       {"critical", "m/s", [](const StationResult& s) { return s.critical_speed; }, 1e-3, 1},
       {"of it", "-", [](const StationResult& s) { return s.speed_ratio; }, 1, 2},
       {"tension", "N/mm", [](const StationResult& s) { return s.belt_tension_at_speed; }, 1, 2},
       {"lean", "mm", [](const StationResult& s) { return s.lean; }, 1, 2},
       {"rolling loss", "W/mm", [](const StationResult& s) { return s.rolling_loss; }, 1e-3, 2},
       {"warms by", "K", [](const StationResult& s) { return s.cover_heating; }, 1, 0},
       {"land", "MPa", [](const StationResult& s) { return s.land_pressure; }, 1, 3},
       {"ripple", "µm", [](const StationResult& s) { return s.ripple_height; }, micrometre, 2}});
  if (table.head[0].size() == 1) return "";
  std::string out =
      heading("Drum at work: what the durometer does not say", style) + to_text(table, style);
  const auto any = [&](sim::Quantity StationResult::*quantity) {
    return std::any_of(result.stations.begin(), result.stations.end(),
                       [&](const StationResult& s) { return (s.*quantity).has_value(); });
  };
  if (any(&StationResult::critical_speed))
    out += wrapped(
        "critical: speed at which waves in cover and belt keep up with the nip (theory, "
        "no measured onset); of it: the belt's share",
        "  ", style);
  if (any(&StationResult::cover_heating))
    out += wrapped("warms by: an estimate, over the air around the drum", "  ", style);
  return out;
}

std::string with_band(const sim::Quantity& quantity, double factor, int decimals,
                      std::string_view unit) {
  const std::string band = band_text(quantity, factor, decimals);
  return fmt::format("{} {}{}", value_text(quantity, factor, decimals), unit,
                     band.empty() ? "" : fmt::format(" ({})", band));
}

std::string face_text(const sim::FaceResult& face, std::string_view what, const Style& style) {
  std::string out;
  const auto add = [&](const char* name, const std::string& text) {
    out += wrapped(text, fmt::format("  {:<14}", name), style);
  };
  if (face.removal) add("removal", with_band(face.removal, micrometre, 1, "µm"));
  if (face.coating_left) {
    std::string left = with_band(face.coating_left, micrometre, 1, "µm");
    if (face.coating_left_fraction)
      left += ", " + with_band(face.coating_left_fraction, 100, 0, "%") + " of what was there";
    add("coating left", left);
  }
  if (face.top_left) add("layer over it", with_band(face.top_left, micrometre, 1, "µm"));
  if (face.roughness) {
    std::string text = with_band(face.roughness, micrometre, 2, "µm") + " across the lay";
    if (face.roughness_along)
      text += ", " + with_band(face.roughness_along, micrometre, 2, "µm") + " along it";
    add("Ra", text);
  }
  if (face.lay_covered)
    add("lay", fmt::format("{}, covers {}", face.lay, with_band(face.lay_covered, 100, 0, "%")));
  if (face.temperature) {
    const sim::Banded& hottest = *face.temperature;
    std::string text = fmt::format("{} degC", fixed(hottest.value - 273.15, 0));
    if (hottest.low && hottest.high)
      text += fmt::format(" ({}..{})", fixed(*hottest.low - 273.15, 0),
                          fixed(*hottest.high - 273.15, 0));
    add("hottest", text);
  }
  return out.empty() ? out : heading(what, style) + out;
}

std::string influence_text(const sim::Influence& influence) {
  return fmt::format("{} {}..{}{}{}: {}..{} µm ({})", influence.meaning, brief(influence.low, 3),
                     brief(influence.high, 3), influence.unit.empty() ? "" : " ", influence.unit,
                     fixed(influence.output_low * micrometre, 1),
                     fixed(influence.output_high * micrometre, 1), influence.input);
}

// Output by output, in the order in which they come; of each the inputs with the longest reach.
std::string influences_text(const sim::Result& result, const Style& style) {
  std::vector<sim::Influence> ranked = result.influences;
  const auto reach = [](const sim::Influence& i) { return std::abs(i.output_high - i.output_low); };
  std::stable_sort(ranked.begin(), ranked.end(),
                   [&](const auto& a, const auto& b) { return reach(a) > reach(b); });
  constexpr std::size_t most = 3;
  std::vector<std::string> outputs;
  std::string out;
  for (const sim::Influence& named : result.influences) {
    if (std::find(outputs.begin(), outputs.end(), named.output) != outputs.end()) continue;
    outputs.push_back(named.output);
    std::vector<std::string> lines;
    for (const sim::Influence& influence : ranked)
      if (influence.output == named.output && lines.size() < most)
        lines.push_back(influence_text(influence));
    out += list("What moves " + named.output + " most, each over its band", lines, Paint::heading,
                style);
  }
  return out;
}

std::string sureness_text(const sim::Result& result, const Style& style) {
  const char* text =
      result.calibrated
          ? "Calibrated with sample parts. Bands: low..high under or beside each value."
          : "Uncalibrated: no sample part stands behind these numbers. Bands, low..high under or "
            "beside each value, are the scatter of the inputs, not a promise.";
  return heading("How sure", style) + wrapped(text, "  ", style);
}

std::string cautions_text(const sim::Result& result, const Style& style) {
  std::vector<std::string> cautions = result.cautions;
  const auto is_standing = [](const std::string& caution) {
    return caution.find("not a safety assessment") != std::string::npos;
  };
  if (std::none_of(cautions.begin(), cautions.end(), is_standing))
    cautions.insert(cautions.begin(), standing_caution);
  return list("Cautions", cautions, Paint::caution, style);
}

}  // namespace

std::string summary_text(const sim::Result& result, const Style& style) {
  const std::string headline = verdict_line(result, style);
  std::string out = pressing_text(result.pressing_cautions, style);
  out += question_text(result, style) + forced_text(result, style) + '\n' + headline;
  out += edges_text(result.part, "Edges after the last station; heights from the worn face", style);
  out += face_text(result.part.face, "Face, far from every edge", style);
  if (result.part.reverse) {
    out += edges_text(*result.part.reverse, "Edges of the other face", style);
    out += face_text(result.part.reverse->face, "Other face, far from every edge", style);
  }
  out += stations_text(result, style);
  out += drums_text(result, style);
  out += brushes_text(result, style);
  out += heat_text(result, style);
  out += verdict_table(result.verdict, style);
  if (result.remedies) out += remedy_text(*result.remedies, style);
  if (result.scatter) out += scatter_text(*result.scatter, style);
  if (result.interference_study) out += part_as_it_is_text(*result.interference_study, style);
  if (result.fold_map) out += cut_or_fold_text(*result.fold_map, style);
  if (result.life_study) out += life_text(*result.life_study, style);
  if (result.line_economy) out += line_text(*result.line_economy, style);
  if (result.wet_dry) out += wet_dry_text(*result.wet_dry, style);
  out += sureness_text(result, style);
  out += influences_text(result, style);
  out += list("Warnings", result.warnings, Paint::caution, style);
  out += list("Keys without effect in this version", result.unused_keys, Paint::heading, style);
  out += list("What the model leaves out", result.notes, Paint::heading, style);
  if (!result.defaults.empty())
    out += '\n' + wrapped(fmt::format("Values from the library or from defaults: {}; drumlin check "
                                      "lists them with their reasons.",
                                      result.defaults.size()),
                          "", style);
  out += cautions_text(result, style);
  out += list("Samples to run next", result.samples, Paint::heading, style);
  return out + '\n' + headline;
}

std::string files_text(const std::string& folder, const std::vector<std::string>& files,
                       const std::vector<std::string>& remarks, const Style& style) {
  std::string out = wrapped("written to " + folder + ":", "", style);
  std::vector<std::string> pictures;
  std::vector<std::string> others;
  for (const std::string& file : files)
    (file.ends_with(".png") ? pictures : others).push_back(file);
  // A series has hundreds of members; its .pvd names them all.
  const auto is_member = [](const std::string& file) {
    return file.ends_with(".vti") || file.ends_with(".vtp") || file.ends_with(".vtu") ||
           file.ends_with(".vts");
  };
  const auto members = std::count_if(others.begin(), others.end(), is_member);
  std::erase_if(others, is_member);
  if (!pictures.empty())
    out += wrapped(fmt::format("{}", fmt::join(pictures, ", ")), "  pictures  ", style);
  if (!others.empty())
    out += wrapped(fmt::format("{}", fmt::join(others, ", ")), "  files     ", style);
  if (members > 0)
    out += wrapped(fmt::format("and {} members of the series", members), "            ", style);
  for (const std::string& remark : remarks)
    out += wrapped(remark, "  remark    ", style);
  return out;
}

}  // namespace drumlin::app
