#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "models/burr/burr_kinds.hpp"
#include "sim/numerics/cell_row.hpp"

namespace drumlin::sim::line {

/// An edge line in a strip, with the burr on it.
struct StripEdge {
  std::string name;       ///< of the result it feeds; empty for an edge nobody asked about
  std::size_t cell = 0;   ///< outermost cell that is metal
  int metal = 0;          ///< +1: metal towards +x, -1: towards -x
  std::size_t reach = 0;  ///< cells of the burr's footprint, 0 without burr
  models::AnyBurr burr = models::NoBurr{};
};

/// The part's top along one section, cell by cell, as it wears: the state that goes from pass to
/// pass and from station to station. x = feed direction; z = 0 is the nominal, unworn face.
///
/// Cells are a unit wide at edges; elsewhere they may be wider.
///
/// A column is, from the top: burr metal, coating, base metal without end. A punched or sheared
/// burr is drawn from the base metal and carries no coating; nor does the root it leaves behind.
struct Strip {
  std::string name;
  CellRow cells;
  double origin = 0;                ///< x where units are counted from [mm]
  std::vector<double> height;       ///< [mm] mean of the cell
  std::vector<double> burr;         ///< burr metal left [mm]
  std::vector<double> coating;      ///< coating left [mm]
  std::vector<std::uint8_t> metal;  ///< 0: opening, or beyond the part
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
};

}  // namespace drumlin::sim::line
