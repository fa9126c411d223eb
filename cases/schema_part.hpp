#pragma once

#include <array>

#include "cases/case.hpp"
#include "cases/schema.hpp"
#include "cases/schema_burr.hpp"

/// Keys of [part], its coating and its features.
namespace drumlin::cases {

inline constexpr auto burr_sides = std::to_array<Choice>({{"up"}, {"down"}});

inline constexpr auto part_fields = std::to_array<Field<Part>>({
    special<Part>("material", "metal of the sheet, by its name in the material library"),
    quantity("thickness", &Part::thickness, models::dimension::length, 0.05, 100,
             "sheet thickness, coating included")
        .required(),
    quantity("set_thickness", &Part::set_thickness, models::dimension::length, 0.05, 100,
             "thickness of the sheet that drums and brushes were set to; another one meets them as "
             "interference")
        .example("1.5 mm"),
    quantity("thickness_tolerance", &Part::thickness_tolerance, models::dimension::length, 0, 10,
             "how far the thickness may be off, plus or minus")
        .example("0.07 mm")
        .bounds("part.thickness")
        .fallback("0 mm", "no scatter stated"),
    quantity("width", &Part::width, models::dimension::length, 1, 1e4, "extent along the drum")
        .example("300 mm")
        .fallback("300 mm", "an ordinary blank; common practice, no source"),
    quantity("length", &Part::length, models::dimension::length, 1, 2e4, "extent along the feed")
        .example("400 mm")
        .fallback("400 mm", "an ordinary blank; common practice, no source"),
    quantity(
        "bow", &Part::bow, models::dimension::length, 0, 50,
        "lengthwise arch that is left once the hold-down and the drum have flattened the part, "
        "plus or minus; felt as interference")
        .example("0.2 mm")
        .bounds("part.lift"),
    quantity(
        "lift", &Part::lift, models::dimension::length, -10, 10,
        "how much higher than a flat part's the face of this one lies under the tools, from bow "
        "or dirt beneath it; below zero: lower; felt as interference")
        .example("0.05 mm")
        .fallback("0 mm", "a part that lies flat"),
    quantity("angle", &Part::angle, models::dimension::angle, -6.4, 6.4, "turn against the feed")
        .example("15 deg"),
    choice<Part>(
        "burr_side", +[](Part& p, std::size_t i) { p.burr_side = static_cast<BurrSide>(i); },
        burr_sides, "which way the burrs point when the part enters the line")
        .fallback("up", "burrs towards the first tool; common practice, no source"),
    quantity("roughness", &Part::roughness, models::dimension::length, 1e-6, 1,
             "Ra of the faces before the line")
        .example("1.2 um"),
    special<Part>("coating", "layer on the faces, oxide on the flanks"),
    special<Part>("feature", "edges and openings"),
});

inline constexpr auto coating_fields = std::to_array<Field<Coating>>({
    special<Coating>("material", "layer, by its name in the material library"),
    quantity("thickness", &Coating::thickness, models::dimension::length, 1e-4, 2,
             "thickness on the face that carries the burrs")
        .example("20 um"),
    special<Coating>("mass_class", "coating class of both faces together, such as \"Z275\""),
    quantity("split", &Coating::split, models::dimension::number, 0.05, 0.95,
             "share of the class that lies on the face that carries the burrs"),
    quantity("reverse_thickness", &Coating::reverse_thickness, models::dimension::length, 0, 2,
             "thickness on the other face")
        .example("20 um"),
    quantity("bare_below", &Coating::bare_below, models::dimension::length, 0, 1,
             "coating thinner than this counts as bare")
        .example("0.05 um")
        .fallback("0.05 um",
                  "a hundredth of the thinnest coating class, well below what a coating "
                  "gauge reads; common practice, no source"),
    special<Coating>("top", "layer over the coating, such as a primer"),
    special<Coating>("oxide", "oxide film on the cut flanks"),
});
/// The flanks' oxide belongs to the part: it may be there without any layer on the faces.
inline constexpr auto oxide_fields = std::to_array<Field<Part>>({
    quantity("oxide", &Part::flank_oxide, models::dimension::length, 0, 1,
             "oxide film on the cut flanks")
        .example("15 um"),
});

inline constexpr auto top_layer_fields = std::to_array<Field<TopLayer>>({
    special<TopLayer>("material", "layer, by its name in the material library"),
    quantity("thickness", &TopLayer::thickness, models::dimension::length, 1e-4, 2,
             "thickness on either face")
        .required()
        .example("60 um"),
});

inline constexpr auto feature_kinds =
    std::to_array<Choice>({{"outer-edge"}, {"hole"}, {"slot"}, {"stub"}});
inline constexpr auto sides = std::to_array<Choice>({{"leading"}, {"trailing"}, {"side"}});

inline constexpr auto feature_fields = std::to_array<Field<Feature>>({
    text("name", &Feature::name, "what results call it").required(),
    choice<Feature>(
        "kind", +[](Feature& f, std::size_t i) { f.kind = static_cast<FeatureKind>(i); },
        feature_kinds, "edge or opening")
        .required(),
    quantity("size", &Feature::size, models::dimension::length, 0.05, 5000,
             "diameter of a hole, length of a slot along the feed, width of a stub along its edge")
        .example("6 mm"),
    choice<Feature>(
        "side", +[](Feature& f, std::size_t i) { f.side = static_cast<Side>(i); }, sides,
        "edge or rim that carries the burr; without it each of them"),
    quantity("along", &Feature::along, models::dimension::length, 0, 2e4,
             "centre of a hole or slot, from the leading edge")
        .example("50 mm"),
    quantity("across", &Feature::across, models::dimension::length, -5000, 5000,
             "centre of a hole or slot, from the middle line, positive to the left seen along the "
             "feed")
        .example("0 mm"),
    special<Feature>("burr", "what stands on the edge"),
});

}  // namespace drumlin::cases
