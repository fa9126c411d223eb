#pragma once

#include <array>

#include "cases/case.hpp"
#include "cases/schema.hpp"
#include "cases/schema_part.hpp"

/// Keys of the top of the file, [conveyor], [environment], [accept], [numerics].
namespace drumlin::cases {

inline constexpr auto top_fields = std::to_array<Field<Case>>({
    text("title", &Case::title, "what the case is about"),
    count("seed", &Case::seed, 0, 2147483647, "seed of every random draw")
        .fallback("0", "nothing is drawn at random in a single run"),
    special<Case>("part", "the sheet-metal part"),
    special<Case>("station", "stations in the order of the line"),
    special<Case>("conveyor", "what carries the part"),
    special<Case>("cost", "prices"),
    special<Case>("environment", "surroundings of the process"),
    special<Case>("accept", "what the customer accepts"),
    special<Case>("numerics", "how the answer is computed"),
    special<Case>("uncertainty", "how keys scatter from part to part"),
});

inline constexpr auto conveyor_fields = std::to_array<Field<Conveyor>>({
    quantity("speed", &Conveyor::speed, models::dimension::speed, 0.5, 2000, "feed")
        .required()
        .example("3 m/min"),
    count("passes", &Conveyor::passes, 1, 100, "times the part goes through the whole line")
        .fallback("1", "one pass"),
    count("lanes", &Conveyor::lanes, 1, 100, "parts side by side, as they lie"),
    quantity("gap", &Conveyor::gap, models::dimension::length, 0, 1e5,
             "distance between parts, along and across")
        .example("50 mm"),
    quantity("station_spacing", &Conveyor::station_spacing, models::dimension::length, 0, 1e5,
             "distance from one station to the next, in which the part cools")
        .example("600 mm")
        .fallback("600 mm", "common practice, no source; only the part's cooling depends on it"),
    quantity("pass_interval", &Conveyor::pass_interval, models::dimension::time, 0, 1e6,
             "time from the end of the line to its start again, in which the part cools")
        .example("60 s")
        .fallback("60 s", "common practice, no source; only the part's cooling depends on it"),
    special<Conveyor>("grip", "friction, dry and wet, and suction"),
});

inline constexpr auto coolings = std::to_array<Choice>({{"dry"}, {"wet"}});
inline constexpr auto environment_fields = std::to_array<Field<Case>>({
    choice<Case>(
        "cooling", +[](Case& c, std::size_t i) { c.cooling = static_cast<Cooling>(i); }, coolings,
        "dry or wet")
        .fallback("dry", "no fluid stated"),
    special<Case>("other_metals", "metals that run on the same line before or after, by name"),
    quantity("temperature", &Case::room_temperature, models::dimension::temperature, 263.15, 333.15,
             "temperature of air, fluid and incoming part")
        .example("20 degC")
        .fallback("20 degC", "usual in a workshop"),
});

constexpr KeyInfo limit(std::string_view name, const models::Dimension& dimension, double low,
                        double high, std::string_view meaning, std::string_view example) {
  return {name, KeyKind::limit, dimension, low, high, meaning, example};
}
/// Quantities that a customer may set limits for.
inline constexpr auto accept_keys = std::to_array<KeyInfo>({
    limit("burr_height", models::dimension::length, -20, 20,
          "highest point over the burr's footprint, above the worn face", "<= 0.03 mm"),
    limit("secondary_burr", models::dimension::length, 0, 20,
          "burr folded beyond the edge or into the hole", "<= 0.05 mm"),
    limit("edge_radius", models::dimension::length, 0, 100, "radius of the edge", ">= 0.2 mm"),
    limit("edge_size", models::dimension::length, -20, 20,
          "size of the edge as ISO 13715 states it: material missing negative, burr positive",
          "-0.3..-0.05 mm"),
    limit("minimum_radius", models::dimension::length, 0, 100,
          "smallest local radius of the worn edge", ">= 0.1 mm"),
    limit("flank_oxide", models::dimension::number, 0, 1,
          "share of the flank that still carries its oxide", "<= 5 %"),
    limit("top_left", models::dimension::length, 0, 2, "layer over the coating that is left",
          ">= 40 um"),
    limit("protrusion", models::dimension::length, 0, 20, "how far a stub sticks out of the edge",
          "<= 0.3 mm"),
    limit("edge_drop", models::dimension::length, -20, 20,
          "how far the profile at the edge line lies below the worn face", "0.02..0.20 mm"),
    limit("coating_left", models::dimension::length, 0, 2, "coating that is left", ">= 9 um"),
    limit("bare_length", models::dimension::length, 0, 1000,
          "bare metal from the edge line inwards", "<= 0.5 mm"),
    limit("face_removal", models::dimension::length, 0, 20, "depth that the face loses",
          "<= 10 um"),
    limit("roughness", models::dimension::length, 0, 1, "Ra of the face", "<= 1.6 um"),
    limit("temperature", models::dimension::temperature, 0, 3000, "highest temperature of the part",
          "<= 60 degC"),
    limit("belt_life", models::dimension::time, 0, 1e8, "running time that every belt lasts",
          ">= 8 h"),
    limit("peak_pressure", models::dimension::pressure, 0, 1e5, "highest contact pressure",
          "<= 2 MPa"),
});

inline constexpr auto accept_feature_fields = std::to_array<Field<FeatureLimits>>({
    special<FeatureLimits>("name", "the feature of that name"),
    choice<FeatureLimits>(
        "kind", +[](FeatureLimits& l, std::size_t i) { l.kind = static_cast<FeatureKind>(i); },
        feature_kinds, "features of that kind"),
    choice<FeatureLimits>(
        "side", +[](FeatureLimits& l, std::size_t i) { l.side = static_cast<Side>(i); }, sides,
        "edges or rims of that side"),
    quantity("beyond", &FeatureLimits::beyond, models::dimension::length, 0, 1000,
             "coating counts from this distance to the edge on")
        .example("2 mm"),
});

inline constexpr auto model_choices = std::to_array<Choice>({{"fast"}, {"line"}, {"patch", false}});
inline constexpr auto geometry_choices = std::to_array<Choice>({{"drum"}, {"flat"}});
inline constexpr auto motion_choices = std::to_array<Choice>({{"moving"}, {"static"}});
inline constexpr auto grip_choices = std::to_array<Choice>({{"stick"}, {"slip"}});
inline constexpr auto strain_choices = std::to_array<Choice>({{"finite"}, {"linear"}});
inline constexpr auto grid_choices = std::to_array<Choice>({{"nested"}, {"single"}});

/// Beside the paths of the keys that scatter.
inline constexpr auto uncertainty_fields = std::to_array<Field<Uncertainty>>({
    count("size", &Uncertainty::size, 2, 16384,
          "points of one set of draws; a power of two is best")
        .fallback("256", "512 draws tell a probability within 5 %"),
    count("seed", &Uncertainty::seed, 0, 2147483647, "seed of every draw")
        .fallback("1", "our choice; another one shows what chance does"),
    choice<Uncertainty>("model", &Uncertainty::model, model_choices, "fidelity of the draws")
        .fallback("fast", "draws are thousands of runs; line takes minutes for them"),
});

inline constexpr auto numerics_fields = std::to_array<Field<Numerics>>({
    choice<Numerics>("model", &Numerics::model, model_choices, "fidelity")
        .fallback("line", "a section resolved in space; fast is for many cases"),
    choice<Numerics>("cover_geometry", &Numerics::cover_geometry, geometry_choices,
                     "cover as a flat layer or as a drum")
        .fallback("drum", "a flat layer carries 5 to 16 % more line load than the drum"),
    choice<Numerics>("cover_motion", &Numerics::cover_motion, motion_choices,
                     "cover at rest or running through the nip")
        .fallback("moving", "the cover runs through the nip at belt speed"),
    choice<Numerics>("belt_grip", &Numerics::belt_grip, grip_choices,
                     "whether the cover slides freely under the belt")
        .fallback("stick", "a friction of 0.1 between belt and cover is enough to hold it"),
    choice<Numerics>("cover_strain", &Numerics::cover_strain, strain_choices,
                     "small or finite strain of the cover")
        .fallback("finite", "linear elasticity is low: 4.6 % at a twentieth of the cover"),
    quantity("resolution", &Numerics::resolution, models::dimension::length, 5e-4, 1,
             "distance of points at a feature")
        .example("5 um")
        .fallback("5 um", "resolves a burr root of 0.05 mm by ten points"),
    count("steps", &Numerics::steps, 20, 100000, "steps of a pass over a feature")
        .fallback("400", "our choice, no source"),
    quantity("window", &Numerics::window, models::dimension::length, 10, 5000,
             "length of the periodic window")
        .example("160 mm"),
    choice<Numerics>("grid", &Numerics::grid, grid_choices,
                     "coarse cells with a fine window at the feature, or one even grid")
        .fallback("nested", "a single even grid is the reference for it and takes longer"),
    flag("bands", &Numerics::bands, "whether bands are computed")
        .fallback("true", "every prediction carries its band"),
});

}  // namespace drumlin::cases
