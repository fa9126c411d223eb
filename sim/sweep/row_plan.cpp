#include "sim/sweep/row_plan.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "sim/design/draws.hpp"

namespace drumlin::sim {
namespace {

using cases::DesignKind;

bool is_sampled(DesignKind kind) {
  return kind == DesignKind::latin_hypercube || kind == DesignKind::sobol ||
         kind == DesignKind::pick_freeze;
}

/// Value of a factor at a share of its range: its share of the list, or its quantile.
double at_share(const cases::Factor& factor, double share) {
  if (factor.distribution) return models::quantile(*factor.distribution, share);
  const auto count = static_cast<double>(factor.values.size());
  const auto index = static_cast<std::size_t>(std::min(share * count, count - 1.0));
  return factor.values[index];
}

}  // namespace

RowPlan::RowPlan(const cases::Study& study) : study_(study) {
  for (std::uint64_t r = 0; r < study.replicates; ++r) {
    seeds_.push_back(draw_bits(study.seed, DrawFor::replicate, r, 0));
    if (study.design == DesignKind::latin_hypercube)
      hypercubes_.emplace_back(seeds_.back(), study.points);
    if (study.design == DesignKind::sobol)
      sobols_.emplace_back(study.factors.size(),
                           study.scramble ? std::optional(seeds_.back()) : std::nullopt);
    if (study.design == DesignKind::pick_freeze)
      pick_freezes_.emplace_back(study.factors.size(),
                                 study.scramble ? std::optional(seeds_.back()) : std::nullopt);
  }
}

double RowPlan::coordinate(std::uint64_t replicate, std::uint64_t point, std::size_t factor) const {
  switch (study_.design) {
    case DesignKind::latin_hypercube:
      return hypercubes_[replicate].at(point, factor);
    case DesignKind::sobol:
      return sobols_[replicate].at(point, factor);
    case DesignKind::pick_freeze:
      return pick_freezes_[replicate].at(point, factor);
    default:
      return draw(seeds_[replicate], DrawFor::row, point, factor);
  }
}

/// Of a grid: digits of the point's number, the last factor's first.
void RowPlan::set_levels(std::uint64_t point, std::vector<double>& values) const {
  for (std::size_t k = study_.factors.size(); k-- > 0;) {
    const auto& levels = study_.factors[k].values;
    if (study_.factors[k].distribution) continue;
    values[k] = levels[point % levels.size()];
    point /= levels.size();
  }
}

std::vector<double> RowPlan::values(std::uint64_t row) const {
  if (row >= study_.rows()) throw std::out_of_range("the study has no such row");
  const std::uint64_t replicate = row / study_.points;
  const std::uint64_t point = row % study_.points;
  std::vector<double> values(study_.factors.size());
  const bool sampled = is_sampled(study_.design);
  if (study_.design == DesignKind::grid) set_levels(point, values);
  if (study_.design == DesignKind::list)
    std::copy(study_.list[point].begin(), study_.list[point].end(), values.begin());
  for (std::size_t k = 0; k < values.size(); ++k)
    if (sampled || study_.factors[k].distribution)
      values[k] = at_share(study_.factors[k], coordinate(replicate, point, k));
  return values;
}

const cases::Filter* RowPlan::left_out_by(const std::vector<double>& values) const noexcept {
  for (const cases::Filter& filter : study_.filters)
    if (!filter.keeps(values[filter.factor])) return &filter;
  return nullptr;
}

}  // namespace drumlin::sim
