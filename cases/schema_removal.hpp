#pragma once

#include <algorithm>
#include <array>
#include <variant>
#include <vector>

#include "cases/schema.hpp"
#include "models/removal/removal_keys.hpp"

/// Keys of removal laws, law by law, from the laws' own lists: a law that is registered in
/// models::AnyRemovalLaw is read, shown and tested without another word here.
namespace drumlin::cases {

/// Names of the laws, in the order of the variant.
inline constexpr auto removal_laws = []<class... Laws>(const std::variant<Laws...>*) {
  return std::to_array<Choice>({{Laws::name}...});
}(static_cast<const models::AnyRemovalLaw*>(nullptr));

/// The law of that place in the variant, without its numbers.
[[nodiscard]] inline models::AnyRemovalLaw removal_law(std::size_t index) {
  return []<class... Laws>(std::size_t i, const std::variant<Laws...>*) {
    const auto laws = std::to_array<models::AnyRemovalLaw>({Laws{}...});
    return laws.at(i);
  }(index, static_cast<const models::AnyRemovalLaw*>(nullptr));
}

/// What is known of a law's number beyond its key: what is taken where the case is silent, within
/// what band [inner units], and why; and how well a number is known that the case gives, as factors
/// on it.
struct RemovalNumber {
  std::string_view name;
  std::string_view usual;  ///< as one would write it
  double low;
  double high;
  double given_low;
  double given_high;
  std::string_view why;
};
/// Given exponents: three areas and the whole of one open measurement are fitted by 2.0 to 2.5. A
/// reference pressure says where K holds, which is no measurement.
inline constexpr auto removal_numbers = std::to_array<RemovalNumber>({
    {"pressure_exponent", "1.5", 1.0, 2.5, 0.9, 1.1,
     "cut of serrated wheels over a plain one at equal force asks for 1.4 to 1.5; published "
     "exponents of force 0.55 to 2.5, those above 1 at light pressure"},
    {"reference_pressure", "0.1 MPa", 0.03, 0.3, 1.0, 1.0,
     "pressure of a soft drum on the face, where coefficients are known best; common practice, no "
     "source"},
    {"saturation_pressure", "100 MPa", 0.5, 100.0, 0.5, 2.0,
     "above any pressure of nip or burr: no saturation; serrated wheels show none up to 1.7 MPa, "
     "the band's low end is common practice, no source"},
    {"saturated_exponent", "0.7", 0.55, 1.0, 0.9, 1.1, "published exponents below 1: 0.55 to 0.93"},
});

/// What is known of a number; nothing of those that material and abrasive give.
[[nodiscard]] constexpr const RemovalNumber* removal_number(std::string_view name) {
  for (const RemovalNumber& number : removal_numbers)
    if (number.name == name) return &number;
  return nullptr;
}

/// Every key that only some laws have, once: all but the removal coefficient and the threshold,
/// which a belt has under any law.
[[nodiscard]] inline std::vector<KeyInfo> removal_law_keys() {
  std::vector<KeyInfo> keys;
  const auto add = [&]<class Law>(const Law*) {
    for (const auto& key : Law::keys()) {
      const RemovalNumber* number = removal_number(key.name);
      const auto same = [&](const KeyInfo& k) { return k.name == key.name; };
      if (number == nullptr || std::any_of(keys.begin(), keys.end(), same)) continue;
      KeyInfo info{key.name, KeyKind::quantity, key.dimension, key.low, key.high, key.meaning};
      info.example = info.default_text = number->usual;
      info.default_why = number->why;
      keys.push_back(info);
    }
  };
  [&]<class... Laws>(const std::variant<Laws...>*) {
    (add(static_cast<const Laws*>(nullptr)), ...);
  }(static_cast<const models::AnyRemovalLaw*>(nullptr));
  return keys;
}

}  // namespace drumlin::cases
