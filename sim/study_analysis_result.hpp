#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "sim/statistics/proportion.hpp"
#include "sim/statistics/sobol_indices.hpp"
#include "sim/study_result.hpp"

/// What a finished study says, made from its table alone. Columns are named by their index in the
/// table's header, and all numbers are in their columns' units.
namespace drumlin::sim {

struct CountedText {
  std::string text;
  std::uint64_t rows = 0;
};

/// Rows whose factor lies in a part of its range, and how many of them are of one kind.
struct FactorGroup {
  std::string name;  ///< "lowest quarter", or the value itself
  /// Least and greatest number of the group; none for words.
  std::optional<double> low, high;
  std::uint64_t rows = 0;
  std::uint64_t hits = 0;
  Proportion share;
};

/// Whether rows of a kind (failed, not accepted) gather in a corner of one factor.
struct Corner {
  std::size_t column = 0;
  std::vector<FactorGroup> groups;
  /// Whether the intervals of the groups with the least and the greatest share are apart.
  bool differs = false;
};

struct OutputSpread {
  std::size_t column = 0;
  std::uint64_t rows = 0;  ///< looked at that have the number
  std::array<double, 5> percentiles{};
};
inline constexpr std::array<double, 5> spread_percents{5, 25, 50, 75, 95};

/// How often a limit is met among the rows that have its margin.
struct LimitMet {
  std::size_t column = 0;  ///< of the margin
  std::uint64_t rows = 0;
  Proportion met;
};

/// One aim with its column.
struct AimedColumn {
  std::size_t column = 0;
  bool up = true;
  std::optional<double> at_least, at_most;
};

/// What a factor is in a row: a number, or a word.
using FactorValue = std::variant<double, std::string>;

struct FrontPoint {
  std::uint64_t row = 0;
  std::vector<double> aims;            ///< in the aims' order
  std::vector<FactorValue> factors{};  ///< in the order of `StudyAnalysis::factors`
};

/// The way from the knee to the point of the front that is best in one aim.
struct FrontSide {
  std::size_t aim = 0;
  std::size_t end = 0;         ///< index of that point
  std::vector<double> change;  ///< of each aim on the way
};

struct Knee {
  std::size_t point = 0;         ///< index in the front
  double distance = 0;           ///< [-] from the plane through the ends, in normalised aims
  std::vector<FrontSide> sides;  ///< one per aim
};

/// The rows that no other row beats: none is at least as good in all aims and better in one.
struct Front {
  std::vector<FrontPoint> points;  ///< best in the first aim first
  std::uint64_t candidates = 0;    ///< rows that were compared
  bool thinned = false;            ///< the archive was full; the points are a part of the front
  std::optional<Knee> knee;
  std::string no_knee;  ///< why there is none
};

/// What one factor has to do with one output.
struct FactorShare {
  std::optional<Estimate> first;  ///< share of the variance by itself [-]
  std::optional<Estimate> total;  ///< share in which it has a part [-]; of a pick-freeze design
  std::optional<double> rank;     ///< rank correlation [-]; none for words
  double rank_low = 0;            ///< 95 % interval [-]
  double rank_high = 0;           ///< [-]
};

struct OutputShares {
  std::size_t column = 0;
  std::uint64_t points = 0;          ///< of the design, or rows, that the shares are made from
  std::uint64_t incomplete = 0;      ///< points of the design left out since a row has no number
  std::vector<FactorShare> factors;  ///< in the order of `StudyAnalysis::factors`
};

/// A row that is farthest from what its neighbours say.
struct OddRow {
  std::uint64_t row = 0;
  std::size_t column = 0;  ///< the output in which it is
  double value = 0;
  double expected = 0;    ///< by the quadratic surface through all
  double deviations = 0;  ///< difference over the rms of all differences
};

/// A row for a picture: its aims, and whether it is accepted.
struct CloudPoint {
  std::vector<double> aims;
  bool accepted = false;
};

struct StudyAnalysis {
  StudyHeader header;
  std::string title;
  std::string study_file;       ///< as it is to be named in commands
  std::string design;           ///< "grid", "sobol", ...
  std::string design_in_words;  ///< for a methods paragraph
  std::uint64_t replicates = 1;
  std::vector<std::size_t> factors;  ///< columns
  std::vector<std::string> varied;   ///< how, in words; as long as `factors`
  bool all_drawn = false;
  std::vector<CountedText> statuses;  ///< in the order of `RowStatus`, those that occur
  std::vector<CountedText> reasons;   ///< most frequent first
  std::uint64_t looked_at = 0;        ///< rows that all but counts, fronts and total shares see
  std::vector<Corner> failed;         ///< one per factor; empty where no row failed
  std::vector<Corner> not_accepted;   ///< one per factor; empty where none was refused
  std::vector<OutputSpread> spreads;  ///< of the main outputs
  std::vector<LimitMet> limits;
  std::vector<AimedColumn> aims;
  Front front;                       ///< over accepted rows within the aims' own bounds
  Front front_of_all;                ///< over all rows that have numbers
  std::vector<CloudPoint> cloud;     ///< at most some hundred rows
  std::vector<OutputShares> shares;  ///< of the aims, or of the main outputs
  std::string about_shares;          ///< how they were made, or why there are none
  std::uint64_t fitted_rows = 0;     ///< of the surface that odd rows are told by
  std::vector<OddRow> odd_rows;      ///< farthest first
};

}  // namespace drumlin::sim
