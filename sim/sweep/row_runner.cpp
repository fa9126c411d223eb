#include "sim/sweep/row_runner.hpp"

#include <algorithm>
#include <chrono>
#include <exception>
#include <memory>
#include <numeric>
#include <optional>
#include <utility>

#include <fmt/format.h>
#include <tbb/blocked_range.h>
#include <tbb/enumerable_thread_specific.h>
#include <tbb/parallel_for.h>
#include <tbb/parallel_pipeline.h>
#include <tbb/task_arena.h>

#include "sim/numerics/error.hpp"
#include "sim/scatter/row_draws.hpp"
#include "sim/sweep/columns.hpp"
#include "sim/sweep/drum_choice.hpp"
#include "sim/sweep/row_answer.hpp"
#include "sim/sweep/row_plan.hpp"

namespace drumlin::sim {
namespace {

/// Drums kept per station and thread: those of a small grid over cover and speed. Half a megabyte
/// each with the sections cut for them.
constexpr std::size_t most_drums = 32;
/// Rows of the fast model that a thread takes at a time: a millisecond or more of work. Others take
/// longer than that each.
constexpr std::size_t fast_rows_at_a_time = 16;
/// Ranges under way at once for every thread: one that is worked on, one that waits to be taken.
constexpr std::size_t ranges_per_thread = 2;
/// Rows looked at for one that runs, to learn the columns.
constexpr std::uint64_t most_tries = 64;

/// Of what became of a row that ran.
void state_verdict(const Verdict& verdict, Row& row) {
  if (verdict.state == "not accepted") row.status = RowStatus::not_accepted;
  if (verdict.state == "not known") row.status = RowStatus::not_known;
  if (row.status != RowStatus::done) row.reason = verdict.decided_by;
}

}  // namespace

std::string_view to_text(RowStatus status) noexcept {
  switch (status) {
    case RowStatus::done:
      return "done";
    case RowStatus::not_accepted:
      return "not accepted";
    case RowStatus::not_known:
      return "not known";
    case RowStatus::left_out:
      return "left out";
    case RowStatus::bad_input:
      return "bad input";
    case RowStatus::not_converged:
      return "not converged";
  }
  return "";
}

struct RowRunner::Parts {
  const cases::Study& study;
  RowPlan plan;
  Columns columns;
  std::vector<std::optional<double>> first_outputs;
  std::optional<RowDraws> scatter;
  std::vector<StudyColumn> all_columns;  // those of the scatter behind the others
  tbb::task_arena arena;
  tbb::enumerable_thread_specific<fast::Drums> drums;

  Parts(const cases::Study& of, unsigned threads)
      : study(of),
        plan(of),
        arena(threads == 0 ? tbb::task_arena::automatic : static_cast<int>(threads)),
        drums([axes = drum_axes(of, plan, most_drums)] { return fast::Drums(most_drums, axes); }) {}

  void learn_columns();
  [[nodiscard]] Row row(std::uint64_t index, const std::stop_token& stop);
  [[nodiscard]] Row answered(std::uint64_t index, const std::stop_token& stop);
  /// Rows whose indices `index_of(0)`, ... are; by the calling thread and whoever is free.
  template <class IndexOf>
  [[nodiscard]] std::vector<Row> rows(std::size_t count, const IndexOf& index_of,
                                      const std::stop_token& stop);
};

/// The first row that runs, and the first of each word of every factor: words may change the part
/// and the line.
void RowRunner::Parts::learn_columns() {
  if (study.scatter) scatter.emplace(*study.scatter);
  fast::Drums made;
  std::exception_ptr last;
  const auto learn = [&](const std::vector<double>& values) {
    try {
      const RowAnswer answer = row_answer(set_up(study.with(values)), made, {});
      columns.add(answer);
      if (first_outputs.empty()) first_outputs = columns.values(answer);
      if (scatter) scatter->learn(answer.verdict);
      return true;
    } catch (const cases::CaseError&) {
      last = std::current_exception();
    } catch (const NumericsError&) {
      last = std::current_exception();
    }
    return false;
  };
  std::optional<std::vector<double>> runs;
  for (std::uint64_t i = 0; i < std::min(most_tries, study.rows()) && !runs; ++i) {
    // Tries spread over the study: its first rows may be a corner that cannot be.
    const std::uint64_t stride = std::max<std::uint64_t>(study.rows() / most_tries, 1);
    std::vector<double> values = plan.values(i * stride);
    if (learn(values)) runs = std::move(values);
  }
  if (!runs) std::rethrow_exception(last);
  for (std::size_t k = 0; k < study.factors.size(); ++k) {
    std::vector<double> values = *runs;
    for (std::size_t w = 0; w < study.factors[k].words.size(); ++w) {
      values[k] = static_cast<double>(w);
      learn(values);
    }
  }
  all_columns = columns.list();
  if (scatter)
    for (StudyColumn& column : scatter->columns())
      all_columns.push_back(std::move(column));
}

Row RowRunner::Parts::row(std::uint64_t index, const std::stop_token& stop) {
  if (stop.stop_requested()) throw Stopped();
  const auto start = std::chrono::steady_clock::now();
  Row row = answered(index, stop);
  row.wall_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return row;
}

Row RowRunner::Parts::answered(std::uint64_t index, const std::stop_token& stop) {
  Row row;
  row.index = index;
  row.values = plan.values(index);
  row.outputs.resize(all_columns.size());
  if (const cases::Filter* filter = plan.left_out_by(row.values)) {
    row.status = RowStatus::left_out;
    row.reason = filter->text;
    return row;
  }
  try {
    const Setup setup = set_up(study.with(row.values));
    const RowAnswer answer = row_answer(setup, drums.local(), stop);
    row.outputs = columns.values(answer);
    if (scatter) {
      const auto drawn = scatter->values(row.values, drums.local(), stop);
      row.outputs.insert(row.outputs.end(), drawn.begin(), drawn.end());
    }
    state_verdict(answer.verdict, row);
  } catch (const cases::CaseError& error) {
    row.status = RowStatus::bad_input;
    row.reason = error.what();
  } catch (const NumericsError& error) {
    row.status = RowStatus::not_converged;
    row.reason = error.what();
  }
  return row;
}

RowRunner::RowRunner(const cases::Study& study, unsigned threads)
    : parts_(std::make_unique<Parts>(study, threads)) {
  parts_->learn_columns();
}

RowRunner::~RowRunner() = default;

const std::vector<StudyColumn>& RowRunner::columns() const noexcept {
  return parts_->all_columns;
}

const std::vector<std::optional<double>>& RowRunner::first_outputs() const noexcept {
  return parts_->first_outputs;
}

template <class IndexOf>
std::vector<Row> RowRunner::Parts::rows(std::size_t count, const IndexOf& index_of,
                                        const std::stop_token& stop) {
  const std::size_t at_a_time =
      study.base.numerics.model == "fast" ? fast_rows_at_a_time : std::size_t{1};
  std::vector<Row> rows(count);
  tbb::parallel_for(tbb::blocked_range<std::size_t>(0, count, at_a_time),
                    [&](const tbb::blocked_range<std::size_t>& some) {
                      for (std::size_t i = some.begin(); i != some.end(); ++i)
                        rows[i] = row(index_of(i), stop);
                    });
  return rows;
}

unsigned RowRunner::threads() const noexcept {
  return static_cast<unsigned>(parts_->arena.max_concurrency());
}

std::vector<Row> RowRunner::run(std::span<const std::uint64_t> indices,
                                const std::stop_token& stop) {
  return parts_->arena.execute([&] {
    return parts_->rows(
        indices.size(), [&](std::size_t i) { return indices[i]; }, stop);
  });
}

std::vector<Row> RowRunner::run(std::uint64_t first, std::uint64_t end,
                                const std::stop_token& stop) {
  return parts_->arena.execute([&] {
    return parts_->rows(
        end - first, [&](std::size_t i) { return first + i; }, stop);
  });
}

void RowRunner::stream(const std::function<std::optional<RowRange>()>& next,
                       const std::function<void(RowRange, std::vector<Row>)>& take,
                       const std::stop_token& stop) {
  struct Batch {
    RowRange range;
    std::vector<Row> rows;
  };
  using Held = std::shared_ptr<Batch>;
  const auto source = tbb::make_filter<void, Held>(
      tbb::filter_mode::serial_in_order, [&](tbb::flow_control& control) -> Held {
        const auto range = next();
        if (!range) {
          control.stop();
          return {};
        }
        return std::make_shared<Batch>(Batch{*range, {}});
      });
  const auto compute =
      tbb::make_filter<Held, Held>(tbb::filter_mode::parallel, [&](const Held& batch) {
        const RowRange range = batch->range;
        batch->rows = parts_->rows(
            range.end - range.first, [&](std::size_t i) { return range.first + i; }, stop);
        return batch;
      });
  const auto sink = tbb::make_filter<Held, void>(
      tbb::filter_mode::parallel,
      [&](const Held& batch) { take(batch->range, std::move(batch->rows)); });
  parts_->arena.execute(
      [&] { tbb::parallel_pipeline(ranges_per_thread * threads(), source & compute & sink); });
}

}  // namespace drumlin::sim
