#pragma once

#include <array>

#include "cases/material.hpp"
#include "cases/schema.hpp"

/// Keys of the files of the material library: metals and layers, abrasives, backings.
namespace drumlin::cases {

inline constexpr auto material_fields = std::to_array<Field<Material>>({
    text("description", &Material::description, "what it is, in one line").required(),
    text("family", &Material::family, "steel, stainless, aluminium, zinc, oxide or polymer")
        .required(),
    sourced("density", &Material::density, models::dimension::density, 1e-10, 3e-8, "density")
        .required()
        .example("7850 kg/m3"),
    sourced("specific_energy", &Material::specific_energy, models::dimension::specific_energy, 500,
            5e5, "energy per removed volume, sharp belt")
        .required()
        .example("16 J/mm3"),
    sourced("yield_stress", &Material::yield_stress, models::dimension::pressure, 5, 5000,
            "yield stress of the sheet")
        .example("235 MPa"),
    sourced("bond_strength", &Material::bond_strength, models::dimension::pressure, 0.1, 2000,
            "strength of the bond to a cut edge, of dross and slag")
        .example("100 MPa"),
    sourced("roughness", &Material::roughness, models::dimension::length, 1e-6, 1,
            "Ra of its face as delivered")
        .example("1.2 um"),
    sourced("clogging", &Material::clogging, models::dimension::number, 0, 0.99,
            "share of a belt's bite that is lost once its gaps are clogged with this metal")
        .example("0.4"),
    sourced("conductivity", &Material::conductivity, models::dimension::conductivity, 0.01, 1000,
            "thermal conductivity")
        .example("50 W/m/K"),
    sourced("specific_heat", &Material::specific_heat, models::dimension::specific_heat, 1e7, 1e10,
            "heat per mass and temperature")
        .example("480 J/kg/K"),
    sourced("melting_point", &Material::melting_point, models::dimension::temperature, 300, 5000,
            "temperature at which it begins to melt")
        .example("1500 degC"),
});

inline constexpr auto abrasive_fields = std::to_array<Field<Abrasive>>({
    special<Abrasive>("description", "what it is, in one line"),
    sourced("friction", &Abrasive::friction, models::dimension::number, 0.01, 2,
            "tangential over normal force, dry")
        .required()
        .example("0.4"),
    sourced("friction_wet", &Abrasive::friction_wet, models::dimension::number, 0.01, 2,
            "tangential over normal force, wet")
        .required()
        .example("0.3"),
    sourced("threshold_pressure", &Abrasive::threshold_pressure, models::dimension::pressure, 0, 10,
            "pressure below which grains rub without cutting")
        .required()
        .example("0.02 MPa"),
    sourced("grinding_ratio", &Abrasive::grinding_ratio, models::dimension::number, 0.1, 1e4,
            "metal removed over abrasive worn in the life of a belt")
        .example("20"),
});

inline constexpr auto backing_fields = std::to_array<Field<Backing>>({
    special<Backing>("description", "what it is, in one line"),
    sourced("bending_stiffness", &Backing::bending_stiffness, models::dimension::bending_stiffness,
            0, 1e4, "bending stiffness of the belt per width")
        .required(),
    sourced("mass", &Backing::mass, models::dimension::area_density, 1e-11, 1e-8,
            "mass of the whole belt per area")
        .required()
        .example("1 kg/m2"),
    sourced("bead_height", &Backing::bead_height, models::dimension::length, 0, 20,
            "highest bead of dross or slag that such a belt takes without tearing")
        .example("0.5 mm"),
    flag("wet", &Backing::wet, "whether such a belt may run wet"),
});

inline constexpr models::Dimension frequency{.time = -1};
inline constexpr auto cover_fields = std::to_array<Field<CoverMaterial>>({
    text("description", &CoverMaterial::description, "what it is, in one line").required(),
    text("source", &CoverMaterial::source, "where the numbers come from").required(),
    text("caveats", &CoverMaterial::caveats, "what not to read from them").required(),
    quantity("reference_temperature", &CoverMaterial::reference_temperature,
             models::dimension::temperature, 200, 500, "temperature that the series belongs to")
        .required()
        .example("25 degC"),
    quantity("slowest", &CoverMaterial::slowest, frequency, 1e-9, 1e9,
             "lowest frequency that the series stands for")
        .required(),
    quantity("fastest", &CoverMaterial::fastest, frequency, 1e-9, 1e9,
             "highest frequency that the series stands for")
        .required(),
    sourced("poisson", &CoverMaterial::poisson, models::dimension::number, 0, 0.4999,
            "Poisson ratio")
        .required()
        .example("0.47"),
    sourced("density", &CoverMaterial::density, models::dimension::density, 1e-11, 1e-8, "density")
        .required()
        .example("1100 kg/m3"),
    special<CoverMaterial>("relaxation", "what relaxes, each part with its time"),
    special<CoverMaterial>("shift", "how far times move with temperature"),
});
inline constexpr auto shift_fields = std::to_array<Field<ShiftPoint>>({
    quantity("temperature", &ShiftPoint::temperature, models::dimension::temperature, 200, 500,
             "temperature of the sample")
        .required()
        .example("25 degC"),
    quantity("log10", &ShiftPoint::log10_shift, models::dimension::number, -12, 12,
             "decades by which times grow")
        .required(),
});

/// Keys of a value with its band.
inline constexpr auto sourced_keys =
    std::to_array<std::string_view>({"value", "low", "high", "source"});

}  // namespace drumlin::cases
