#pragma once

#include <functional>
#include <vector>

#include "sim/answer.hpp"
#include "sim/line_economy_result.hpp"
#include "sim/study_result.hpp"
#include "sim/verdict_result.hpp"

namespace drumlin::sim {

/// All that is known of one row once it is run.
struct RowAnswer {
  StatedAnswer stated;
  Verdict verdict;
  LineEconomy economy;
};

/// The columns of a study's table: the quantities of summary.json, station by station, of the plain
/// faces, of every edge by its name, and the verdict's and the line's own.
class Columns {
 public:
  /// Columns of answers of this shape; what answers of other shapes have besides is added by `add`.
  void add(const RowAnswer& answer);

  [[nodiscard]] const std::vector<StudyColumn>& list() const noexcept { return list_; }

  /// One value per column; none where the answer has no such station, edge or quantity.
  [[nodiscard]] std::vector<std::optional<double>> values(const RowAnswer& answer) const;

 private:
  using Read = std::function<std::optional<double>(const RowAnswer&)>;
  void add_one(StudyColumn column, Read read);
  template <class Owner, class List, class Find>
  void add_list(const List& list, const std::string& prefix, const std::string& of,
                const Find& find);
  void add_face(bool reverse);
  void add_edge(bool reverse, const std::string& name);
  void add_limits(const RowAnswer& answer);
  void add_line(const RowAnswer& answer);

  std::vector<StudyColumn> list_;
  std::vector<Read> reads_;
};

}  // namespace drumlin::sim
