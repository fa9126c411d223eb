#include "sim/heat/heat_warnings.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "models/heat/convection.hpp"
#include "models/heat/limits.hpp"
#include "models/heat/temper_colours.hpp"
#include "sim/heat/zinc_heat.hpp"

namespace drumlin::sim {
namespace {

double celsius(double kelvin) {
  return kelvin - 273.15;
}

/// "230 degC (150..410)".
std::string temperature_text(const Quantity& q) {
  std::string text = fmt::format("{:.0f} degC", celsius(q->value));
  if (q->low && q->high)
    text += fmt::format(" ({:.0f}..{:.0f})", celsius(*q->low), celsius(*q->high));
  return text;
}

void warn_of_zinc(const Setup& setup, Result& result) {
  const auto zinc = zinc_heat(setup, result);
  if (!zinc) return;
  if (!zinc->melts && zinc->may_melt)
    result.warnings.push_back(
        fmt::format("station[{}]: {}: zinc reaches {:.0f} degC, but the highest band goes to "
                    "{:.0f} degC, past its "
                    "melting point of {:.1f} degC",
                    zinc->station, zinc->where, celsius(zinc->hottest), celsius(zinc->hottest_high),
                    celsius(zinc->melting_point)));
  const std::string hot = fmt::format("station[{}]: {}: zinc reaches {:.0f} degC", zinc->station,
                                      zinc->where, celsius(zinc->hottest));
  if (zinc->melts) {
    result.warnings.push_back(
        fmt::format("{}, {:.0f} K past where it begins to melt ({:.1f} degC): it melts and fumes",
                    hot, zinc->hottest - zinc->melting_point, celsius(zinc->melting_point)));
  } else if (zinc->hottest >= models::zinc_smears.low) {
    result.warnings.push_back(fmt::format(
        "{}: it softens, smears over the face and loads the belt from {:.0f}..{:.0f} degC on "
        "(common practice, no source)",
        hot, celsius(models::zinc_smears.low), celsius(models::zinc_smears.high)));
  }
}

void warn_of_paint(const Setup& setup, Result& result) {
  const auto& coating = setup.scenario.part.coating;
  if (!coating) return;
  const bool on_top = coating->top && coating->top->material.family == "polymer";
  if (!on_top && coating->material.family != "polymer") return;
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    const Quantity& face = result.stations[i].after.face.temperature;
    if (!face || face->value < models::paint_softens.value) continue;
    result.warnings.push_back(
        fmt::format("station[{}]: face: {}, {:.0f} K past what paint stands ({:.0f} degC, films "
                    "{:.0f}, from memory)",
                    i, temperature_text(face), face->value - models::paint_softens.value,
                    celsius(models::paint_softens.value), celsius(models::paint_softens.low)));
    return;
  }
}

void warn_of_burrs(const Setup& setup, Result& result) {
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    if (!result.stations[i].heat) continue;
    for (const EdgeHeat& edge : result.stations[i].heat->edges) {
      if (!edge.melts) continue;
      result.warnings.push_back(
          fmt::format("station[{}]: {}: the burr reaches the melting point of its metal, {:.0f} "
                      "degC, in {:.2g} ms; it would be hotter by this estimate",
                      i, edge.name, celsius(setup.heat.part->melting_point.value()),
                      1000.0 * edge.contact_time->value));
    }
  }
}

/// Colour of one place; none that anything can be said of for other metals.
std::string colour_text(const Setup& setup, const Quantity& temperature, double time) {
  const std::string& family = setup.scenario.part.material.family;
  if (family != "steel" && family != "stainless") return {};
  const auto metal =
      family == "steel" ? models::ColouringMetal::carbon_steel : models::ColouringMetal::stainless;
  const double reached = temperature->value;
  const auto shown = models::temper_colour(metal, reached, time);
  if (!shown) return {};
  const auto held = models::temper_colour(metal, reached, 3600.0);
  return fmt::format(
      "{}: temper colour about {} ({:.0f} degC +- {:.0f} K between lists, in minutes); held longer "
      "it would be {}: a contact of {:.2g} ms colours as {:.0f} K less (from memory)",
      temperature_text(temperature), shown->name, celsius(shown->from), shown->spread, held->name,
      1000.0 * time, models::colour_delay(time));
}

void warn_of_colours(const Setup& setup, Result& result) {
  double worst = 0.0;
  std::string text;
  const auto look = [&](const Quantity& q, const Quantity& time, std::size_t i,
                        const std::string& where) {
    if (!q || !time || q->value <= worst) return;
    const std::string colour = colour_text(setup, q, time->value);
    if (colour.empty()) return;
    worst = q->value;
    text = fmt::format("station[{}]: {} reaches {}", i, where, colour);
  };
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    const StationResult& station = result.stations[i];
    if (!station.heat) continue;
    // The coating covers the face; beside a burr it is gone or thin.
    if (!setup.scenario.part.coating)
      look(station.after.face.temperature, station.heat->contact_time, i, "the face");
    for (const EdgeHeat& edge : station.heat->edges)
      look(edge.beside, edge.contact_time, i, "the edge at " + edge.name);
  }
  if (!text.empty()) result.warnings.push_back(text);
}

void warn_of_fluid(const Setup& setup, Result& result) {
  if (!setup.heat.wet) return;
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    const Quantity& face = result.stations[i].after.face.temperature;
    if (!face || !result.stations[i].heat || face->value < models::film_boiling_water) continue;
    result.warnings.push_back(
        fmt::format("station[{}]: face: {}: water-based fluid boils as a film from {:.0f} degC on "
                    "(oil {:.0f}) and no longer cools; from there the dry numbers hold",
                    i, temperature_text(face), celsius(models::film_boiling_water),
                    celsius(models::film_boiling_oil)));
    return;
  }
}

void warn_of_covers(const Setup& setup, Result& result) {
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    const Quantity& over_air = result.stations[i].cover_heating;
    if (!over_air || setup.heat.room <= 0.0) continue;
    const double cover = setup.heat.room + over_air->value;
    if (cover < models::cover_ages.value) continue;
    result.warnings.push_back(fmt::format(
        "station[{}]: the cover's rolling loss alone brings its surface to {:.0f} degC, {:.0f} K "
        "past what rubber stands for long ({:.0f} degC, {:.0f}..{:.0f} by compound; common "
        "practice, no source)",
        i, celsius(cover), cover - models::cover_ages.value, celsius(models::cover_ages.value),
        celsius(models::cover_ages.low), celsius(models::cover_ages.high)));
  }
}

}  // namespace

void warn_of_heat(const Setup& setup, Result& result) {
  warn_of_zinc(setup, result);
  warn_of_paint(setup, result);
  warn_of_burrs(setup, result);
  warn_of_colours(setup, result);
  warn_of_fluid(setup, result);
  warn_of_covers(setup, result);
}

std::vector<std::string> heat_notes(const Setup& setup) {
  if (!setup.heat.part)
    return {
        "no temperature given: how the part's metal conducts and stores heat is not known; "
        "give conductivity and specific_heat in its file"};
  std::vector<std::string> notes;
  notes.push_back(fmt::format(
      "heat of the part: an estimate; the share of the power that it takes up is known to "
      "{:.0f}..{:.0f} % only and not measured here; every pass counts with the power of the first; "
      "on the way one face cools in {} at room temperature",
      100.0 * setup.heat.share_low, 100.0 * setup.heat.share_high,
      setup.heat.wet ? "fluid" : "air"));
  notes.emplace_back(
      "burrs warm as fins under the highest force of the pass; edges without a standing burr, lips "
      "and edges under a brush are stated as warm as the face: what their own pressure adds is not "
      "modelled");
  return notes;
}

}  // namespace drumlin::sim
