#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "models/burr/burr_kinds.hpp"
#include "models/burr/fold.hpp"
#include "sim/brush/brush_marks.hpp"
#include "sim/part_faces.hpp"

namespace drumlin::sim::fast {

using sim::PlainFace;

/// An edge line in a section, with the burr on it and what has become of it.
struct SectionRim {
  std::string name;       ///< of the result it feeds; empty for an edge nobody asked about
  std::size_t cell = 0;   ///< outermost cell
  int metal = 0;          ///< +1: metal towards +x, -1: towards -x
  std::size_t reach = 0;  ///< cells of the burr's footprint, 0 without burr
  double x = 0;           ///< of the edge line [mm]
  models::AnyBurr burr = models::NoBurr{};
  /// Cosine of the angle between edge and drum [-]: lengths across the edge over lengths in the
  /// section, and the part of the drag that acts across the edge.
  double across = 1;
  std::optional<models::Lip> lip{};  ///< the burr once it has turned about its root
  bool beyond = false;               ///< whether the lip lies beyond the edge line
  /// What wear has taken off a lip beyond the edge line, per stretch of `lip_bounds` [mm].
  std::vector<double> lip_worn{};
  std::size_t laid = 0;      ///< cells inwards of the footprint under a lip on the face
  bool folded_here = false;  ///< whether it folded in this line, not before
  double fold_start = 0;     ///< height above the worn face when it began to fold [mm]
  double fold_stop = 0;      ///< height of its top when it lay [mm]
  bool broken_off = false;
  bool struck = false;       ///< whether a knock-off tool has met it
  double peak_pressure = 0;  ///< [MPa] highest so far on burr or edge
  double peak_force = 0;     ///< [N/mm] highest so far on the burr, per length of edge
  BrushMarks brushed{};      ///< by the brushes of the line
};

/// The part's top along one section as it wears, in few cells that get finer towards the edges:
/// metal only, from -x to +x. x = feed direction; z = 0 is the nominal, unworn face.
///
/// A column is, from the top: burr metal, layer over the coating, coating, base metal without end.
struct Section {
  std::string name;
  std::vector<double> from, to;  ///< ends of each cell [mm]
  std::vector<double> height;    ///< [mm]
  std::vector<double> burr;      ///< burr metal left [mm]
  std::vector<double> top;       ///< layer over the coating left [mm]
  std::vector<double> coating;   ///< [mm]
  std::vector<SectionRim> rims;  ///< towards +x first

  [[nodiscard]] std::size_t size() const noexcept { return height.size(); }
  [[nodiscard]] double x(std::size_t cell) const noexcept { return 0.5 * (from[cell] + to[cell]); }
  [[nodiscard]] double width(std::size_t cell) const noexcept { return to[cell] - from[cell]; }
  /// Cell so many cells into the metal from an edge.
  [[nodiscard]] static std::size_t inwards(const SectionRim& rim, std::size_t cells) noexcept {
    return rim.metal > 0 ? rim.cell + cells : rim.cell - cells;
  }
  /// Cells from an edge to the section's end or to the opening on the other side of the metal.
  [[nodiscard]] std::size_t depth(const SectionRim& rim) const noexcept;
  /// Length from an edge over which burr metal stood or was laid [mm].
  [[nodiscard]] double covered(const SectionRim& rim) const noexcept;
};

/// How a section is cut: cells on a burr's root, at most so wide elsewhere, out to a distance.
struct SectionCut {
  double widest = 1;   ///< [mm]
  double extent = 20;  ///< metal kept beside an edge [mm]
  double coating = 0;  ///< on the unworn face [mm]
  double top = 0;      ///< over the coating [mm]
};

/// One side of metal beside an edge.
struct SectionSide {
  std::string name;
  double x = 0;
  int metal = 0;
  models::AnyBurr burr = models::NoBurr{};
  double across = 1;  ///< cosine of the angle between edge and drum [-]
};

/// Section through an opening (two sides, towards +x first) or an outer edge (one side). A stub
/// shifts its edge line out by its protrusion.
[[nodiscard]] Section unworn_section(std::string name, const std::vector<SectionSide>& sides,
                                     const SectionCut& cut);

/// Takes a depth [mm] off a column, from the top down.
void take_off(Section& section, std::size_t cell, double depth);

/// Highest point of the burr's footprint, and of a lip laid on the face, over the worn face [mm];
/// negative: worn below it.
[[nodiscard]] double burr_height(const Section& section, const SectionRim& rim,
                                 const PlainFace& face);
/// Most burr metal left on a column of an edge [mm].
[[nodiscard]] double burr_metal(const Section& section, const SectionRim& rim);
/// How far the profile at the edge line lies below the worn face [mm].
[[nodiscard]] double edge_drop(const Section& section, const SectionRim& rim,
                               const PlainFace& face);
/// Least coating left at distances from `beyond` on, the burr's root apart [mm].
[[nodiscard]] double coating_left(const Section& section, const SectionRim& rim,
                                  const PlainFace& face, double beyond);

}  // namespace drumlin::sim::fast
