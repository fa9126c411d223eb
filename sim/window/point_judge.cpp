#include "sim/window/point_judge.hpp"

#include <algorithm>
#include <cmath>
#include <exception>
#include <limits>
#include <optional>
#include <utility>

#include "sim/numerics/error.hpp"
#include "sim/setup.hpp"
#include "sim/sweep/row_answer.hpp"

namespace drumlin::sim {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
/// Below it a limit counts as zero, as in the verdict.
constexpr double least_size = 1e-12;
/// Cases between two looks at the progress.
constexpr std::size_t fast_lump = 256;
constexpr std::size_t line_lump = 16;

/// Margins kept at a time: memory does not grow with points times draws.
constexpr std::size_t most_kept = 4'000'000;

/// In single precision without losing the sign: a margin just below zero stays below.
float stored(double margin) {
  const auto rounded = static_cast<float>(margin);
  if (margin < 0 && rounded >= 0) return -std::numeric_limits<float>::min();
  return rounded;
}

/// What became of one case, before its limits have numbers.
struct Ran {
  std::optional<Verdict> verdict;
  std::string reason;
  std::exception_ptr failure;
};

Ran run_case(const std::function<cases::Case()>& make, fast::Drums& drums,
             const std::stop_token& stop) {
  if (stop.stop_requested()) throw Stopped();
  Ran ran;
  try {
    ran.verdict = row_answer(set_up(make()), drums, stop).verdict;
  } catch (const cases::CaseError& error) {
    ran.reason = error.what();
    ran.failure = std::current_exception();
  } catch (const NumericsError& error) {
    ran.reason = error.what();
    ran.failure = std::current_exception();
  }
  return ran;
}

}  // namespace

double relative_margin(const VerdictItem& item) {
  if (!item.margin) return unknown;
  const double size = std::max(std::abs(item.high.value_or(0.0)), std::abs(item.low.value_or(0.0)));
  return *item.margin / std::max(size, least_size);
}

std::size_t LimitList::number_of(const VerdictItem& item) {
  for (std::size_t k = 0; k < list_.size(); ++k)
    if (list_[k].name == item.name && list_[k].limit == item.limit) return k;
  list_.push_back({item.name, item.limit});
  return list_.size() - 1;
}

JudgedPoint LimitList::judged(const Verdict& verdict) {
  JudgedPoint point;
  bool all_known = !verdict.items.empty();
  for (const VerdictItem& item : verdict.items) {
    const std::size_t number = number_of(item);
    if (point.margins.size() < list_.size()) point.margins.resize(list_.size(), unknown);
    point.margins[number] = relative_margin(item);
    all_known = all_known && item.accepted.has_value();
  }
  point.kind = failing_kind(point.margins);
  if (point.kind == accepted_kind && !all_known) point.kind = not_known_kind;
  return point;
}

std::size_t PointJudge::at_a_time() const {
  return study_.base.numerics.model == "fast" ? fast_lump : line_lump;
}

std::vector<JudgedPoint> PointJudge::judge(std::span<const std::vector<double>> values,
                                           const Done& done) {
  std::vector<JudgedPoint> points;
  points.reserve(values.size());
  std::exception_ptr first_failure;
  for (std::size_t begin = 0; begin < values.size(); begin += at_a_time()) {
    const std::size_t count = std::min(at_a_time(), values.size() - begin);
    std::vector<Ran> ran(count);
    runner_.each(count, at_a_time() / 16, [&](std::size_t i, fast::Drums& drums) {
      ran[i] = run_case([&] { return study_.with(values[begin + i]); }, drums, stop_);
    });
    // Limits get their numbers here, in the order of the points, whoever ran them.
    for (Ran& one : ran) {
      if (one.verdict) {
        points.push_back(limits_.judged(*one.verdict));
        any_computed_ = true;
        continue;
      }
      if (!first_failure) first_failure = one.failure;
      points.push_back({not_computed_kind, {}, std::move(one.reason)});
    }
    if (done) done(begin + count);
  }
  if (!any_computed_ && first_failure) std::rethrow_exception(first_failure);
  return points;
}

/// Of each draw, point by point: the worst margin over its limit; minus infinity where it is not
/// known.
std::vector<float> PointJudge::worst_margins(std::span<const std::vector<double>> values,
                                             std::span<const std::vector<double>> draws,
                                             const Done& done) {
  const std::size_t points = values.size();
  std::vector<float> worst(points * draws.size(), -std::numeric_limits<float>::infinity());
  // Draw by draw, all points of one on end: what scatters may change the drum, which is then made
  // once a draw.
  const std::size_t lump = 4 * std::max(points, at_a_time());
  for (std::size_t begin = 0; begin < worst.size(); begin += lump) {
    const std::size_t count = std::min(lump, worst.size() - begin);
    runner_.each(count, std::max(at_a_time() / 16, std::min<std::size_t>(points, 64)),
                 [&](std::size_t k, fast::Drums& drums) {
                   const std::size_t draw = (begin + k) / points;
                   std::vector<double> all = values[(begin + k) % points];
                   all.insert(all.end(), draws[draw].begin(), draws[draw].end());
                   const Ran ran = run_case([&] { return study_.with_scatter(all); }, drums, stop_);
                   if (!ran.verdict || ran.verdict->state == "not known") return;
                   float& least = worst[begin + k];
                   least = std::numeric_limits<float>::max();
                   for (const VerdictItem& item : ran.verdict->items)
                     if (item.margin) least = std::min(least, stored(relative_margin(item)));
                 });
    if (done) done(begin + count);
  }
  return worst;
}

std::vector<PointJudge::Scattered> PointJudge::scatter(std::span<const std::vector<double>> values,
                                                       std::span<const std::vector<double>> draws,
                                                       std::span<const double> levels,
                                                       const Done& done) {
  const std::size_t n = draws.size();
  const std::size_t at_once = std::max<std::size_t>(1, most_kept / n);
  std::vector<Scattered> all;
  std::vector<float> own(n);
  for (std::size_t begin = 0; begin < values.size(); begin += at_once) {
    const std::size_t points = std::min(at_once, values.size() - begin);
    const std::vector<float> worst =
        worst_margins(values.subspan(begin, points), draws, [&](std::size_t some) {
          if (done) done(begin * n + some);
        });
    for (std::size_t i = 0; i < points; ++i) {
      Scattered of;
      for (std::size_t d = 0; d < n; ++d) {
        own[d] = worst[d * points + i];
        if (own[d] >= 0) ++of.met;
        if (std::isinf(own[d])) ++of.unknown;
      }
      std::sort(own.begin(), own.end());
      for (const double level : levels) {
        const auto reached = static_cast<std::size_t>(std::clamp(
            std::ceil(level * static_cast<double>(n) - 1e-9), 1.0, static_cast<double>(n)));
        of.margins.push_back(static_cast<double>(own[n - reached]));
      }
      all.push_back(std::move(of));
    }
  }
  return all;
}

}  // namespace drumlin::sim
