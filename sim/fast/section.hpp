#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "models/burr/burr_kinds.hpp"

namespace drumlin::sim::fast {

/// Plain face far from every feature, as it wears.
struct PlainFace {
  double removed = 0;  ///< [mm]
  double coating = 0;  ///< left [mm]
};

/// An edge line in a section.
struct SectionRim {
  std::string name;          ///< of the result it feeds; empty for an edge nobody asked about
  std::size_t cell = 0;      ///< outermost cell
  int metal = 0;             ///< +1: metal towards +x, -1: towards -x
  std::size_t reach = 0;     ///< cells of the burr's footprint, 0 without burr
  double x = 0;              ///< of the edge line [mm]
  double peak_pressure = 0;  ///< [MPa] highest so far on burr or edge
  double peak_force = 0;     ///< [N/mm] highest so far on the burr
};

/// The part's top along one section as it wears, in few cells that get finer towards the edges:
/// metal only, from -x to +x. x = feed direction; z = 0 is the nominal, unworn face.
struct Section {
  std::string name;
  std::vector<double> from, to;  ///< ends of each cell [mm]
  std::vector<double> height;    ///< [mm]
  std::vector<double> burr;      ///< burr metal left [mm]
  std::vector<double> coating;   ///< [mm]
  std::vector<SectionRim> rims;  ///< towards +x first

  [[nodiscard]] std::size_t size() const noexcept { return height.size(); }
  [[nodiscard]] double x(std::size_t cell) const noexcept { return 0.5 * (from[cell] + to[cell]); }
  /// Cell so many cells into the metal from an edge.
  [[nodiscard]] static std::size_t inwards(const SectionRim& rim, std::size_t cells) noexcept {
    return rim.metal > 0 ? rim.cell + cells : rim.cell - cells;
  }
};

/// How a section is cut: cells on a burr's root, at most so wide elsewhere, out to a distance.
struct SectionCut {
  double widest = 1;   ///< [mm]
  double extent = 20;  ///< metal kept beside an edge [mm]
  double coating = 0;  ///< on the unworn face [mm]
};

/// One side of metal beside an edge.
struct SectionSide {
  std::string name;
  double x = 0;
  int metal = 0;
  models::AnyBurr burr = models::NoBurr{};
};

/// Section through an opening (two sides, towards +x first) or an outer edge (one side).
[[nodiscard]] Section unworn_section(std::string name, const std::vector<SectionSide>& sides,
                                     const SectionCut& cut);

/// Highest point of the burr's footprint over the worn face [mm]; negative: worn below it.
[[nodiscard]] double burr_height(const Section& section, const SectionRim& rim,
                                 const PlainFace& face);
/// How far the profile at the edge line lies below the worn face [mm].
[[nodiscard]] double edge_drop(const Section& section, const SectionRim& rim,
                               const PlainFace& face);
/// Least coating left at distances from `beyond` on, the burr's root apart [mm].
[[nodiscard]] double coating_left(const Section& section, const SectionRim& rim,
                                  const PlainFace& face, double beyond);

}  // namespace drumlin::sim::fast
