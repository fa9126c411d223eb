#include "viz/scatter_words.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace drumlin::viz {

std::string percent_text(double share) {
  const double of = 100 * share;
  const double off = std::min(of, 100 - of);
  return off > 0 && off < 1 ? fmt::format("{:.2f}", of) : fmt::format("{:.1f}", of);
}

std::string met_percent(const sim::Probability& met) {
  if (met.met == met.of) return "at least " + percent_text(met.low);
  if (met.met == 0) return "at most " + percent_text(met.high);
  return percent_text(met.value);
}

}  // namespace drumlin::viz
