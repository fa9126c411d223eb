#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

struct Measure {
  models::Dimension dimension;
  Amount::Of of;
};
constexpr auto measures = std::to_array<Measure>({
    {models::dimension::parts, Amount::Of::parts},
    {models::dimension::area, Amount::Of::area},
    {models::dimension::length, Amount::Of::length},
    {models::dimension::time, Amount::Of::time},
    {models::dimension::number, Amount::Of::life},
});

}  // namespace

std::optional<Amount> read_amount(const Section& section, std::string_view key,
                                  bool share_of_life) {
  const Node* node = section.find(key);
  if (node == nullptr) return std::nullopt;
  const std::string expected =
      fmt::format("expected parts, an area, a length{} such as \"8000 parts\"",
                  share_of_life ? ", a time or a share of its life," : " or a time,");
  if (node->kind != Node::Kind::string) {
    section.problem_at_value(key, fmt::format("{}; got {}", expected, kind_name(node->kind)));
    return std::nullopt;
  }
  try {
    const auto amount = units::parse(node->text);
    const auto* measure = std::find_if(measures.begin(), measures.end(), [&](const Measure& m) {
      return m.dimension == amount.unit.dimension && (share_of_life || m.of != Amount::Of::life) &&
             !amount.unit.symbol.empty();
    });
    if (measure == measures.end())
      section.problem_at_value(key, fmt::format("{} is {}; {}", in_quotes(node->text),
                                                units::name(amount.unit.dimension), expected));
    else if (amount.value < 0)
      section.problem_at_value(key, fmt::format("{} is negative", in_quotes(node->text)));
    else
      return Amount{measure->of, amount.value};
  } catch (const units::UnitError& error) {
    section.problem_at_value(key, error.what());
  }
  return std::nullopt;
}

void read_belt_wear(const Section& station_section, const Reading& reading, BeltStation& station) {
  Belt& belt = station.belt;
  station.belt_age = read_amount(station_section, "belt_age", true);
  if (station.belt_age && station.belt_age->of == Amount::Of::life && station.belt_age->value > 1)
    station_section.problem_at_value("belt_age", "a belt has no more than 100 % of its life");
  if (const auto usual =
          look_up(station_section, "belt", [&] { return reading.library.belt_wear(); }))
    belt.wear = *usual;
  const auto section = station_section.open("belt");
  if (!section) return;
  belt.life = read_amount(*section, "life", false);
  if (belt.life && belt.life->value <= 0)
    section->problem_at_value("life", "must be greater than zero");
  if (belt.worn_share)
    belt.wear.worn_share = {*belt.worn_share, *belt.worn_share, *belt.worn_share, "case"};
}

}  // namespace drumlin::cases
