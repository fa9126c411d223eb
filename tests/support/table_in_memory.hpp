#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "sim/study_analysis/analyse.hpp"

/// A finished study that never was on a disk: factors "u0", "u1", ... and outputs by name.
namespace drumlin::support {

class TableInMemory {
 public:
  explicit TableInMemory(std::uint64_t rows) {
    header_.rows = rows;
    header_.rows_per_chunk = 777;  // divides nothing, so that stretches and points cross
    header_.seed = 5;
    std::vector<double> numbers(rows);
    for (std::uint64_t i = 0; i < rows; ++i)
      numbers[i] = static_cast<double>(i);
    add({"row", "1", "number of the row", "status"}, std::move(numbers));
  }

  void add(sim::StudyColumn column, sim::StudyValues values) {
    column.kind = std::holds_alternative<std::vector<double>>(values)
                      ? sim::StudyColumn::Kind::number
                      : sim::StudyColumn::Kind::text;
    header_.columns.push_back(std::move(column));
    values_.push_back(std::move(values));
  }

  /// Statuses as the program writes them; empty reasons where all is done.
  void finish(std::vector<std::string> statuses, std::vector<std::string> reasons) {
    add({"status", "text", "", "status"}, std::move(statuses));
    add({"reason", "text", "", "status"}, std::move(reasons));
  }
  void finish() {
    finish(std::vector<std::string>(header_.rows, "done"), std::vector<std::string>(header_.rows));
  }

  /// Refers to the object.
  [[nodiscard]] sim::StudyTable table() const {
    return {.header = &header_,
            .each = [this](const std::vector<std::size_t>& columns, const sim::TakeRows& take) {
              for (std::uint64_t chunk = 0; chunk < header_.chunks(); ++chunk) {
                std::vector<sim::StudyValues> part;
                for (const std::size_t c : columns)
                  part.push_back(stretch(values_[c], chunk));
                take(header_.first_row(chunk), part);
              }
            }};
  }

 private:
  [[nodiscard]] sim::StudyValues stretch(const sim::StudyValues& all, std::uint64_t chunk) const {
    const auto first = static_cast<std::ptrdiff_t>(header_.first_row(chunk));
    const auto count = static_cast<std::ptrdiff_t>(header_.rows_of(chunk));
    return std::visit(
        [&](const auto& list) -> sim::StudyValues {
          return std::remove_cvref_t<decltype(list)>(list.begin() + first,
                                                     list.begin() + first + count);
        },
        all);
  }

  sim::StudyHeader header_;
  std::vector<sim::StudyValues> values_;
};

}  // namespace drumlin::support
