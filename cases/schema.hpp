#pragma once

#include <limits>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "cases/material.hpp"
#include "models/key.hpp"

/// How the keys of a case file are declared: one entry per key, walked by the reader, by messages
/// about bad input and by the tests. The lists are in schema_part.hpp, schema_station.hpp,
/// schema_rest.hpp and schema_material.hpp; a number that a law owns is taken from the law's list.
namespace drumlin::cases {

enum class KeyKind {
  quantity,  ///< a number, with its unit unless it is a pure number
  count,     ///< a whole number
  flag,      ///< true or false
  text,      ///< free words
  choice,    ///< one of the words listed
  limit,     ///< what the customer accepts, such as "<= 0.03 mm"
  sourced,   ///< table of value, low, high and source
  special,   ///< section, list or a value with rules of its own
};

/// A word that a key takes; not every one that is known is available yet.
struct Choice {
  std::string_view name;
  bool available = true;
};

/// What one key holds and what is legal.
struct KeyInfo {
  std::string_view name;
  KeyKind kind = KeyKind::special;
  models::Dimension dimension{};
  double low = 0;   ///< smallest legal value, inner unit
  double high = 0;  ///< largest legal value, inner unit
  std::string_view meaning{};
  std::string_view example{};  ///< as one would write it; empty: the dimension's own
  std::string_view called{};   ///< what is expected, in words; empty: the dimension's own
  bool required = false;       ///< an error if absent
  std::string_view
      default_text{};  ///< value where the case is silent; empty: none, or the library's
  std::string_view default_why{};
  std::string_view unused{};  ///< why the key has no effect in this version; empty: it has one
  /// Of a bound that only bands use: the key whose value it bounds.
  std::string_view bounds{};
  /// Value that means "nothing of the kind": with it the key's effect is fully there.
  double neutral = std::numeric_limits<double>::quiet_NaN();
  std::span<const Choice> choices{};
};

/// Where a value is kept in its owner; a choice is handed over as its index.
template <class Owner>
using Slot = std::variant<std::monostate, double Owner::*, std::optional<double> Owner::*,
                          int Owner::*, bool Owner::*, std::string Owner::*, Sourced Owner::*,
                          std::optional<Sourced> Owner::*, void (*)(Owner&, std::size_t)>;

/// A key together with its place in the case.
template <class Owner>
struct Field {
  KeyInfo info;
  Slot<Owner> slot;

  [[nodiscard]] constexpr Field required() const {
    Field field = *this;
    field.info.required = true;
    return field;
  }
  [[nodiscard]] constexpr Field example(std::string_view text) const {
    Field field = *this;
    field.info.example = text;
    return field;
  }
  [[nodiscard]] constexpr Field called(std::string_view words) const {
    Field field = *this;
    field.info.called = words;
    return field;
  }
  [[nodiscard]] constexpr Field fallback(std::string_view text, std::string_view why) const {
    Field field = *this;
    field.info.default_text = text;
    field.info.default_why = why;
    return field;
  }
  [[nodiscard]] constexpr Field bounds(std::string_view key) const {
    Field field = *this;
    field.info.bounds = key;
    return field;
  }
  [[nodiscard]] constexpr Field unused(
      std::string_view why, double neutral = std::numeric_limits<double>::quiet_NaN()) const {
    Field field = *this;
    field.info.unused = why;
    field.info.neutral = neutral;
    return field;
  }
};

template <class Owner, class Member>
constexpr Field<Owner> quantity(std::string_view name, Member Owner::*member,
                                const models::Dimension& dimension, double low, double high,
                                std::string_view meaning) {
  return {{name, KeyKind::quantity, dimension, low, high, meaning}, member};
}
template <class Owner>
constexpr Field<Owner> count(std::string_view name, int Owner::*member, int low, int high,
                             std::string_view meaning) {
  return {{name, KeyKind::count, {}, static_cast<double>(low), static_cast<double>(high), meaning},
          member};
}
template <class Owner>
constexpr Field<Owner> flag(std::string_view name, bool Owner::*member, std::string_view meaning) {
  return {{name, KeyKind::flag, {}, 0, 1, meaning}, member};
}
template <class Owner>
constexpr Field<Owner> text(std::string_view name, std::string Owner::*member,
                            std::string_view meaning) {
  return {{name, KeyKind::text, {}, 0, 0, meaning}, member};
}
/// @param slot  a string member, or a function that takes the index of the choice.
template <class Owner, class Target>
constexpr Field<Owner> choice(std::string_view name, Target slot, std::span<const Choice> choices,
                              std::string_view meaning) {
  Field<Owner> field{{name, KeyKind::choice, {}, 0, 0, meaning}, slot};
  field.info.choices = choices;
  return field;
}
template <class Owner, class Member>
constexpr Field<Owner> sourced(std::string_view name, Member Owner::*member,
                               const models::Dimension& dimension, double low, double high,
                               std::string_view meaning) {
  return {{name, KeyKind::sourced, dimension, low, high, meaning}, member};
}
/// A key that the reader treats by hand: a section, a list, a name to be looked up.
template <class Owner>
constexpr Field<Owner> special(std::string_view name, std::string_view meaning) {
  return {{name, KeyKind::special, {}, 0, 0, meaning}, std::monostate{}};
}
/// A quantity that is checked and then not kept, since this version has no use for it.
template <class Owner>
constexpr Field<Owner> checked_only(std::string_view name, const models::Dimension& dimension,
                                    double low, double high, std::string_view meaning) {
  return {{name, KeyKind::quantity, dimension, low, high, meaning}, std::monostate{}};
}

/// A number that a law describes, kept in the law's own struct.
template <class Law>
constexpr Field<Law> from_law(const models::Key<Law>& key) {
  return quantity(key.name, key.member, key.dimension, key.low, key.high, key.meaning);
}
/// A number that a law describes, kept elsewhere.
template <class Law, class Owner, class Member>
constexpr Field<Owner> from_law(std::string_view name, Member Owner::*member) {
  for (const auto& key : Law::keys())
    if (key.name == name)
      return quantity(name, member, key.dimension, key.low, key.high, key.meaning);
  throw std::logic_error("the law has no key of that name");
}
template <class Law>
constexpr KeyInfo law_info(std::string_view name) {
  for (const auto& key : Law::keys())
    if (key.name == name)
      return {key.name, KeyKind::quantity, key.dimension, key.low, key.high, key.meaning};
  throw std::logic_error("the law has no key of that name");
}

/// A section of the case file and its keys, without their places in the case.
struct SectionInfo {
  /// Such as "station.drum"; empty for the top of the file. A burr's section names its kind too, as
  /// in "part.feature.burr:wall"; "station.knock-off" is a station of that kind.
  std::string path;
  std::vector<KeyInfo> keys;
};

/// Every key that a case file may hold, section by section.
[[nodiscard]] std::vector<SectionInfo> case_sections();

template <class Fields>
[[nodiscard]] std::vector<KeyInfo> infos(const Fields& fields) {
  std::vector<KeyInfo> result;
  result.reserve(std::size(fields));
  for (const auto& field : fields)
    result.push_back(field.info);
  return result;
}

}  // namespace drumlin::cases
