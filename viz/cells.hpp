#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "viz/page.hpp"
#include "viz/quantities.hpp"

/// How pages show numbers.
namespace drumlin::viz {

/// Three digits, four where the value is large.
[[nodiscard]] std::string number_text(double value);

/// "um" as "µm", "degC" as "°C", "1" as nothing.
[[nodiscard]] std::string shown_unit(std::string_view unit);

/// Number and unit.
[[nodiscard]] std::string with_unit(double value, std::string_view unit);

/// A key of summary.json in words, its unit left out: "burr_height_um" as "burr height".
[[nodiscard]] std::string spoken_key(std::string_view key, std::string_view unit);

/// Class of the page's style for a verdict's state, which sets the mark before the word.
[[nodiscard]] std::string kind_of_state(std::string_view state);

/// Underscores as spaces.
[[nodiscard]] std::string spoken(std::string_view key);

/// Value with unit, its band below; says so where the model gives none.
[[nodiscard]] Cell quantity_cell(const sim::Quantity& value, const Scale& scale,
                                 std::string_view unit);
[[nodiscard]] Cell quantity_cell(const std::optional<double>& value, const Scale& scale,
                                 std::string_view unit);

/// Table of every quantity of one owner with its meaning.
template <class Owner, std::size_t n>
[[nodiscard]] std::string meaning_table(std::string caption, const Owner& owner,
                                        const std::array<QuantityKey<Owner>, n>& keys) {
  Table table{std::move(caption), {"quantity", "value and band", "meaning"}, {}};
  for (const QuantityKey<Owner>& key : keys)
    table.rows.push_back({{spoken_key(key.key, key.unit), "", ""},
                          quantity_cell(owner.*key.member, key.scale, key.unit),
                          {std::string(key.meaning), "", ""}});
  return table_html(table);
}

/// Table with a row for every quantity that some owner has, and a column for each owner.
template <class Owner, std::size_t n>
[[nodiscard]] std::string side_by_side(std::string caption, std::vector<std::string> names,
                                       const std::vector<const Owner*>& owners,
                                       const std::array<QuantityKey<Owner>, n>& keys) {
  Table table{std::move(caption), std::move(names), {}};
  table.head.insert(table.head.begin(), "quantity");
  for (const QuantityKey<Owner>& key : keys) {
    std::vector<Cell> row{{spoken_key(key.key, key.unit), std::string(key.meaning), ""}};
    bool any = false;
    for (const Owner* owner : owners) {
      row.push_back(quantity_cell(owner->*key.member, key.scale, key.unit));
      any = any || (owner->*key.member).has_value();
    }
    if (any) table.rows.push_back(std::move(row));
  }
  return table.rows.empty() ? std::string() : table_html(table);
}

}  // namespace drumlin::viz
