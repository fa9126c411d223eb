#pragma once

#include <array>

#include <vtkDataArray.h>
#include <vtkInformation.h>
#include <vtkInformationStringKey.h>

namespace drumlin::viz {

/// Unit and meaning of every array of a frame; the names carry the units as well.
struct ArrayKey {
  const char* name;
  const char* unit;
  const char* meaning;
};
inline constexpr ArrayKey pressure_key{
    "pressure [MPa]", "MPa", "contact pressure of the belt, drawn in a skin at the contact"};
inline constexpr ArrayKey coating_key{
    "coating left [um]", "um", "thickness of the coating left at this place; none off the part"};
inline constexpr ArrayKey worn_key{"worn away [um]", "um",
                                   "depth lost since the start at this place; none off the part"};
inline constexpr ArrayKey layer_key{
    "layer [1]", "1",
    "kind of cell: 0 bare metal, 1 coating, 2 elastic cover, 3 face of "
    "the belt, 4 profile before the first pass, 5 burr"};
inline constexpr ArrayKey stretch_key{"z stretch [1]", "1",
                                      "factor on heights z; divide z by it for mm"};
inline constexpr ArrayKey drum_key{"drum x [mm]", "mm", "place of the drum's axis along the feed"};
inline constexpr ArrayKey load_key{"line load [N per mm]", "N/mm", "line load of the drum"};
inline constexpr ArrayKey time_key{"time [s]", "s",
                                   "time of the pass, counted on through all passages"};
inline constexpr ArrayKey passage_key{
    "time in this passage [s]", "s",
    "time since the drum came into reach in this pass and station"};
inline constexpr ArrayKey pass_key{"pass [1]", "1", "pass over the whole line, counted from 1"};
inline constexpr ArrayKey station_key{"station [1]", "1", "station of the line, counted from 1"};
inline constexpr std::array all_keys{pressure_key, coating_key, worn_key,   layer_key,
                                     stretch_key,  drum_key,    load_key,   time_key,
                                     passage_key,  pass_key,    station_key};

/// Gives an array its name and its unit.
inline void name(vtkDataArray& array, const ArrayKey& key) {
  array.SetName(key.name);
  array.GetInformation()->Set(vtkDataArray::UNITS_LABEL(), key.unit);
}

}  // namespace drumlin::viz
