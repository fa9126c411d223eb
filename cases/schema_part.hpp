#pragma once

#include <array>

#include "cases/case.hpp"
#include "cases/schema.hpp"

/// Keys of [part], its coating, its features and their burrs.
namespace drumlin::cases {

inline constexpr auto part_fields = std::to_array<Field<Part>>({
    special<Part>("material", "metal of the sheet, by its name in the material library"),
    quantity("thickness", &Part::thickness, models::dimension::length, 0.05, 100,
             "sheet thickness, coating included")
        .required(),
    quantity("thickness_tolerance", &Part::thickness_tolerance, models::dimension::length, 0, 10,
             "how far the thickness may be off, plus or minus")
        .example("0.07 mm")
        .fallback("0 mm", "no scatter stated"),
    quantity("width", &Part::width, models::dimension::length, 1, 1e4, "extent along the drum")
        .example("300 mm")
        .fallback("300 mm", "an ordinary blank; common practice, no source"),
    quantity("length", &Part::length, models::dimension::length, 1, 2e4, "extent along the feed")
        .example("400 mm")
        .fallback("400 mm", "an ordinary blank; common practice, no source"),
    quantity("bow", &Part::bow, models::dimension::length, 0, 50, "lengthwise arch")
        .example("0.5 mm")
        .unused("bow does not enter the interference yet", 0),
    quantity("angle", &Part::angle, models::dimension::angle, -6.4, 6.4, "turn against the feed")
        .example("15 deg")
        .unused("the part is taken to lie square to the feed", 0),
    special<Part>("coating", "layer on the faces"),
    special<Part>("feature", "edges and openings"),
});

inline constexpr auto coating_fields = std::to_array<Field<Coating>>({
    special<Coating>("material", "layer, by its name in the material library"),
    quantity("thickness", &Coating::thickness, models::dimension::length, 1e-4, 2,
             "thickness on the face that the drum meets")
        .example("20 um"),
    special<Coating>("mass_class", "coating class of both faces together, such as \"Z275\""),
    quantity("split", &Coating::split, models::dimension::number, 0.05, 0.95,
             "share of the class that lies on the face that the drum meets"),
    checked_only<Coating>("oxide", models::dimension::length, 0, 1, "oxide on the cut flanks")
        .example("15 um")
        .unused("oxide on the flanks is not followed yet", 0),
});

inline constexpr auto feature_kinds =
    std::to_array<Choice>({{"outer-edge"}, {"hole"}, {"slot"}, {"stub", false}});
inline constexpr auto sides = std::to_array<Choice>({{"leading"}, {"trailing"}, {"side"}});
inline constexpr auto burr_kinds = std::to_array<Choice>({{"wall"}, {"none"}, {"bead", false}});

inline constexpr auto feature_fields = std::to_array<Field<Feature>>({
    text("name", &Feature::name, "what results call it").required(),
    choice<Feature>(
        "kind", +[](Feature& f, std::size_t i) { f.kind = static_cast<FeatureKind>(i); },
        feature_kinds, "edge or opening")
        .required(),
    quantity("size", &Feature::size, models::dimension::length, 0.05, 5000,
             "diameter of a hole, length of a slot along the feed")
        .example("6 mm"),
    choice<Feature>(
        "side", +[](Feature& f, std::size_t i) { f.side = static_cast<Side>(i); }, sides,
        "edge or rim that carries the burr; without it each of them"),
    special<Feature>("burr", "what stands on the edge"),
});

/// The wall burr's own keys, of which the case must give height and root.
inline constexpr auto wall_burr_fields = [] {
  constexpr auto keys = models::WallBurr::keys();
  std::array<Field<models::WallBurr>, keys.size()> fields{};
  for (std::size_t i = 0; i < keys.size(); ++i) {
    fields[i] = from_law(keys[i]);
    if (keys[i].name == "height") fields[i] = fields[i].required().example("0.15 mm");
    if (keys[i].name == "root") fields[i] = fields[i].required().example("0.15 mm");
    if (keys[i].name == "taper") fields[i] = fields[i].fallback("0 deg", "upright wall");
    if (keys[i].name == "flow_stress") fields[i] = fields[i].example("350 MPa");
  }
  return fields;
}();

}  // namespace drumlin::cases
