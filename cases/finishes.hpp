#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "cases/schema.hpp"

/// Named finishes as targets for the roughness of a face.
namespace drumlin::cases {

/// A finish that grinding, brushing or polishing gives, and the Ra it goes with [mm].
struct Finish {
  std::string_view name;
  std::string_view what;
  std::optional<double> low;
  std::optional<double> high;
  std::string_view source;
};

/// The standards give no Ra for them, but for K by a note; the numbers are those of the trade.
inline constexpr auto finishes = std::to_array<Finish>({
    {"1G", "ground", 1e-3, {}, "EN 10088-2 names it, Ra above 1.0 um by a stockist's page"},
    {"2G", "ground", 1e-3, {}, "EN 10088-2 names it, Ra above 1.0 um by a stockist's page"},
    {"1J", "brushed or dull polished", 2e-4, 1e-3,
     "EN 10088-2 names it, Ra 0.2 to 1.0 um by a stockist's page"},
    {"2J", "brushed or dull polished", 2e-4, 1e-3,
     "EN 10088-2 names it, Ra 0.2 to 1.0 um by a stockist's page"},
    {"1K",
     "satin",
     {},
     5e-4,
     "EN 10088-2, Ra below 0.5 um across the lay by its note (from memory)"},
    {"2K",
     "satin",
     {},
     5e-4,
     "EN 10088-2, Ra below 0.5 um across the lay by its note (from memory)"},
    {"1P",
     "bright polished",
     {},
     1e-4,
     "EN 10088-2 names it, Ra below 0.1 um by a stockist's page"},
    {"2P",
     "bright polished",
     {},
     1e-4,
     "EN 10088-2 names it, Ra below 0.1 um by a stockist's page"},
    {"No. 3", "ground", 6e-4, 1e-3, "ASTM A480 names it, Ra about 0.6 to 1.0 um (from memory)"},
    {"No. 4", "polished", 3e-4, 6.5e-4,
     "ASTM A480 names it, Ra about 0.3 to 0.65 um (from memory)"},
});

inline constexpr auto finish_names = [] {
  std::array<Choice, finishes.size()> names{};
  for (std::size_t i = 0; i < names.size(); ++i)
    names[i] = {finishes[i].name};
  return names;
}();
inline constexpr KeyInfo finish_info{.name = "finish",
                                     .kind = KeyKind::choice,
                                     .meaning = "named finish, as a target for the face's Ra",
                                     .choices = finish_names};

}  // namespace drumlin::cases
