#pragma once

#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include "models/removal/removal_laws.hpp"

/// Numbers of a removal law by the name of their key, whatever the law: for whoever must not know
/// laws.
namespace drumlin::models {

[[nodiscard]] inline std::string_view name_of(const AnyRemovalLaw& law) {
  return std::visit([]<class Law>(const Law&) -> std::string_view { return Law::name; }, law);
}

/// The number that a law has under a key [inner unit]; no value where it has no such key.
[[nodiscard]] inline std::optional<double> number_of(const AnyRemovalLaw& law,
                                                     std::string_view key) {
  return std::visit(
      [&]<class Law>(const Law& l) -> std::optional<double> {
        for (const auto& k : Law::keys())
          if (k.name == key) return l.*k.member;
        return std::nullopt;
      },
      law);
}

/// Puts a number under a key of a law; a law that has no such key stays as it is.
inline void set_number(AnyRemovalLaw& law, std::string_view key, double value) {
  std::visit(
      [&]<class Law>(Law& l) {
        for (const auto& k : Law::keys())
          if (k.name == key) l.*k.member = value;
      },
      law);
}

/// A law's key without the law's type.
struct RemovalNumber {
  std::string_view key;
  std::string_view meaning;
  bool is_pressure = false;  ///< [MPa], felt by lands; else a pure number or K
  double value = 0;          ///< inner unit
};

/// Every number of a law, in the order of its keys.
[[nodiscard]] inline std::vector<RemovalNumber> numbers_of(const AnyRemovalLaw& law) {
  return std::visit(
      []<class Law>(const Law& l) {
        std::vector<RemovalNumber> numbers;
        for (const auto& k : Law::keys())
          numbers.push_back({k.name, k.meaning, k.dimension == dimension::pressure, l.*k.member});
        return numbers;
      },
      law);
}

}  // namespace drumlin::models
