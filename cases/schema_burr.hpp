#pragma once

#include <array>
#include <variant>
#include <vector>

#include "cases/schema.hpp"
#include "models/burr/burr_keys.hpp"

/// Keys of burrs, kind by kind, from the laws' own lists: a kind that is registered in
/// models::AnyBurr is read, shown and tested without another word here.
namespace drumlin::cases {

/// Where a number comes from that the case leaves out.
enum class BurrDefault {
  none,         ///< the case must give it
  neutral,      ///< zero: nothing of the kind
  metal,        ///< the part's metal
  dross,        ///< dross or slag of the library
  half_circle,  ///< twice the height
};

/// What is known of a burr's number beyond its law's key: how one would write it, and where it
/// comes from if the case does not say.
struct BurrNumber {
  std::string_view name;
  std::string_view example;
  BurrDefault otherwise = BurrDefault::none;
  std::string_view default_text{};
  std::string_view default_why{};
};
inline constexpr auto burr_numbers = std::to_array<BurrNumber>({
    {"height", "0.15 mm"},
    {"root", "0.15 mm"},
    {"taper", "5 deg", BurrDefault::neutral, "0 deg", "upright wall"},
    {"flow_stress", "350 MPa", BurrDefault::metal},
    {"overhang", "0.1 mm"},
    {"thickness", "0.05 mm"},
    {"width", "1 mm", BurrDefault::half_circle},
    {"specific_energy", "25 J/mm3", BurrDefault::dross},
    {"bond_strength", "100 MPa", BurrDefault::dross},
    {"protrusion", "0.5 mm"},
});

/// Another word for a number of one kind.
struct BurrAlias {
  std::string_view kind;
  std::string_view word;
  std::string_view key;
};
inline constexpr auto burr_aliases = std::to_array<BurrAlias>({{"bead", "root", "width"}});

/// Names of the kinds, in the order of the variant.
inline constexpr auto burr_kinds = []<class... Burrs>(const std::variant<Burrs...>*) {
  return std::to_array<Choice>({{Burrs::name}...});
}(static_cast<const models::AnyBurr*>(nullptr));

/// The kind's own keys, as the reader takes them; none for an edge cut clean.
template <class Burr>
[[nodiscard]] std::vector<KeyInfo> burr_keys() {
  std::vector<KeyInfo> keys;
  if constexpr (models::HasKeys<Burr>) {
    for (const auto& key : Burr::keys()) {
      KeyInfo info{key.name, KeyKind::quantity, key.dimension, key.low, key.high, key.meaning};
      info.required = true;
      for (const BurrNumber& number : burr_numbers) {
        if (number.name != key.name) continue;
        info.example = number.example;
        info.required = number.otherwise == BurrDefault::none;
        info.default_text = number.default_text;
        info.default_why = number.default_why;
      }
      keys.push_back(info);
    }
  }
  return keys;
}

/// A kind with its keys.
struct BurrKind {
  std::string_view name;
  std::vector<KeyInfo> keys;
};

/// Every kind, in the order of the variant.
[[nodiscard]] inline std::vector<BurrKind> every_burr_kind() {
  return []<class... Burrs>(const std::variant<Burrs...>*) {
    return std::vector<BurrKind>{{Burrs::name, burr_keys<Burrs>()}...};
  }(static_cast<const models::AnyBurr*>(nullptr));
}

/// The key that says which kind it is.
inline constexpr KeyInfo burr_kind_info{.name = "kind",
                                        .kind = KeyKind::choice,
                                        .meaning = "what kind of burr",
                                        .required = true,
                                        .choices = burr_kinds};

}  // namespace drumlin::cases
