#include "sim/fast/cell_pairs.hpp"

#include <algorithm>
#include <utility>

#include "sim/fast/active_inverse.hpp"

namespace drumlin::sim::fast {
namespace {

/// Sections whose pairs are kept: some 20 kB each.
constexpr std::size_t most_kept = 32;

struct Ends {
  std::vector<double> at;
  std::vector<Eigen::Index> low;
};

/// Neighbours share an end, so their differences are looked up once.
Ends ends_of(const Section& section) {
  Ends ends;
  for (std::size_t i = 0; i < section.size(); ++i) {
    if (ends.at.empty() || ends.at.back() != section.from[i]) ends.at.push_back(section.from[i]);
    ends.low.push_back(static_cast<Eigen::Index>(ends.at.size()) - 1);
    ends.at.push_back(section.to[i]);
  }
  return ends;
}

std::vector<double> distances(const std::vector<double>& ends) {
  std::vector<double> between;
  between.reserve(ends.size() * (ends.size() - 1) / 2);
  for (std::size_t j = 1; j < ends.size(); ++j)
    for (std::size_t i = 0; i < j; ++i)
      between.push_back(ends[i] - ends[j]);
  return between;
}

}  // namespace

CellPairs::CellPairs(const Section& section)
    : from_(section.from), to_(section.to), places_(distances(ends_of(section).at)) {
  Ends ends = ends_of(section);
  low_ = std::move(ends.low);
  ends_ = static_cast<Eigen::Index>(ends.at.size());
}

Eigen::MatrixXd CellPairs::matrix(const LineKernel& kernel) const {
  std::vector<LineKernel::BothWays> values(places_.size());
  kernel.leaning(places_, values);
  Eigen::MatrixXd between(ends_, ends_);
  auto next = values.begin();
  for (Eigen::Index j = 0; j < ends_; ++j) {
    for (Eigen::Index i = 0; i < j; ++i, ++next) {
      between(i, j) = next->there;
      between(j, i) = next->back;
    }
    between(j, j) = 0.0;
  }
  const auto n = static_cast<Eigen::Index>(low_.size());
  Eigen::MatrixXd matrix(padded(n), n);
  matrix.bottomRows(padded(n) - n).setZero();
  for (Eigen::Index j = 0; j < n; ++j) {
    const Eigen::Index b = low_[static_cast<std::size_t>(j)];
    const double* lower = between.col(b).data();
    const double* upper = between.col(b + 1).data();
    for (Eigen::Index i = 0; i < n; ++i) {
      const Eigen::Index a = low_[static_cast<std::size_t>(i)];
      matrix(i, j) = lower[a + 1] - lower[a] - upper[a + 1] + upper[a];
    }
  }
  return matrix;
}

std::shared_ptr<const CellPairs> KeptPairs::of(const Section& section) {
  for (const auto& pairs : kept_)
    if (pairs->serves(section)) return pairs;
  auto made = std::make_shared<const CellPairs>(section);
  if (kept_.size() < most_kept) {
    kept_.push_back(made);
  } else {
    kept_[oldest_] = made;
    oldest_ = (oldest_ + 1) % most_kept;
  }
  return made;
}

}  // namespace drumlin::sim::fast
