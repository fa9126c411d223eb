#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "cases/case.hpp"
#include "sim/fast/section.hpp"

namespace drumlin::sim::fast {

/// One face of the part: the plain face and one section per edge or opening that a plane normal to
/// the drum's axis shows.
struct Face {
  PlainFace plain;
  std::vector<Section> sections;
  /// Per section the first that was cut alike, itself where there is none: what a tool does to the
  /// one it does to the other, whatever their names.
  std::vector<std::size_t> alike;
};

/// Puts what has become of a section into one that was cut alike; names stay.
void follow(const Section& worn, Section& alike);

/// The part between two stations: the same object goes through all stations and passes.
struct Part {
  Face burrs;                   ///< the face that carries the burrs
  std::optional<Face> reverse;  ///< the other, where a tool of the line meets it
  bool burrs_up = true;

  /// The face that lies up; throws std::bad_optional_access if that is a face nobody cut.
  [[nodiscard]] Face& up() { return burrs_up ? burrs : reverse.value(); }
};

/// Cuts the sections of one face, unworn, with every edge as it is fed. Edges fed as a side have
/// none.
///
/// @param cut    how finely; its layers are set from the part.
/// @param side   the edges of the reverse carry no burrs.
[[nodiscard]] Face unworn_part_face(const cases::Part& part, SectionCut cut, FaceSide side);

/// Widest footprint of a part's burrs on the face [mm].
[[nodiscard]] double widest_footprint(const cases::Part& part);

}  // namespace drumlin::sim::fast
