#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_cost.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// Steel on the rubber of a conveyor, clean and dressed; a hardened, slick surface grips less.
const Sourced usual_dry{0.6, 0.4, 0.8,
                        "steel on a rubber conveyor, dry 0.4 to 0.8; common practice, no source"};
const Sourced usual_wet{0.3, 0.2, 0.5,
                        "steel on a rubber conveyor, wet 0.2 to 0.5; common practice, no source"};

Sourced as_given(double friction) {
  return {friction, friction, friction, "case"};
}

Sourced read_friction(const Section& section, std::string_view key, const Sourced& usual,
                      std::optional<double> both) {
  const auto own = read_quantity(section, info_of(grip_fields, key));
  if (own) return as_given(*own);
  if (both) return as_given(*both);
  section.note_default(key, units::format_number(usual.value), usual.source);
  return usual;
}

Grip read_table(const Section& section) {
  Grip grip;
  section.refuse_unknown(infos(grip_fields));
  const auto both = read_quantity(section, info_of(grip_fields, "friction"));
  for (const std::string_view one : {"friction_dry", "friction_wet"})
    if (section.given("friction") && section.given(one))
      section.problem_at_key("friction", fmt::format("give friction or {}, not both", one));
  grip.friction_dry = read_friction(section, "friction_dry", usual_dry, both);
  grip.friction_wet = read_friction(section, "friction_wet", usual_wet, both);
  read_field(section, grip_fields.back(), grip);
  return grip;
}

}  // namespace

Grip read_grip(const Section& conveyor) {
  const Node* node = conveyor.find("grip");
  if (node != nullptr && node->kind != Node::Kind::table) {
    KeyInfo friction = info_of(grip_fields, "friction");
    friction.name = "grip";
    const auto both = read_quantity(conveyor, friction);
    return {as_given(both.value_or(0)), as_given(both.value_or(0)), 0};
  }
  const Node empty{};
  return read_table(node != nullptr ? *conveyor.open("grip")
                                    : Section(empty, conveyor.path("grip"), conveyor.findings()));
}

}  // namespace drumlin::cases
