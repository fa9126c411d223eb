#include "sim/remedy/pairs.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace drumlin::sim {
namespace {

constexpr std::size_t pairs_tried = 4;
constexpr std::size_t places_tried = 24;
constexpr int rounds = 2;
constexpr int halvings = 7;
/// Weight of a predicted margin that fails, against change: one limit's size is as bad as a factor
/// of e on three knobs (our choice).
constexpr double weight = 3.0;

/// A place along one axis and the margins there over their limits.
struct Point {
  double place = 0;
  std::vector<double> margins;
};

std::vector<double> margins_of(const Trial& trial) {
  std::vector<double> list;
  for (const TriedLimit& limit : trial.limits)
    list.push_back(limit.margin ? *limit.margin / limit.size
                                : std::numeric_limits<double>::infinity());
  return list;
}

std::vector<Point> points_along(Trials& trials, const Axis& axis) {
  std::vector<Point> points;
  for (const int way : {-1, +1}) {
    for (const double place : axis.places(way)) {
      const Trial& trial = trials.at(axis.settings(place));
      if (!trial.refused.empty()) break;
      points.push_back({place, margins_of(trial)});
    }
  }
  return points;
}

double predicted(const std::vector<double>& base, const Point& a, const Point& b) {
  double worst = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < base.size(); ++i)
    if (std::isfinite(base[i])) worst = std::min(worst, a.margins[i] + b.margins[i] - base[i]);
  return worst;
}

/// One pair with its places, best first.
struct Candidate {
  std::size_t one = 0, other = 0;
  struct Place {
    double at, other_at, score;
  };
  std::vector<Place> places;
};

class Search {
 public:
  Search(Trials& trials, const std::vector<Axis>& axes) : trials_(trials), axes_(axes) {}

  PairSearch all();

 private:
  [[nodiscard]] std::vector<Candidate> candidates();
  [[nodiscard]] PairPlace place(std::size_t one, std::size_t other, double at, double other_at);
  void improve(PairPlace& best);
  void shrink(PairPlace& best, bool first);

  Trials& trials_;
  const std::vector<Axis>& axes_;
};

std::vector<Candidate> Search::candidates() {
  const std::vector<double> base = margins_of(trials_.base());
  std::vector<std::vector<Point>> points;
  for (const Axis& axis : axes_)
    points.push_back(axis.knob().setting ? points_along(trials_, axis) : std::vector<Point>());
  std::vector<Candidate> list;
  for (std::size_t a = 0; a < axes_.size(); ++a) {
    for (std::size_t b = a + 1; b < axes_.size(); ++b) {
      Candidate pair{a, b, {}};
      for (const Point& p : points[a])
        for (const Point& q : points[b]) {
          const double change = axes_[a].change(p.place) + axes_[b].change(q.place);
          pair.places.push_back(
              {p.place, q.place, change + weight * std::max(-predicted(base, p, q), 0.0)});
        }
      if (pair.places.empty()) continue;
      const std::size_t kept = std::min(places_tried, pair.places.size());
      std::stable_sort(pair.places.begin(), pair.places.end(),
                       [](const auto& x, const auto& y) { return x.score < y.score; });
      pair.places.resize(kept);
      list.push_back(std::move(pair));
    }
  }
  std::stable_sort(list.begin(), list.end(), [](const Candidate& x, const Candidate& y) {
    return x.places.front().score < y.places.front().score;
  });
  if (list.size() > pairs_tried) list.resize(pairs_tried);
  return list;
}

PairPlace Search::place(std::size_t one, std::size_t other, double at, double other_at) {
  PairPlace result{one,      other, at,
                   other_at, 0,     axes_[one].change(at) + axes_[other].change(other_at)};
  const Trial& trial = trials_.at(result.settings(axes_));
  result.worst = trial.refused.empty() ? trial.worst().value_or(-1.0)
                                       : -std::numeric_limits<double>::infinity();
  return result;
}

/// Brings one of both knobs as near to the case as all limits hold.
void Search::shrink(PairPlace& best, bool first) {
  const Axis& axis = axes_[first ? best.one : best.other];
  double holds = first ? best.at : best.other_at;
  const auto tried = [&](double x) {
    return first ? place(best.one, best.other, x, best.other_at)
                 : place(best.one, best.other, best.at, x);
  };
  if (axis.in_steps()) {
    for (double x = holds - std::copysign(1.0, holds); std::abs(x) > 0.5;
         x -= std::copysign(1.0, x)) {
      const PairPlace there = tried(x);
      if (there.worst < 0) return;
      best = there;
    }
    return;
  }
  double fails = 0;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (holds + fails);
    const PairPlace there = tried(middle);
    if (there.worst >= 0) {
      best = there;
      holds = middle;
    } else {
      fails = middle;
    }
  }
}

void Search::improve(PairPlace& best) {
  for (int round = 0; round < rounds; ++round) {
    // The knob that has gone further first: it has more to give.
    const bool first = axes_[best.one].change(best.at) >= axes_[best.other].change(best.other_at);
    shrink(best, first);
    shrink(best, !first);
  }
}

PairSearch Search::all() {
  PairSearch result;
  for (const Candidate& pair : candidates()) {
    std::optional<PairPlace> best;
    for (const Candidate::Place& at : pair.places) {
      const PairPlace there = place(pair.one, pair.other, at.at, at.other_at);
      if (!result.nearest || there.worst > result.nearest->worst) result.nearest = there;
      if (there.worst >= 0 && (!best || there.change < best->change)) best = there;
      // Places are ordered by what they are expected to cost: the first that holds is near.
      if (best && at.score > best->change) break;
    }
    if (!best) continue;
    improve(*best);
    result.found.push_back(*best);
  }
  std::stable_sort(result.found.begin(), result.found.end(),
                   [](const PairPlace& a, const PairPlace& b) { return a.change < b.change; });
  if (!result.found.empty()) result.nearest.reset();
  return result;
}

}  // namespace

Settings PairPlace::settings(const std::vector<Axis>& axes) const {
  Settings settings = axes[one].settings(at);
  const Settings more = axes[other].settings(other_at);
  settings.insert(settings.end(), more.begin(), more.end());
  return settings;
}

PairSearch search_pairs(Trials& trials, const std::vector<Axis>& axes) {
  return Search(trials, axes).all();
}

}  // namespace drumlin::sim
