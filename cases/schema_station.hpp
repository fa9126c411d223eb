#pragma once

#include <array>

#include "cases/case.hpp"
#include "cases/schema.hpp"
#include "cases/schema_removal.hpp"

/// Keys of [[station]]: drum, belt and setting.
namespace drumlin::cases {

inline constexpr auto station_kinds =
    std::to_array<Choice>({{"belt"}, {"knock-off"}, {"flip"}, {"brush"}});
inline constexpr KeyInfo station_kind_info{.name = "kind",
                                           .kind = KeyKind::choice,
                                           .meaning = "what the station is",
                                           .required = true,
                                           .choices = station_kinds};
inline constexpr auto directions = std::to_array<Choice>({{"with-feed"}, {"against-feed"}});

inline constexpr auto station_fields = std::to_array<Field<BeltStation>>({
    special<BeltStation>("kind", "what the station is"),
    special<BeltStation>("drum", "rigid hub with its elastic cover"),
    special<BeltStation>("belt", "abrasive belt over the drum"),
    special<BeltStation>("setting", "how the drum is set: interference or line load"),
    quantity("speed", &BeltStation::speed, models::dimension::speed, 100, 6e4, "belt speed")
        .required()
        .example("8 m/s"),
    choice<BeltStation>(
        "direction",
        +[](BeltStation& s, std::size_t i) { s.direction = static_cast<Direction>(i); }, directions,
        "way the belt runs at the nip")
        .fallback("with-feed", "the belt runs as the part does; common practice, no source"),
    quantity("run_out", &BeltStation::run_out, models::dimension::length, 0, 2,
             "drum surface out of true, peak to peak")
        .example("0.05 mm"),
    quantity("frame_compliance", &BeltStation::frame_compliance, models::dimension::per_pressure, 0,
             1, "how far frame and bed give to a line load")
        .example("0.01 mm2/N")
        .called("a give per line load")
        .fallback("0 mm2/N", "rigid; band 0 to 0.01 mm2/N, common practice, no source"),
    flag("allow_overspeed", &BeltStation::allow_overspeed,
         "compute the case even above a speed limit of belt or drum"),
    special<BeltStation>("belt_age",
                         "what the belt has seen: parts, an area or length of sheet, a time of "
                         "running, or a share of its life"),
});

inline constexpr auto drum_fields = std::to_array<Field<Drum>>({
    quantity("radius", &Drum::radius, models::dimension::length, 10, 1000,
             "outer radius, cover included")
        .required()
        .example("100 mm"),
    quantity("cover", &Drum::cover, models::dimension::length, 0.5, 200, "thickness of the cover")
        .required()
        .example("15 mm"),
    quantity("hardness", &Drum::hardness, models::dimension::hardness, 5, 95,
             "hardness of the cover"),
    quantity("modulus", &Drum::modulus, models::dimension::pressure, 0.01, 3e5,
             "Young's modulus of the cover, in place of its hardness")
        .example("1.7 MPa"),
    quantity("poisson", &Drum::poisson_ratio, models::dimension::number, 0, 0.4999,
             "Poisson ratio of the cover")
        .example("0.47"),
    quantity("density", &Drum::density, models::dimension::density, 1e-11, 1e-8,
             "density of the cover")
        .example("1100 kg/m3"),
    quantity("loss_factor", &Drum::loss_factor, models::dimension::number, 0, 3,
             "tan delta of the cover")
        .example("0.15"),
    special<Drum>("cover_material", R"(cover of the library with its measured relaxation)"),
    special<Drum>("relaxation", "relaxation of the cover as measured by the user"),
    quantity("temperature", &Drum::temperature, models::dimension::temperature, 263.15, 393.15,
             "temperature of the cover's surface while it works")
        .example("45 degC"),
    quantity("thermal_expansion", &Drum::thermal_expansion, models::dimension::per_temperature, 0,
             1e-3, "linear thermal expansion of the cover")
        .example("2e-4 1/K"),
    quantity("land_ratio", &Drum::land_ratio, models::dimension::number, 0.05, 1,
             "share of lands on a serrated cover's circumference")
        .example("0.5")
        .fallback("1", "plain cover, not serrated"),
    quantity("land_pitch", &Drum::land_pitch, models::dimension::length, 0.5, 500,
             "distance from land to land")
        .example("12 mm"),
    quantity("wear", &Drum::wear, models::dimension::length, 0, 50,
             "cover worn off since the drum was set: takes that much interference away")
        .example("0.2 mm"),
    quantity("speed_limit", &Drum::speed_limit, models::dimension::speed, 100, 1e5,
             "highest surface speed that the drum is marked with")
        .example("30 m/s"),
});

/// Keys of a knock-off station.
inline constexpr auto knock_off_fields = std::to_array<Field<KnockOffStation>>({
    special<KnockOffStation>("kind", "what the station is"),
    quantity("clearance", &KnockOffStation::clearance, models::dimension::length, 0, 20,
             "between tool and face: what stands higher is struck")
        .example("0.3 mm")
        .fallback("0.3 mm",
                  "clear of the face and below the beads that belts take; common practice, "
                  "no source"),
    quantity("line_force", &KnockOffStation::line_force, models::dimension::line_load, 0.1, 1e4,
             "force per length of edge with which it strikes")
        .example("200 N/mm")
        .fallback("200 N/mm",
                  "a pin of 0.1 kg at 3 m/s, stopped within 0.2 mm, over 10 mm of edge; "
                  "common practice, no source"),
});

/// Of [station.drum.relaxation] and of `relaxation` in the files of covers.
inline constexpr auto relaxation_fields = std::to_array<Field<models::PronySeries>>({
    quantity("relaxed", &models::PronySeries::relaxed, models::dimension::pressure, 1e-4, 1e5,
             "modulus that is left after all time")
        .required()
        .example("2.0 MPa"),
    special<models::PronySeries>("terms", "what relaxes, each part with its time"),
});
inline constexpr auto relaxation_term_fields = std::to_array<Field<models::PronyTerm>>({
    quantity("time", &models::PronyTerm::time, models::dimension::time, 1e-12, 1e9,
             "time in which this part relaxes by e")
        .required()
        .example("0.3 ms"),
    quantity("modulus", &models::PronyTerm::modulus, models::dimension::pressure, 0, 1e6,
             "modulus of this part")
        .required()
        .example("0.94 MPa"),
});

inline constexpr auto belt_fields = std::to_array<Field<Belt>>({
    special<Belt>("grit", R"(grain size with its grading, such as "P120" or "US 120")"),
    special<Belt>("abrasive", "grain: alumina, zirconia, ceramic, silicon-carbide"),
    special<Belt>("backing", "what carries the grain: paper, or cloth J, X, Y"),
    quantity("tension", &Belt::tension, models::dimension::line_load, 0, 50,
             "belt tension per width")
        .example("2 N/mm")
        .fallback("2 N/mm", "within 0.5 to 3 N/mm; common practice, no source"),
    quantity("length", &Belt::length, models::dimension::length, 100, 2e4,
             "length of the belt loop")
        .example("2000 mm")
        .fallback("2000 mm", "an ordinary loop; common practice, no source"),
    special<Belt>("life",
                  "what the belt stands: parts, an area or length of sheet, or a time of "
                  "running; without it by the abrasive's grinding ratio"),
    quantity("worn_share", &Belt::worn_share, models::dimension::number, 0.01, 1,
             "removal coefficient at the end of life over the fresh belt's")
        .example("0.5"),
    quantity("width", &Belt::width, models::dimension::length, 5, 5000, "width of the belt")
        .example("1300 mm"),
    quantity("speed_limit", &Belt::speed_limit, models::dimension::speed, 100, 1e5,
             "highest speed that the belt is marked with")
        .example("30 m/s"),
    flag("wet", &Belt::wet, "whether the belt may run wet; absent: as its backing"),
    choice<Belt>(
        "removal_law", +[](Belt& b, std::size_t i) { b.removal_law = removal_law(i); },
        removal_laws, "how removal goes with pressure")
        .fallback("preston", "a straight line above the threshold"),
    special<Belt>("removal_coefficient", models::Preston::keys()[0].meaning),
    from_law<models::Preston>("threshold_pressure", &Belt::threshold_pressure).example("0.02 MPa"),
    quantity("bending_stiffness", &Belt::bending_stiffness, models::dimension::bending_stiffness, 0,
             1e4, "bending stiffness of the belt per width"),
    quantity("grain_compliance", &Belt::grain_compliance, models::dimension::compliance, 0, 1,
             "how far grains give under pressure"),
    quantity("mass", &Belt::mass, models::dimension::area_density, 0, 1e-8,
             "mass of the whole belt per area")
        .example("1 kg/m2"),
    quantity("grain_spacing", &Belt::grain_spacing, models::dimension::length, 0, 50,
             "mean distance between grains that cut; 0: force spread evenly")
        .example("0.5 mm"),
    quantity("thickness_change", &Belt::thickness_change, models::dimension::length, -5, 5,
             "how much thicker the belt is than the one that the drum was set with, negative: "
             "thinner")
        .example("-0.1 mm"),
});
inline constexpr KeyInfo removal_coefficient = law_info<models::Preston>("removal_coefficient");
/// Of [station.belt], those of every removal law included.
[[nodiscard]] inline std::vector<KeyInfo> belt_keys() {
  std::vector<KeyInfo> keys = infos(belt_fields);
  for (KeyInfo& key : keys)
    if (key.name == removal_coefficient.name) key = removal_coefficient;
  for (const KeyInfo& key : removal_law_keys())
    keys.push_back(key);
  return keys;
}

inline constexpr auto interference_fields = std::to_array<Field<InterferenceSetting>>({
    quantity("interference", &InterferenceSetting::interference, models::dimension::length, 0, 50,
             "how far the drum is set into the top of the part")
        .example("0.5 mm"),
});
inline constexpr auto line_load_fields = std::to_array<Field<LineLoadSetting>>({
    quantity("line_load", &LineLoadSetting::line_load, models::dimension::line_load, 1e-3, 500,
             "force of the drum per width, in the steady wearing pass")
        .example("0.5 N/mm"),
});

}  // namespace drumlin::cases
