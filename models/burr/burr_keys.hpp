#pragma once

#include <optional>
#include <string_view>
#include <variant>

#include "models/burr/burr_kinds.hpp"

/// Numbers of a burr by the name of their key, whatever its kind: for whoever must not know kinds.
namespace drumlin::models {

/// A burr kind with numbers of its own; an edge cut clean has none.
template <class Burr>
concept HasKeys = requires {
  Burr::keys();
};

/// The number that a burr has under a key [inner unit]; no value where its kind has no such key.
[[nodiscard]] inline std::optional<double> number_of(const AnyBurr& burr, std::string_view key) {
  return std::visit(
      [&]<class Burr>(const Burr& b) -> std::optional<double> {
        if constexpr (HasKeys<Burr>) {
          for (const auto& k : Burr::keys())
            if (k.name == key) return b.*k.member;
        }
        return std::nullopt;
      },
      burr);
}

/// Puts a number under a key of a burr; a burr whose kind has no such key stays as it is.
inline void set_number(AnyBurr& burr, std::string_view key, double value) {
  std::visit(
      [&]<class Burr>(Burr& b) {
        if constexpr (HasKeys<Burr>) {
          for (const auto& k : Burr::keys())
            if (k.name == key) b.*k.member = value;
        }
      },
      burr);
}

}  // namespace drumlin::models
