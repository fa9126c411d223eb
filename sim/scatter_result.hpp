#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <numeric>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace drumlin::sim {

/// A share of draws with its interval of 95 %.
struct Probability {
  double value = 0;       ///< [-]
  double low = 0;         ///< [-]
  double high = 1;        ///< [-]
  std::uint64_t met = 0;  ///< draws
  std::uint64_t of = 0;   ///< draws
};

/// How a number spreads over the draws that give it.
struct Spread {
  double p5 = 0, p50 = 0, p95 = 0;  ///< percentiles
  double mean = 0;
  double deviation = 0;  ///< standard
};

/// What part one input's scatter has in the variance of an output: Sobol's indices with the
/// standard deviation of their estimates.
struct ScatterShare {
  double first = 0;  ///< [-] alone
  double first_error = 0;
  double total = 0;  ///< [-] alone and together with others
  double total_error = 0;
};

/// One number of the part over all draws, with the customer's limit where it has one.
struct ScatterOutput {
  std::string name;      ///< such as "hole-6:trailing burr_height"
  std::string quantity;  ///< the accept key, or the quantity's own where it has no limit
  std::string unit;      ///< of everything below
  std::string limit;     ///< as the customer wrote it; empty: none
  std::optional<double> low, high;
  /// That the limit is met; draws that could not be computed or give no value count as not met.
  std::optional<Probability> met;
  std::string why_not;  ///< why there is no such probability, where there is a limit
  std::optional<Spread> value, margin;
  /// Mean margin over the margin's standard deviation [-].
  std::optional<double> margin_deviations;
  std::uint64_t not_known = 0;       ///< draws for which the model gives no value
  std::vector<ScatterShare> shares;  ///< by input; empty where the output does not vary
  std::string decides;               ///< which scatter decides, in words
  std::vector<double> values;        ///< draw by draw; NaN where there is none
};

/// What limits that are judged are ranked by: the one met least comes first, and of those met alike
/// the one with the least room.
[[nodiscard]] inline std::pair<double, double> by_weakness(const ScatterOutput& limit) {
  return {limit.met->value,
          limit.margin_deviations.value_or(std::numeric_limits<double>::infinity())};
}

/// Indices of an output's shares, the largest total first.
[[nodiscard]] inline std::vector<std::size_t> by_total_share(const ScatterOutput& output) {
  std::vector<std::size_t> order(output.shares.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return output.shares[a].total > output.shares[b].total;
  });
  return order;
}

/// One key whose number scatters.
struct ScatterInput {
  std::string key;                ///< such as "station[0].drum.hardness"
  std::string meaning;            ///< in words
  std::string distribution;       ///< as the case gives it
  std::string unit;               ///< of the values below; empty for pure numbers
  std::optional<Spread> drawn{};  ///< what was drawn [inner unit: mm, N, MPa, s, K]
};

/// Runs that could not be computed, by their kind.
struct ScatterFailure {
  std::string what;         ///< "bad input", "not converged"
  std::uint64_t draws = 0;  ///< that count as not met
  std::uint64_t runs = 0;   ///< of all, those for shares of variance included
  std::string reason;       ///< of the first one
};

/// What the scatter that a case states does to the part: quasi-Monte Carlo over [uncertainty].
struct ScatterStudy {
  std::string model;        ///< that every draw was run with
  std::uint64_t size = 0;   ///< points of one set
  std::uint64_t draws = 0;  ///< for probabilities and percentiles: two sets
  std::uint64_t runs = 0;   ///< of the model, those for shares of variance included
  std::uint64_t seed = 0;
  std::vector<ScatterInput> inputs;
  std::optional<Probability> all_met;  ///< every limit that is judged, at once
  std::vector<ScatterOutput> limits;   ///< every limit of the case, judged or not
  std::vector<ScatterOutput> others;   ///< main numbers that have no limit
  std::vector<ScatterFailure> failures;
  std::string decides;             ///< of the limit that is met least: which scatter decides
  std::vector<std::string> notes;  ///< what was drawn, how, and what is not in it
};

}  // namespace drumlin::sim
