#include "sim/window/process_window.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "sim/numerics/error.hpp"
#include "sim/run.hpp"
#include "sim/verdict.hpp"
#include "sim/window/border_field.hpp"
#include "sim/window/map_facts.hpp"
#include "sim/window/robust_box.hpp"
#include "sim/window/window_probability.hpp"
#include "sim/window/window_words.hpp"

namespace drumlin::sim {
namespace {

constexpr std::size_t most_shrinks = 12;

class Drawer {
 public:
  Drawer(const cases::WindowStudy& study, unsigned threads,
         const std::function<void(double, std::string_view)>& progress, std::stop_token stop)
      : study_(study),
        progress_(progress),
        stop_(std::move(stop)),
        runner_(threads),
        judge_(study, runner_, stop_) {}

  Window draw();

 private:
  [[nodiscard]] std::vector<double> values_at(double first, double second) const;
  [[nodiscard]] std::vector<std::vector<double>> values_of(std::span<const MapPoint> points,
                                                           std::size_t cells) const;
  void show(double share, std::string_view what) const {
    if (progress_) progress_(share, what);
  }
  void draw_map();
  void find_box();
  [[nodiscard]] bool holds(const RobustBox& box, JudgedPoint& middle);
  void run_own();
  void take_new_limits();
  void find_probability();

  const cases::WindowStudy& study_;
  const std::function<void(double, std::string_view)>& progress_;
  std::stop_token stop_;
  Workers runner_;
  PointJudge judge_;
  Window window_;
};

std::vector<double> Drawer::values_at(double first, double second) const {
  const auto& [a, b] = study_.axes;
  return {a.from + first * (a.to - a.from), b.from + second * (b.to - b.from)};
}

std::vector<std::vector<double>> Drawer::values_of(std::span<const MapPoint> points,
                                                   std::size_t cells) const {
  std::vector<std::vector<double>> values;
  const auto n = static_cast<double>(cells);
  for (const MapPoint& point : points)
    values.push_back(values_at(static_cast<double>(point.i) / n, static_cast<double>(point.j) / n));
  return values;
}

void Drawer::draw_map() {
  const cases::WindowSettings& settings = study_.settings;
  const MapPlan plan{
      .coarse = static_cast<std::size_t>(settings.cells),
      .levels = static_cast<std::size_t>(settings.levels),
      .most_evaluations = static_cast<std::size_t>(settings.evaluations),
      .levels_without_zero = static_cast<std::size_t>(std::max(0, settings.levels - 2))};
  const double end = study_.scatter.empty() ? 0.9 : 0.3;
  std::map<MapPoint, JudgedPoint> judged;
  window_.map = adaptive_map(plan, [&](std::span<const MapPoint> points) {
    const std::size_t before = judged.size();
    std::vector<JudgedPoint> some =
        judge_.judge(values_of(points, plan.cells()), [&](std::size_t done) {
          show(
              end * static_cast<double>(before + done) / static_cast<double>(plan.most_evaluations),
              "map");
        });
    std::vector<int> kinds;
    for (std::size_t k = 0; k < points.size(); ++k) {
      kinds.push_back(some[k].kind);
      judged[points[k]] = std::move(some[k]);
    }
    return kinds;
  });
  window_.limits = judge_.limits().list();
  for (auto& [at, point] : judged) {
    point.margins.resize(window_.limits.size(), std::numeric_limits<double>::quiet_NaN());
    window_.points.push_back({at, point.kind, std::move(point.margins), std::move(point.reason)});
  }
  window_.evaluations.map = window_.points.size();
  window_.border = lines_of(window_.map, BorderField(window_.points));
}

/// Whether the middle, the corners and the middles of the sides are accepted.
bool Drawer::holds(const RobustBox& box, JudgedPoint& middle) {
  std::vector<std::vector<double>> values;
  for (const double i : {0.0, -1.0, 1.0})
    for (const double j : {0.0, -1.0, 1.0})
      values.push_back(values_at(box.middle[0] + i * box.reach, box.middle[1] + j * box.reach));
  std::vector<JudgedPoint> points = judge_.judge(values);
  window_.evaluations.checks += points.size();
  const bool all = std::all_of(points.begin(), points.end(), [](const JudgedPoint& point) {
    return point.kind == accepted_kind;
  });
  middle = std::move(points[0]);
  return all;
}

void Drawer::find_box() {
  auto box = robust_box(window_.map, window_.border);
  if (!box) return;
  // Straight lines between points are a little off a curved border, and a leap lies anywhere within
  // its cell: the box gives way until it holds.
  const double step = 0.25 / static_cast<double>(window_.map.cells);
  JudgedPoint middle;
  for (std::size_t shrinks = 0; shrinks <= most_shrinks && box->reach > step; ++shrinks) {
    if (holds(*box, middle)) {
      double least = std::numeric_limits<double>::infinity();
      for (std::size_t k = 0; k < middle.margins.size(); ++k)
        if (middle.margins[k] < least) {
          least = middle.margins[k];
          box->least_limit = static_cast<int>(k) + 1;
        }
      if (std::isfinite(least)) box->least_margin = least;
      box->shrunk = static_cast<int>(shrinks);
      window_.robust = box;
      return;
    }
    box->reach -= step;
  }
}

void Drawer::run_own() {
  show(0.9, "the case itself");
  const Setup setup = set_up(study_.base);
  Result result = run(setup, {}, stop_);
  if (stop_.stop_requested()) throw Stopped();
  OwnPoint& own = window_.own;
  own.verdict = result.verdict;
  window_.case_title = result.title;
  window_.model = result.model;
  window_.options = result.options;
  window_.calibrated = result.calibrated;
  window_.cautions = result.cautions;
  window_.pressing_cautions = result.pressing_cautions;
  window_.samples = result.samples;
  window_.provenance = result.provenance;
  // By the limits of the map, as every other point: what a window does not look at counts for none.
  own.kind = judge_.limits().judged(judge(study_.base.accept, result.part)).kind;
  MapPlace place{};
  bool on_map = true;
  for (std::size_t k = 0; k < 2; ++k) {
    const cases::WindowAxis& axis = study_.axes[k];
    on_map = on_map && axis.own && *axis.own >= axis.from && *axis.own <= axis.to;
    if (!axis.own) continue;
    own.values[k] = axis.shown(*axis.own);
    place[k] = (*axis.own - axis.from) / (axis.to - axis.from);
  }
  if (!on_map) return;
  own.place = place;
  own.distances = distances_from(place, own.kind, window_.border);
}

/// Limits that only the checks and the case itself have met.
void Drawer::take_new_limits() {
  const auto& list = judge_.limits().list();
  for (std::size_t k = window_.limits.size(); k < list.size(); ++k)
    window_.limits.push_back(list[k]);
  for (WindowPoint& point : window_.points)
    point.margins.resize(list.size(), std::numeric_limits<double>::quiet_NaN());
}

void Drawer::find_probability() {
  if (study_.scatter.empty()) return;
  const std::vector<std::vector<double>> draws = draws_of(study_);
  const MapPlan plan = probability_plan(study_.settings);
  std::size_t nodes = 0;
  window_.probability = probability_map(plan, draws.size(), [&](std::span<const MapPoint> points) {
    auto all = judge_.scatter(
        values_of(points, plan.cells()), draws, probability_levels, [&](std::size_t done) {
          const double share = (static_cast<double>(nodes) +
                                static_cast<double>(done) / static_cast<double>(draws.size())) /
                               static_cast<double>(plan.most_evaluations);
          show(0.35 + 0.55 * share, "probability");
        });
    nodes += points.size();
    return all;
  });
  WindowProbability& probability = *window_.probability;
  const auto at = [&](const MapPlace& place) {
    ++nodes;
    const std::vector<std::vector<double>> values{values_at(place[0], place[1])};
    return proportion(judge_.scatter(values, draws, {})[0].met, draws.size(),
                      probability_confidence);
  };
  if (window_.robust) probability.at_robust = at(window_.robust->middle);
  if (window_.own.place) probability.at_own = at(*window_.own.place);
  window_.evaluations.probability = nodes * draws.size();
  for (std::size_t k = 0; k < study_.scatter.size(); ++k)
    probability.scatter.push_back(
        {study_.scatter[k].key, spoken_setting(study_.scatter[k].key, study_.base.stations.size()),
         study_.scatter[k].meaning, study_.scatter_words[k]});
}

Window Drawer::draw() {
  window_.title = study_.title;
  for (std::size_t k = 0; k < 2; ++k) {
    const cases::WindowAxis& axis = study_.axes[k];
    window_.axes[k] = {axis.key,
                       spoken_setting(axis.key, study_.base.stations.size()),
                       axis.meaning,
                       axis.unit,
                       axis.shown(axis.from),
                       axis.shown(axis.to)};
  }
  draw_map();
  add_map_facts(window_);
  find_box();
  run_own();
  ++window_.evaluations.checks;
  take_new_limits();
  find_probability();
  window_.unused_keys = study_.unused;
  window_.study_file = study_.file;
  window_.study_text = study_.text;
  window_.study_sha256 = study_.sha256;
  window_.seed = study_.settings.seed;
  add_words(study_.base.accept, window_);
  show(1, "done");
  return std::move(window_);
}

}  // namespace

Window draw_window(const cases::WindowStudy& study, unsigned threads,
                   const std::function<void(double, std::string_view)>& progress,
                   const std::stop_token& stop) {
  return Drawer(study, threads, progress, stop).draw();
}

}  // namespace drumlin::sim
