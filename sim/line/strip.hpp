#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "models/burr/burr_kinds.hpp"
#include "models/burr/fold.hpp"
#include "sim/brush/brush_marks.hpp"
#include "sim/numerics/cell_row.hpp"

namespace drumlin::sim::line {

/// An edge line in a strip, with the burr on it and what has become of it.
struct StripEdge {
  std::string name;       ///< of the result it feeds; empty for an edge nobody asked about
  std::size_t cell = 0;   ///< outermost cell of the part's own metal
  int metal = 0;          ///< +1: metal towards +x, -1: towards -x
  std::size_t reach = 0;  ///< cells of the burr's footprint on the metal, 0 without burr
  models::AnyBurr burr = models::NoBurr{};
  double ease = 1;  ///< removal coefficient of the burr over the base metal's [-]
  /// Lengths in this section over lengths across the edge [-], more than 1 where the edge lies
  /// askew of the drum's axis.
  double stretch = 1;
  std::optional<models::Lip> lip{};  ///< the burr once it has bent beyond its edge
  double lip_share = 1;  ///< of the plate's thickness that its cells hold, so that no metal is made
  std::size_t laid = 0;  ///< cells inwards that a burr folded onto the face covers
  std::optional<double> fold_start{};  ///< height above the worn face when it began to fold [mm]
  double fold_stop =
      0;  ///< height of its top when it last moved, above the face as it then was [mm]
  bool broken_off = false;
  bool struck = false;       ///< whether a knock-off tool has met it
  double peak_pressure = 0;  ///< [MPa] highest so far on burr or edge
  double peak_force = 0;     ///< [N/mm] highest so far on burr metal, per length of edge
  BrushMarks brushed{};      ///< by the brushes of the line
};

/// The part's top along one section, cell by cell, as it wears: the state that goes from pass to
/// pass and from station to station. x = feed direction; z = 0 is the nominal, unworn face.
///
/// Cells are a unit wide at edges; elsewhere they may be wider.
///
/// A column is, from the top: burr metal, layer over the coating, coating, base metal without end.
/// A punched or sheared burr is drawn from the base metal and carries no coating; nor does the root
/// it leaves behind. Where a lip lies over an opening a column is burr metal and nothing below.
struct Strip {
  std::string name;
  CellRow cells;
  double origin = 0;                ///< x where units are counted from [mm]
  std::vector<double> height;       ///< [mm] mean of the cell
  std::vector<double> burr;         ///< burr metal left [mm]
  std::vector<double> top;          ///< layer over the coating left [mm]
  std::vector<double> coating;      ///< coating left [mm]
  std::vector<std::uint8_t> metal;  ///< 0: opening, or beyond the part
  std::vector<std::uint8_t> lip;    ///< 1: burr metal over an opening, nothing below
  std::vector<StripEdge> edges;

  [[nodiscard]] std::size_t size() const noexcept { return height.size(); }
  [[nodiscard]] double x(std::size_t cell) const noexcept { return origin + cells.middle(cell); }
  [[nodiscard]] double width(std::size_t cell) const noexcept { return cells.width(cell); }
  /// x of an edge line.
  [[nodiscard]] double line(const StripEdge& edge) const noexcept {
    return x(edge.cell) - 0.5 * edge.metal * width(edge.cell);
  }
  /// Cell `steps_in` cells into the metal from an edge.
  [[nodiscard]] static std::size_t inward(const StripEdge& edge, std::size_t steps_in) noexcept {
    return edge.metal > 0 ? edge.cell + steps_in : edge.cell - steps_in;
  }
  /// Cell `steps_out` cells beyond that first one outside an edge line.
  [[nodiscard]] static std::size_t beyond(const StripEdge& edge, std::size_t steps_out) noexcept {
    return edge.metal > 0 ? edge.cell - 1 - steps_out : edge.cell + 1 + steps_out;
  }
};

/// Takes what is left of an edge's burr off the metal it stands on.
void shed_burr(Strip& strip, StripEdge& edge);

/// Cells of an edge's burr that hang over the opening.
[[nodiscard]] std::size_t lip_cells(const Strip& strip, const StripEdge& edge) noexcept;

/// Makes a cell an opening again.
void clear_cell(Strip& strip, std::size_t cell);

/// Keeps the highest pressure and burr force of each edge, from a step's pressure [MPa] on the
/// cells from `first` on; returns the highest pressure at any edge in this step.
double note_peaks(Strip& strip, std::size_t first, std::span<const double> pressure);

}  // namespace drumlin::sim::line
