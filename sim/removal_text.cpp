#include "sim/removal_text.hpp"

#include <algorithm>
#include <variant>

#include <fmt/format.h>

#include "models/removal/removal_keys.hpp"

namespace drumlin::sim {

std::string removal_law_text(const cases::Belt& belt) {
  std::string out(models::name_of(belt.removal_law));
  if (std::holds_alternative<models::Preston>(belt.removal_law))
    return out + ": a straight line above the threshold";
  const char* separator = ": ";
  for (const models::RemovalNumber& number : models::numbers_of(belt.removal_law)) {
    const auto band = belt.removal_bands.find(std::string(number.key));
    if (band == belt.removal_bands.end()) continue;
    std::string words(number.key);
    std::replace(words.begin(), words.end(), '_', ' ');
    const char* unit = number.is_pressure ? " MPa" : "";
    out += fmt::format("{}{} {:.3g}{}", separator, words, number.value, unit);
    if (band->second.low < band->second.high)
      out += fmt::format(", band {:.3g}..{:.3g}{}", band->second.low, band->second.high, unit);
    separator = "; ";
  }
  return out;
}

std::vector<std::string> removal_notes(const cases::Case& scenario) {
  std::vector<std::string> notes;
  const bool fast = scenario.numerics.model == "fast";
  for (const auto& station : scenario.stations) {
    const auto* belt_station = std::get_if<cases::BeltStation>(&station);
    if (belt_station == nullptr) continue;
    const cases::Belt& belt = belt_station->belt;
    std::string note =
        std::holds_alternative<models::Preston>(belt.removal_law)
            ? "removal follows Preston's straight line with a threshold; published exponents of "
              "force reach from 0.55 to 2.5"
            : fmt::format(
                  "removal follows the law {}; published exponents of force reach from 0.55 to "
                  "2.5, and what a burr loses beside the face hangs on them{}",
                  removal_law_text(belt),
                  fast ? "; with exponents above 2 the fast model takes up to 8 % too much off "
                         "the face under a soft drum"
                       : "");
    if (std::find(notes.begin(), notes.end(), note) == notes.end())
      notes.push_back(std::move(note));
  }
  if (notes.empty()) notes.emplace_back("removal by brushes is in proportion to pressure");
  return notes;
}

}  // namespace drumlin::sim
