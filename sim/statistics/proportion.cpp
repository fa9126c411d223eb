#include "sim/statistics/proportion.hpp"

#include <boost/math/special_functions/beta.hpp>

namespace drumlin::sim {

Proportion proportion(std::uint64_t successes, std::uint64_t trials, double confidence) {
  const auto k = static_cast<double>(successes);
  const auto n = static_cast<double>(trials);
  const double tail = (1 - confidence) / 2;
  Proportion result{k / n, 0.0, 1.0};
  // The interval's ends are quantiles of beta distributions (Johnson, Kotz and Kemp 1992, 3.67).
  if (successes > 0) result.low = boost::math::ibeta_inv(k, n - k + 1, tail);
  if (successes < trials) result.high = boost::math::ibeta_inv(k + 1, n - k, 1 - tail);
  return result;
}

}  // namespace drumlin::sim
