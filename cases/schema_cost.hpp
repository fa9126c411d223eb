#pragma once

#include <array>

#include "cases/cost.hpp"
#include "cases/schema.hpp"

/// Keys of [conveyor.grip] and [cost].
namespace drumlin::cases {

inline constexpr auto grip_fields = std::to_array<Field<Grip>>({
    checked_only<Grip>("friction", models::dimension::number, 0, 3,
                       "friction coefficient of parts on the conveyor, dry and wet alike"),
    checked_only<Grip>("friction_dry", models::dimension::number, 0, 3,
                       "dry friction coefficient of parts on the conveyor"),
    checked_only<Grip>("friction_wet", models::dimension::number, 0, 3,
                       "wet friction coefficient of parts on the conveyor"),
    quantity("suction", &Grip::suction, models::dimension::pressure, 0, 0.1,
             "pressure of the suction bed")
        .example("2 kPa"),
});

inline constexpr models::Dimension money_per_time{.time = -1, .money = 1};
inline constexpr models::Dimension money_per_energy{
    .length = -2, .mass = -1, .time = 2, .money = 1};
inline constexpr models::Dimension money_per_area{.length = -2, .money = 1};

/// No price is higher than so many thousand million of any currency, per hour, kWh or piece.
inline constexpr double most_money = 1e9;
inline constexpr double hour = 3600;            ///< [s]
inline constexpr double kilowatt_hour = 3.6e9;  ///< [mJ]
inline constexpr double square_metre = 1e6;     ///< [mm^2]

inline constexpr auto cost_fields = std::to_array<Field<Cost>>({
    quantity("line_rate", &Cost::line_rate, money_per_time, 0, most_money / hour,
             "cost of the line by the hour")
        .example("90 EUR/h"),
    quantity("labour", &Cost::labour, money_per_time, 0, most_money / hour,
             "cost of the people at the line by the hour, where line_rate has it not")
        .example("40 EUR/h"),
    special<Cost>("belt", "price of a belt, or a table of price and life, or a list of them"),
    special<Cost>("brush", "price of a brush set, or a table of price and life, or a list of them"),
    quantity("power", &Cost::power, money_per_energy, 0, most_money / kilowatt_hour,
             "price of power")
        .example("0.25 EUR/kWh"),
    quantity("fluid", &Cost::fluid, money_per_time, 0, most_money / hour,
             "cost of fluid by the hour, while the line runs wet")
        .example("0.80 EUR/h"),
    special<Cost>("rework", "cost of reworking a part, or a table of price and share"),
});

inline constexpr auto tool_price_fields = std::to_array<Field<ToolPrice>>({
    quantity("price", &ToolPrice::price, models::dimension::money, 0, most_money,
             "price of the tool; of a belt also by its area")
        .example("120 EUR"),
    quantity("life", &ToolPrice::life, models::dimension::parts, 1, 1e9,
             "parts until it is changed")
        .example("8000 parts"),
});

inline constexpr auto rework_fields = std::to_array<Field<Rework>>({
    quantity("price", &Rework::price, models::dimension::money, 0, most_money,
             "what it costs to work a part again")
        .example("1.20 EUR"),
    quantity("cost", &Rework::price, models::dimension::money, 0, most_money, "the same as price")
        .example("1.20 EUR"),
    quantity("share", &Rework::share, models::dimension::number, 0, 1,
             "share of the parts that is worked again")
        .example("0.04"),
});

}  // namespace drumlin::cases
