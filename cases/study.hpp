#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "cases/case.hpp"
#include "cases/problem.hpp"
#include "models/distribution/distributions.hpp"

/// The checked study: which keys of one case are varied, how, and what of it is left out. Plain
/// structs, like the case.
namespace drumlin::cases {

enum class DesignKind { grid, latin_hypercube, sobol, list, pick_freeze };

/// One key of the case that is varied.
struct Factor {
  std::string key;      ///< path, such as "station[0].drum.hardness"
  std::string meaning;  ///< of the key, as its declaration says; empty where it has none
  /// Unit that its numbers are shown in, as the study writes them; empty for pure numbers and
  /// words.
  std::string unit;
  double unit_factor = 1;  ///< inner value = (shown value + unit_offset) * unit_factor
  double unit_offset = 0;
  bool whole = false;  ///< whether its numbers are whole
  /// Numbers that it takes [inner unit], or the numbers 0, 1, ... of its words. Empty: it is drawn
  /// from the distribution.
  std::vector<double> values{};
  std::vector<std::string> words{};  ///< of a key that holds no number, as written
  std::optional<models::AnyDistribution> distribution{};  ///< [inner unit]

  /// A number of it in the unit that it is shown in.
  [[nodiscard]] double shown(double inner) const noexcept {
    return inner / unit_factor - unit_offset;
  }
};

/// Rows that a study does not run: those whose factor is not as the filter keeps it.
struct Filter {
  enum class Sign { below, at_most, above, at_least };
  std::size_t factor = 0;  ///< index
  Sign sign = Sign::at_most;
  double value = 0;  ///< [inner unit]
  std::string text;  ///< as written

  [[nodiscard]] bool keeps(double number) const noexcept {
    switch (sign) {
      case Sign::below:
        return number < value;
      case Sign::at_most:
        return number <= value;
      case Sign::above:
        return number > value;
      case Sign::at_least:
        return number >= value;
    }
    return true;
  }
};

/// How each row's case scatters: the keys of the case's [uncertainty], drawn alike for every row.
struct RowScatter {
  std::uint64_t size = 0;  ///< draws per row
  std::uint64_t seed = 0;
  std::vector<Factor> factors;  ///< each with its distribution
  /// The case under a row's values and one draw per factor. A key that scatters around its own
  /// value does so around the row's. Pure; may be asked by several threads.
  /// Throws CaseError with what the reader of cases would say.
  std::function<Case(std::span<const double> row, std::span<const double> draw)> with;
};

/// What is wanted of one column of a study's table.
struct Aim {
  std::string column;
  Place place;     ///< of the column's name in the study
  bool up = true;  ///< whether more is better
  struct Bound {
    double value = 0;
    std::string unit;  ///< as written; empty: the column's own
    Place place;
  };
  std::optional<Bound> at_least;
  std::optional<Bound> at_most;
};

/// What a study's own text says about itself, without the case that it varies: enough to read a
/// finished table by.
struct StudyWishes {
  std::string file;  ///< that messages name
  std::string title;
  DesignKind design = DesignKind::grid;
  bool scramble = true;
  std::uint64_t replicates = 1;
  /// Of the factors that the text names, in its order: how each is varied, in words. A list's own
  /// columns come before them in the table.
  std::vector<std::string> varied;
  /// Whether every factor is drawn from a distribution that the study states.
  bool all_drawn = false;
  std::vector<Aim> aims;  ///< none, or 2 to 5
};

struct Study {
  std::string title;
  std::string file;    ///< as given
  std::string text;    ///< the file's bytes
  std::string sha256;  ///< of the text
  Case base;           ///< the case as its file has it, with the study's model
  DesignKind design = DesignKind::grid;
  /// Points of one replicate: of a grid all combinations, of a list its lines.
  std::uint64_t points = 0;
  std::uint64_t replicates = 1;  ///< times that the design is drawn, each from its own seed
  std::uint64_t seed = 0;
  bool scramble = true;  ///< whether a Sobol sequence is shifted by the seed
  std::vector<Factor> factors;
  std::vector<Filter> filters;
  /// Of a list: line by line the values of its columns, which are the first factors.
  std::vector<std::vector<double>> list;
  /// The case under one value per factor. Pure; may be asked by several threads.
  /// Throws CaseError with what the reader of cases would say.
  std::function<Case(std::span<const double>)> with;
  /// The same case as a file that the reader reads as the very same numbers.
  std::function<std::string(std::span<const double>)> text_with;
  std::optional<RowScatter> scatter;  ///< absent: rows are computed as they are

  [[nodiscard]] std::uint64_t rows() const noexcept { return points * replicates; }
};

}  // namespace drumlin::cases
