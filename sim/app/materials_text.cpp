#include "sim/app/materials_text.hpp"

#include <algorithm>
#include <array>
#include <numbers>
#include <vector>

#include <fmt/format.h>

#include "cases/suggest.hpp"
#include "sim/app/commands.hpp"

namespace drumlin::app {

namespace {

using cases::EntryKind;

/// A kind with the words for it.
struct Shelf {
  EntryKind kind;
  const char* title;
  bool by_line;  ///< whether the overview gives each entry a line with its description
};
constexpr auto shelves =
    std::to_array<Shelf>({{EntryKind::material, "Metals and layers", true},
                          {EntryKind::abrasive, "Abrasives", true},
                          {EntryKind::backing, "Backings", true},
                          {EntryKind::cover, "Drum covers with a measured relaxation", true},
                          {EntryKind::grit, "Grits", false},
                          {EntryKind::coating_class, "Coating classes", false}});

// A unit for people and its size in the inner unit.
struct Unit {
  const char* name;
  double size;
};
constexpr Unit gram_per_cm3{"g/cm3", 1e-9};
constexpr Unit gram_per_m2{"g/m2", 1e-12};
constexpr Unit joule_per_mm3{"J/mm3", 1e3};
constexpr Unit megapascal{"MPa", 1};
constexpr Unit millimetre{"mm", 1};
constexpr Unit newton_millimetre{"N mm", 1};
constexpr Unit millimetre_per_megapascal{"mm/MPa", 1};
constexpr Unit watt_per_metre_kelvin{"W/(m K)", 1};
constexpr Unit joule_per_kilogram_kelvin{"J/(kg K)", 1e6};
constexpr Unit pure_number{"", 1};

std::string line(const char* name, const std::string& text, const Style& style) {
  return wrapped(text, fmt::format("  {:<20}", name), style);
}

std::string sourced(const char* name, const cases::Sourced& value, const Unit& unit,
                    const Style& style) {
  return line(name,
              fmt::format("{}{}{}, band {}..{}; source: {}", brief(value.value / unit.size, 3),
                          *unit.name == '\0' ? "" : " ", unit.name, brief(value.low / unit.size, 3),
                          brief(value.high / unit.size, 3), value.source),
              style);
}

std::string text_of(const cases::Material& material, const Style& style) {
  std::string out = line("what", material.description, style);
  out += line("family", material.family, style);
  out += sourced("density", material.density, gram_per_cm3, style);
  out += sourced("specific energy u", material.specific_energy, joule_per_mm3, style);
  if (material.yield_stress)
    out += sourced("yield stress", *material.yield_stress, megapascal, style);
  if (material.bond_strength)
    out += sourced("bond to the edge", *material.bond_strength, megapascal, style);
  if (material.conductivity)
    out += sourced("conductivity", *material.conductivity, watt_per_metre_kelvin, style);
  if (material.specific_heat)
    out += sourced("specific heat", *material.specific_heat, joule_per_kilogram_kelvin, style);
  if (material.melting_point) {
    const cases::Sourced& melts = *material.melting_point;
    out +=
        line("begins to melt",
             fmt::format("{} degC, band {}..{}; source: {}", brief(melts.value - 273.15, 4),
                         brief(melts.low - 273.15, 4), brief(melts.high - 273.15, 4), melts.source),
             style);
  }
  return out;
}

std::string text_of(const cases::Abrasive& abrasive, const Style& style) {
  return sourced("friction, dry", abrasive.friction, pure_number, style) +
         sourced("friction, wet", abrasive.friction_wet, pure_number, style) +
         sourced("threshold pressure", abrasive.threshold_pressure, megapascal, style);
}

std::string text_of(const cases::Backing& backing, const Style& style) {
  std::string out =
      sourced("bending stiffness", backing.bending_stiffness, newton_millimetre, style) +
      sourced("mass of the belt", backing.mass, gram_per_m2, style);
  if (backing.bead_height) out += sourced("highest bead", *backing.bead_height, millimetre, style);
  if (!backing.wet)
    out += line("runs", "dry only: it softens in water (common practice, no source)", style);
  return out;
}

std::string temperature(double kelvin) {
  return fmt::format("{} degC", brief(kelvin - 273.15, 4));
}

std::string text_of(const cases::CoverMaterial& cover, const Style& style) {
  std::string out = line("what", cover.description, style);
  out += sourced("poisson", cover.poisson, pure_number, style);
  out += sourced("density", cover.density, gram_per_cm3, style);
  std::string terms =
      fmt::format("shear modulus {} MPa after all time", brief(cover.relaxation.relaxed, 4));
  for (const models::PronyTerm& term : cover.relaxation.terms)
    terms += fmt::format(", {} MPa in {} s", brief(term.modulus, 4), brief(term.time, 3));
  out += line("relaxation", terms + "; only its shape counts, hardness sets the scale", style);
  const double hertz = 2 * std::numbers::pi;
  out +=
      line("stiffening",
           fmt::format("{} times at 1 kHz and {} times at 10 kHz as stiff as after 3 s, when the "
                       "durometer is read, at {}",
                       brief(models::modulus_ratio(cover.relaxation, 1e3 * hertz).real(), 3),
                       brief(models::modulus_ratio(cover.relaxation, 1e4 * hertz).real(), 3),
                       temperature(cover.reference_temperature)),
           style);
  out += line(
      "holds for",
      fmt::format("{} to {} Hz at {}; shifted in time from {} to {}", significant(cover.slowest, 2),
                  significant(cover.fastest, 2), temperature(cover.reference_temperature),
                  temperature(cover.shifts.front().temperature),
                  temperature(cover.shifts.back().temperature)),
      style);
  out += line("source", cover.source, style);
  return out + line("beware", cover.caveats, style);
}

std::string text_of(const cases::Grit& grit, const Style& style) {
  return line("mean grain", fmt::format("{} µm", brief(grit.mean_diameter * 1e3, 3)), style) +
         sourced("grain compliance", grit.grain_compliance, millimetre_per_megapascal, style) +
         sourced("spacing of grains", grit.grain_spacing, millimetre, style) +
         sourced("highest bead", grit.bead_height, millimetre, style);
}

std::string text_of(const cases::CoatingClass& coating, const Style& style) {
  return line("layer", coating.layer, style) +
         line(
             "mass",
             fmt::format("{} g/m2, both faces together", brief(coating.mass / gram_per_m2.size, 3)),
             style) +
         line(
             "per face",
             fmt::format("{} µm, band {}..{}; source: {}", fixed(coating.typical * 1e3, 1),
                         fixed(coating.low * 1e3, 1), fixed(coating.high * 1e3, 1), coating.source),
             style);
}

std::string text_of(const cases::Library& library, EntryKind kind, const std::string& name,
                    const Style& style) {
  switch (kind) {
    case EntryKind::material:
      return text_of(library.material(name), style);
    case EntryKind::abrasive:
      return text_of(library.abrasive(name), style);
    case EntryKind::backing:
      return text_of(library.backing(name), style);
    case EntryKind::cover:
      return text_of(library.cover(name), style);
    case EntryKind::grit:
      return text_of(library.grit(name), style);
    case EntryKind::coating_class:
      return text_of(library.coating_class(name), style);
  }
  return "";
}

}  // namespace

std::string library_text(const cases::Library& library, const Style& style) {
  std::string out;
  for (const Shelf& shelf : shelves) {
    const auto entries = library.list(shelf.kind);
    if (entries.empty())
      throw InputError(fmt::format("the material library at \"{}\" cannot be read",
                                   cases::Library::shipped_folder().string()));
    out += (out.empty() ? "" : "\n") + painted(shelf.title, Paint::heading, style) + '\n';
    std::string names;
    for (const cases::LibraryEntry& entry : entries) {
      if (shelf.by_line)
        out += line(entry.name.c_str(), entry.description, style);
      else
        names += (names.empty() ? "" : ", ") + entry.name;
    }
    if (!names.empty()) out += wrapped(names, "  ", style);
  }
  return out + '\n' +
         wrapped(
             "drumlin materials NAME shows values, bands and sources. Your own NAME.toml beside "
             "a case, or in a folder materials there, comes before these.",
             "", style);
}

std::string entry_text(const cases::Library& library, const std::string& name, const Style& style) {
  std::string out;
  std::vector<std::string> known;
  for (const Shelf& shelf : shelves) {
    for (const cases::LibraryEntry& entry : library.list(shelf.kind)) {
      known.push_back(entry.name);
      if (entry.name != name) continue;
      out += (out.empty() ? "" : "\n") + painted(name, Paint::heading, style) + " (" + shelf.title +
             ")\n" + text_of(library, shelf.kind, name, style);
    }
  }
  if (out.empty()) {
    const auto near = cases::nearest(name, known);
    throw InputError(fmt::format("the library has no \"{}\"{}; drumlin materials lists what it has",
                                 name, near ? fmt::format("; nearest is \"{}\"", *near) : ""));
  }
  return out;
}

}  // namespace drumlin::app
