#include "sim/scatter/scatter_study.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "sim/numerics/error.hpp"
#include "sim/scatter/outputs.hpp"
#include "sim/scatter/pick_freeze_design.hpp"
#include "sim/scatter/words.hpp"
#include "sim/statistics/percentile.hpp"
#include "sim/statistics/proportion.hpp"
#include "sim/statistics/sobol_indices.hpp"
#include "sim/sweep/row_answer.hpp"
#include "sim/sweep/workers.hpp"

namespace drumlin::sim {
namespace {

/// Draws that a thread takes at a time.
constexpr std::size_t draws_at_a_time = 4;

std::optional<Spread> spread_of(const std::vector<double>& values) {
  const Moments some = moments(values);
  if (some.count == 0) return std::nullopt;
  constexpr std::array<double, 3> percents{5, 50, 95};
  const auto at = percentiles(values, percents);
  return Spread{
      .p5 = at[0], .p50 = at[1], .p95 = at[2], .mean = some.mean, .deviation = some.deviation};
}

Probability probability_of(std::uint64_t met, std::uint64_t of) {
  const Proportion share = proportion(met, of);
  return {.value = share.value, .low = share.low, .high = share.high, .met = met, .of = of};
}

/// All draws of all sets, run.
class Draws {
 public:
  Draws(const cases::Study& study, const Outputs& outputs, const ScatterOptions& options)
      : study_(study),
        outputs_(outputs),
        design_(study.factors.size(), study.points, study.seed),
        options_(options) {}

  void run();

  [[nodiscard]] const PickFreezeDesign& design() const { return design_; }
  [[nodiscard]] const Draw& at(std::size_t set, std::size_t point) const {
    return sets_[set][point];
  }
  /// One number of every draw of A, then of B.
  template <class Get>
  [[nodiscard]] std::vector<double> of_both(const Get& get) const {
    std::vector<double> all;
    for (const std::size_t set : {std::size_t{0}, std::size_t{1}})
      for (const Draw& draw : sets_[set])
        all.push_back(get(draw));
    return all;
  }
  template <class Is>
  [[nodiscard]] std::uint64_t count(const Is& is) const {
    std::uint64_t some = 0;
    for (const std::size_t set : {std::size_t{0}, std::size_t{1}})
      some += static_cast<std::uint64_t>(std::count_if(sets_[set].begin(), sets_[set].end(), is));
    return some;
  }
  [[nodiscard]] std::uint64_t drawn() const { return 2 * design_.size(); }
  [[nodiscard]] PickFreeze values_of(std::size_t output) const;
  [[nodiscard]] std::vector<double> drawn_of(std::size_t input) const;
  [[nodiscard]] std::vector<ScatterFailure> failures() const;

 private:
  [[nodiscard]] std::vector<double> values(std::size_t set, std::uint64_t point) const;
  [[nodiscard]] Draw draw(std::size_t set, std::uint64_t point, fast::Drums& drums) const;

  const cases::Study& study_;
  const Outputs& outputs_;
  PickFreezeDesign design_;
  const ScatterOptions& options_;
  std::vector<std::vector<Draw>> sets_;
};

std::vector<double> Draws::values(std::size_t set, std::uint64_t point) const {
  std::vector<double> values = design_.at(set, point);
  for (std::size_t i = 0; i < values.size(); ++i)
    values[i] = models::quantile(*study_.factors[i].distribution, values[i]);
  return values;
}

Draw Draws::draw(std::size_t set, std::uint64_t point, fast::Drums& drums) const {
  try {
    return outputs_.read(row_answer(set_up(study_.with(values(set, point))), drums, options_.stop));
  } catch (const cases::CaseError& error) {
    return outputs_.failed(RowStatus::bad_input, error.what());
  } catch (const NumericsError& error) {
    return outputs_.failed(RowStatus::not_converged, error.what());
  }
}

void Draws::run() {
  Workers workers(options_.threads);
  sets_.resize(design_.sets());
  for (std::size_t set = 0; set < sets_.size(); ++set) {
    sets_[set].resize(design_.size());
    workers.each(sets_[set].size(), draws_at_a_time, [&](std::size_t point, fast::Drums& drums) {
      sets_[set][point] = draw(set, point, drums);
    });
    if (options_.progress)
      options_.progress(static_cast<double>(set + 1) / static_cast<double>(sets_.size()));
  }
}

PickFreeze Draws::values_of(std::size_t output) const {
  PickFreeze values;
  values.ab.resize(design_.inputs());
  for (std::size_t set = 0; set < sets_.size(); ++set) {
    std::vector<double>& into = set == 0 ? values.a : set == 1 ? values.b : values.ab[set - 2];
    for (const Draw& draw : sets_[set])
      into.push_back(draw.values[output]);
  }
  return values;
}

std::vector<double> Draws::drawn_of(std::size_t input) const {
  std::vector<double> all;
  for (const std::size_t set : {std::size_t{0}, std::size_t{1}})
    for (std::uint64_t point = 0; point < design_.size(); ++point)
      all.push_back(values(set, point)[input]);
  return all;
}

std::vector<ScatterFailure> Draws::failures() const {
  std::vector<ScatterFailure> list;
  for (const RowStatus status : {RowStatus::bad_input, RowStatus::not_converged}) {
    ScatterFailure failure;
    failure.what = std::string(to_text(status));
    for (std::size_t set = 0; set < sets_.size(); ++set)
      for (const Draw& draw : sets_[set]) {
        if (draw.status != status) continue;
        if (failure.runs == 0) failure.reason = draw.reason;
        ++failure.runs;
        if (set < 2) ++failure.draws;
      }
    if (failure.runs > 0) list.push_back(std::move(failure));
  }
  return list;
}

/// What all draws say of one output.
class Follow {
 public:
  Follow(const Draws& draws, const ScatterStudy& study) : draws_(draws), study_(study) {}

  void limit(std::size_t index, ScatterOutput& output) const;
  void value(std::size_t index, ScatterOutput& output) const;

 private:
  const Draws& draws_;
  const ScatterStudy& study_;
};

void Follow::value(std::size_t index, ScatterOutput& output) const {
  output.values = draws_.of_both([index](const Draw& draw) { return draw.values[index]; });
  output.value = spread_of(output.values);
  output.not_known = static_cast<std::uint64_t>(std::count_if(
      output.values.begin(), output.values.end(), [](double value) { return std::isnan(value); }));
  if (!output.value) return;
  const SobolIndices indices = sobol_indices(draws_.values_of(index), study_.seed);
  // Below a billionth of the value itself a spread is rounding.
  const double size = std::max(std::abs(output.value->mean), 1e-300);
  if (indices.first.empty() || std::sqrt(indices.variance) < 1e-9 * size) return;
  for (std::size_t i = 0; i < indices.first.size(); ++i)
    output.shares.push_back({.first = indices.first[i].value,
                             .first_error = indices.first[i].error,
                             .total = indices.total[i].value,
                             .total_error = indices.total[i].error});
}

void Follow::limit(std::size_t index, ScatterOutput& output) const {
  const auto said = [&](Met what) {
    return draws_.count([&](const Draw& draw) {
      return draw.status == RowStatus::done && draw.met[index] == what;
    });
  };
  const std::uint64_t judged = said(Met::yes) + said(Met::no);
  if (judged == 0) {
    output.why_not = said(Met::not_known) > 0
                         ? "the " + study_.model + " model gives no value to hold against it"
                     : said(Met::absent) > 0 ? "draws do not follow it"
                                             : "no draw could be computed";
    return;
  }
  output.met = probability_of(said(Met::yes) + said(Met::absent), draws_.drawn());
  output.margin =
      spread_of(draws_.of_both([index](const Draw& draw) { return draw.margins[index]; }));
  if (output.margin && output.margin->deviation > 1e-9 * std::abs(output.margin->mean))
    output.margin_deviations = output.margin->mean / output.margin->deviation;
}

const ScatterOutput* weakest(const std::vector<ScatterOutput>& limits) {
  const ScatterOutput* found = nullptr;
  for (const ScatterOutput& limit : limits)
    if (limit.met && (found == nullptr || by_weakness(limit) < by_weakness(*found))) found = &limit;
  return found;
}

}  // namespace

ScatterStudy scatter_study(const cases::Study& study, const PartState& part, const Verdict& verdict,
                           const ScatterOptions& options) {
  const Outputs outputs(part, verdict);
  Draws draws(study, outputs, options);
  draws.run();

  ScatterStudy result;
  result.model = study.base.numerics.model;
  result.size = study.points;
  result.seed = study.seed;
  result.draws = draws.drawn();
  result.runs = study.points * draws.design().sets();
  for (std::size_t i = 0; i < study.factors.size(); ++i) {
    const cases::ScatteredKey& key = study.base.uncertainty->keys[i];
    result.inputs.push_back({.key = key.key,
                             .meaning = key.meaning,
                             .distribution = key.text,
                             .unit = key.unit,
                             .drawn = spread_of(draws.drawn_of(i))});
  }
  const Follow follow(draws, result);
  std::vector<std::size_t> judged;
  for (std::size_t i = 0; i < outputs.list().size(); ++i) {
    ScatterOutput output = outputs.list()[i];
    const bool limited = i < outputs.limits();
    if (limited) follow.limit(i, output);
    follow.value(i, output);
    output.decides = decides_text(output, result.inputs);
    if (limited && output.met) judged.push_back(i);
    // A number without limit that no draw gives is no number of this part.
    if (limited || output.value)
      (limited ? result.limits : result.others).push_back(std::move(output));
  }
  if (!judged.empty()) {
    const auto all = draws.count([&](const Draw& draw) {
      return draw.status == RowStatus::done && !draw.fails_elsewhere &&
             std::all_of(judged.begin(), judged.end(), [&](std::size_t i) {
               return draw.met[i] == Met::yes || draw.met[i] == Met::absent;
             });
    });
    result.all_met = probability_of(all, draws.drawn());
  }
  result.failures = draws.failures();
  if (const ScatterOutput* least = weakest(result.limits)) result.decides = least->decides;
  result.notes = scatter_notes(result, study);
  return result;
}

}  // namespace drumlin::sim
