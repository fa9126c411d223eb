#pragma once

#include <string>

#include "cases/reader.hpp"
#include "sim/run.hpp"

/// Lines of brushes over one part, as case files.
namespace drumlin::tests {

/// Abrasive nylon, 40 mm free.
inline const std::string nylon_filament =
    "filament = { material = \"abrasive-nylon\", diameter = \"1.0 mm\", free_length = \"40 mm\" "
    "}\n";

/// A plate of 400 x 500 mm with a hole and an outline, bare of burrs.
inline std::string brush_line(const std::string& stations, const std::string& model,
                              const std::string& limits = "") {
  return "title = \"brushes\"\n"
         "[part]\nmaterial = \"DC01\"\nthickness = \"3 mm\"\nwidth = \"400 mm\"\n"
         "length = \"500 mm\"\n"
         "[[part.feature]]\nname = \"outline\"\nkind = \"outer-edge\"\n"
         "[[part.feature]]\nname = \"hole\"\nkind = \"hole\"\nsize = \"20 mm\"\n" +
         stations + "[conveyor]\nspeed = \"2.5 m/min\"\n" + limits +
         "[numerics]\nbands = false\nmodel = \"" + model + "\"\n";
}

inline std::string brush_station(const std::string& lines) {
  return "[[station]]\nkind = \"brush\"\n" + nylon_filament + lines;
}

inline sim::Result run_text(const std::string& text) {
  return sim::run(sim::set_up(cases::parse(text, "line.toml")));
}

inline const sim::FeatureResult& named(const sim::FaceState& face, const std::string& name) {
  for (const auto& feature : face.features)
    if (feature.name == name) return feature;
  throw std::out_of_range(name);
}

}  // namespace drumlin::tests
