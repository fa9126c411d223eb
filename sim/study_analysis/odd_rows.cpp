#include <algorithm>
#include <cmath>
#include <map>

#include <Eigen/Dense>

#include "sim/study_analysis/parts.hpp"

namespace drumlin::sim {
namespace {

constexpr std::size_t odd_rows_named = 5;
/// Twenty factors with all their products; more are taken straight.
constexpr Eigen::Index most_terms = 231;

/// Columns of a factor in the surface: its number over its scatter, or one per word but the first.
std::vector<Eigen::VectorXd> coordinates(const std::vector<double>& values, std::size_t words,
                                         const std::vector<std::size_t>& rows) {
  const auto n = static_cast<Eigen::Index>(rows.size());
  Eigen::VectorXd x(n);
  for (Eigen::Index i = 0; i < n; ++i)
    x[i] = values[rows[static_cast<std::size_t>(i)]];
  if (words > 0) {
    std::vector<Eigen::VectorXd> flags;
    for (std::size_t word = 1; word < words; ++word)
      flags.emplace_back((x.array() == static_cast<double>(word)).cast<double>());
    return flags;
  }
  x.array() -= x.mean();
  const double scatter = std::sqrt(x.squaredNorm() / static_cast<double>(n));
  if (!(scatter > 0)) return {};
  return {x / scatter};
}

Eigen::MatrixXd terms(const LookedAt& rows, const std::vector<std::size_t>& some) {
  const auto n = static_cast<Eigen::Index>(some.size());
  std::vector<Eigen::VectorXd> numbers;
  std::vector<Eigen::VectorXd> columns{Eigen::VectorXd::Ones(n)};
  for (std::size_t k = 0; k < rows.factors.size(); ++k) {
    const auto own = coordinates(rows.factors[k], rows.words[k].size(), some);
    if (rows.words[k].empty()) numbers.insert(numbers.end(), own.begin(), own.end());
    columns.insert(columns.end(), own.begin(), own.end());
  }
  const std::size_t products = numbers.size() * (numbers.size() + 1) / 2;
  if (static_cast<Eigen::Index>(columns.size() + products) <= most_terms)
    for (std::size_t a = 0; a < numbers.size(); ++a)
      for (std::size_t b = a; b < numbers.size(); ++b)
        columns.emplace_back(numbers[a].cwiseProduct(numbers[b]));
  const auto width = std::min(static_cast<Eigen::Index>(columns.size()), most_terms);
  Eigen::MatrixXd matrix(n, width);
  for (Eigen::Index j = 0; j < width; ++j)
    matrix.col(j) = columns[static_cast<std::size_t>(j)];
  return matrix;
}

}  // namespace

void add_odd_rows(const LookedAt& rows, const ReadColumns& columns,
                  const std::vector<std::size_t>& targets, StudyAnalysis& analysis) {
  std::map<std::uint64_t, OddRow> oddest;  // by row
  for (const std::size_t target : targets) {
    const std::vector<std::size_t> some = rows_with(rows, target);
    if (some.size() < 2) continue;
    const Eigen::MatrixXd matrix = terms(rows, some);
    // Twice as many rows as terms, or the surface goes through every row.
    if (matrix.rows() < 2 * matrix.cols() + 10) continue;
    Eigen::VectorXd y(matrix.rows());
    for (Eigen::Index i = 0; i < y.size(); ++i)
      y[i] = rows.outputs[target][some[static_cast<std::size_t>(i)]];
    const Eigen::VectorXd fit = matrix * matrix.colPivHouseholderQr().solve(y);
    const double rms = std::sqrt((y - fit).squaredNorm() / static_cast<double>(y.size()));
    // Where the surface says all, what is left is rounding.
    if (!(rms > 1e-9 * y.cwiseAbs().maxCoeff())) continue;
    analysis.fitted_rows = std::max<std::uint64_t>(analysis.fitted_rows, some.size());
    for (Eigen::Index i = 0; i < y.size(); ++i) {
      const OddRow odd{.row = rows.rows[some[static_cast<std::size_t>(i)]],
                       .column = columns.outputs[target],
                       .value = y[i],
                       .expected = fit[i],
                       .deviations = (y[i] - fit[i]) / rms};
      auto [place, fresh] = oddest.try_emplace(odd.row, odd);
      if (!fresh && std::abs(odd.deviations) > std::abs(place->second.deviations))
        place->second = odd;
    }
  }
  for (const auto& [row, odd] : oddest)
    analysis.odd_rows.push_back(odd);
  std::stable_sort(analysis.odd_rows.begin(), analysis.odd_rows.end(),
                   [](const OddRow& a, const OddRow& b) {
                     return std::abs(a.deviations) > std::abs(b.deviations);
                   });
  if (analysis.odd_rows.size() > odd_rows_named) analysis.odd_rows.resize(odd_rows_named);
}

}  // namespace drumlin::sim
