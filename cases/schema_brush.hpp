#pragma once

#include <array>
#include <optional>

#include "cases/schema_station.hpp"
#include "models/brush/brush.hpp"
#include "models/brush/filament_materials.hpp"

/// Keys of [[station]] of kind "brush": from the laws' own lists, and how it is set.
namespace drumlin::cases {

inline constexpr auto brush_types = std::to_array<Choice>({{"filament"}, {"non-woven"}});
inline constexpr KeyInfo brush_type_info{.name = "type",
                                         .kind = KeyKind::choice,
                                         .meaning = "filaments, or a web of abrasive fibres",
                                         .default_text = "filament",
                                         .default_why = "the usual brush behind a belt",
                                         .choices = brush_types};

/// In the order of BrushArrangement.
inline constexpr auto brush_arrangements =
    std::to_array<Choice>({{"roller"}, {"counter-rotating"}, {"disc"}, {"planetary"}});
inline constexpr KeyInfo brush_arrangement_info{
    .name = "arrangement",
    .kind = KeyKind::choice,
    .meaning = "a roller, two that turn opposite ways, discs on the face, or discs on a carrier",
    .default_text = "roller",
    .default_why = "the usual brush behind a belt",
    .choices = brush_arrangements};

/// Names of the filament materials that are known.
inline constexpr auto filament_names = [] {
  std::array<Choice, models::filament_materials.size()> names{};
  for (std::size_t i = 0; i < names.size(); ++i)
    names[i] = {models::filament_materials[i].name};
  return names;
}();
inline constexpr KeyInfo filament_material_info{.name = "material",
                                                .kind = KeyKind::choice,
                                                .meaning = "what filaments are made of",
                                                .required = true,
                                                .choices = filament_names};

inline constexpr auto brush_fields = std::to_array<Field<BrushStation>>({
    special<BrushStation>("kind", "what the station is"),
    special<BrushStation>("type", brush_type_info.meaning),
    special<BrushStation>("arrangement", brush_arrangement_info.meaning),
    special<BrushStation>("second", "where the second of two counter-rotating rollers differs"),
    special<BrushStation>("disc",
                          "one disc and how many heads of them: arrangement disc, planetary"),
    special<BrushStation>("carrier", "what discs of arrangement planetary are carried by"),
    special<BrushStation>("filament", "one filament: material, diameter, free length"),
    special<BrushStation>("grit", "grain in the filaments or on the web, such as \"P120\""),
    special<BrushStation>("web", "abrasive web on its hub: depth, contact modulus, friction"),
    quantity("penetration", &BrushStation::penetration, models::dimension::length, 0, 20,
             "how far the circle of the free tips of the new brush is set into the face")
        .required()
        .example("1.5 mm"),
    choice<BrushStation>(
        "direction",
        +[](BrushStation& s, std::size_t i) { s.direction = static_cast<Direction>(i); },
        directions, "way the tips run over the part")
        .fallback("with-feed", "tips run as the part does; common practice, no source"),
    quantity("speed_limit", &BrushStation::speed_limit, models::dimension::speed, 100, 1e5,
             "highest speed of the tips that the brush is marked with")
        .example("35 m/s"),
    flag("allow_overspeed", &BrushStation::allow_overspeed,
         "compute the case even above the brush's speed limit"),
});

/// A disc may have its spindle_speed instead.
inline constexpr auto brush_speed_fields = std::to_array<Field<BrushStation>>({
    quantity("speed", &BrushStation::speed, models::dimension::speed, 100, 6e4,
             "speed of the tips of the new brush; of discs at their outer radius, or by their "
             "spindle_speed")
        .example("12 m/s"),
});

/// Numbers of a brush as it has been used up.
inline constexpr auto brush_wear_fields = std::to_array<Field<models::BrushWear>>({
    quantity("worn", &models::BrushWear::radius_loss, models::dimension::length, 0, 400,
             "length of radius that the brush has lost since it was set")
        .example("3 mm"),
    quantity("set", &models::BrushWear::set, models::dimension::number, 0, 0.95,
             "fraction of their working deflection that filaments keep"),
    quantity("make_up", &models::BrushWear::make_up, models::dimension::length, 0, 400,
             "by how much the brush has been moved in again since")
        .example("3 mm"),
});

/// What the second roller of a pair may have of its own, besides its wear.
struct SecondRoller {
  std::optional<double> penetration;  ///< [mm]
};
inline constexpr auto second_roller_fields = std::to_array<Field<SecondRoller>>({
    quantity("penetration", &SecondRoller::penetration, models::dimension::length, 0, 20,
             "how far the second roller is set into the face, where it differs from the first")
        .example("1.5 mm"),
});

inline constexpr models::Dimension turns_per_time{.time = -1};

/// Of `disc = { ... }`: lengths and numbers, and how it is driven.
struct DiscKeys {
  models::DiscBrush brush;
  std::optional<double> spindle_speed;  ///< [1/s]
};
inline constexpr auto disc_turns = std::to_array<Choice>({{"alternating"}, {"alike"}});
inline constexpr auto disc_length_fields = std::to_array<Field<models::DiscBrush>>({
    from_law(models::DiscBrush::keys()[0]).required().example("75 mm"),
    from_law(models::DiscBrush::keys()[1])
        .example("30 mm")
        .fallback("0 mm", "filaments up to the middle"),
    count("heads", &models::DiscBrush::heads, 1, 100, "heads side by side across the feed")
        .fallback("1", "one head on the middle line"),
    from_law(models::DiscBrush::keys()[3]).example("150 mm"),
    choice<models::DiscBrush>(
        "turn", +[](models::DiscBrush& b, std::size_t i) { b.alternating = i == 0; }, disc_turns,
        "whether neighbouring heads turn opposite ways or all alike")
        .fallback("alternating", "common practice, no source"),
});
inline constexpr auto spindle_fields = std::to_array<Field<DiscKeys>>({
    quantity("spindle_speed", &DiscKeys::spindle_speed, turns_per_time, 0.1, 500,
             "turns of a disc about its own axis per time, in place of the speed of its tips")
        .example("1200 rpm")
        .called("a speed of rotation"),
});

/// Of `carrier = { ... }`.
struct CarrierKeys {
  double radius = 0;  ///< [mm]
  double speed = 0;   ///< [1/s]
  int discs = 1;
  bool opposite = true;
};
inline constexpr auto carrier_turns = std::to_array<Choice>({{"opposite"}, {"same"}});
inline constexpr auto carrier_fields = std::to_array<Field<CarrierKeys>>({
    quantity("radius", &CarrierKeys::radius, models::dimension::length, 1, 2000,
             "from the carrier's axis to those of its discs")
        .required()
        .example("150 mm"),
    quantity("speed", &CarrierKeys::speed, turns_per_time, 0, 100, "turns of the carrier per time")
        .required()
        .example("60 rpm")
        .called("a speed of rotation"),
    count("discs", &CarrierKeys::discs, 1, 50, "discs on the carrier").required().example("4"),
    choice<CarrierKeys>(
        "turn", +[](CarrierKeys& c, std::size_t i) { c.opposite = i == 0; }, carrier_turns,
        "whether the carrier turns the way of its discs, as seen from it, or the other")
        .fallback("opposite", "common practice, no source"),
});

inline constexpr auto filament_fields = std::to_array<Field<models::Filament>>({
    special<models::Filament>("material", filament_material_info.meaning),
    from_law(models::Filament::keys()[0]).required().example("1.0 mm"),
    from_law(models::Filament::keys()[1]).required().example("40 mm"),
    from_law(models::Filament::keys()[2]).example("3500 MPa"),
    from_law(models::Filament::keys()[3]).example("1250 kg/m3"),
    from_law(models::Filament::keys()[4]),
});

inline constexpr auto filament_brush_fields = std::to_array<Field<models::FilamentBrush>>({
    from_law(models::FilamentBrush::keys()[0]).required().example("150 mm"),
    from_law(models::FilamentBrush::keys()[1]),
    from_law(models::FilamentBrush::keys()[2]).fallback("0", "filaments evenly spread"),
});

/// Of discs, beside `disc` and `carrier`.
inline constexpr auto disc_fill_fields = std::to_array<Field<models::DiscBrush>>({
    from_law(models::DiscBrush::keys()[2]),
});

/// Of [station.web]; the radius stands with the station's own keys.
inline constexpr auto web_fields = std::to_array<Field<models::NonWovenBrush>>({
    from_law(models::NonWovenBrush::keys()[1]).required().example("40 mm"),
    from_law(models::NonWovenBrush::keys()[2]).example("0.3 MPa"),
    from_law(models::NonWovenBrush::keys()[3]).fallback("0.4", "common practice, no source"),
});
inline constexpr auto web_radius_fields = std::to_array<Field<models::NonWovenBrush>>({
    from_law(models::NonWovenBrush::keys()[0]).required().example("150 mm"),
});

inline constexpr auto abrasion_fields = std::to_array<Field<models::BrushAbrasion>>({
    from_law(models::BrushAbrasion::keys()[0]).example("1e-6 1/MPa"),
    from_law(models::BrushAbrasion::keys()[1]),
    from_law(models::BrushAbrasion::keys()[2])
        .example("1e-9 1/MPa")
        .fallback("0 1/MPa", "wear is not followed unless its coefficient is given"),
    from_law(models::BrushAbrasion::keys()[3]).fallback("1", "wear in proportion to force"),
});

}  // namespace drumlin::cases
