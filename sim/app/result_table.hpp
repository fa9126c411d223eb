#pragma once

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

#include "sim/app/text.hpp"
#include "sim/result.hpp"

/// Tables of results: a row per record, with its bands under it.
namespace drumlin::app {

/// A column of a table: what it is called, in which unit, and where its numbers come from.
template <class Record>
struct Column {
  const char* name;
  const char* unit;
  std::function<sim::Quantity(const Record&)> quantity;
  double factor;
  int decimals;
};

// Columns without a single value are left out: a model that does not give a quantity is not asked.
template <class Record>
Table table_of(const std::string& first, const std::vector<Record>& records,
               const std::function<std::string(std::size_t)>& label,
               const std::vector<Column<Record>>& columns) {
  Table table{{{first}, {""}}, {}};
  std::vector<const Column<Record>*> shown;
  for (const auto& column : columns) {
    const auto has_value = [&](const Record& r) { return column.quantity(r).has_value(); };
    if (std::none_of(records.begin(), records.end(), has_value)) continue;
    shown.push_back(&column);
    table.head[0].emplace_back(column.name);
    table.head[1].emplace_back(column.unit);
  }
  for (std::size_t i = 0; i < records.size(); ++i) {
    std::vector<std::string> values{label(i)};
    std::vector<std::string> bands{""};
    bool any_band = false;
    for (const auto* column : shown) {
      const sim::Quantity quantity = column->quantity(records[i]);
      values.push_back(value_text(quantity, column->factor, column->decimals));
      bands.push_back(band_text(quantity, column->factor, column->decimals));
      any_band = any_band || !bands.back().empty();
    }
    table.rows.push_back(values);
    if (any_band) table.rows.push_back(bands);
  }
  return table;
}

}  // namespace drumlin::app
