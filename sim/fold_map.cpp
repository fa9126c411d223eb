#include "sim/fold_map.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "sim/answer.hpp"
#include "sim/drum_state.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/turned.hpp"

namespace drumlin::sim {
namespace {

using cases::Side;

constexpr std::size_t points = 24;  // along either axis
/// The map goes so many times beyond the case's burr and the end of folding, up and down.
constexpr double room = 4.0;
/// Roots between which the end of folding is looked for [mm]: thinner is foil, thicker is a bar.
constexpr double thinnest = 1e-3;
constexpr double thickest = 4.0;
constexpr int halvings = 10;
/// Burr metal that counts as gone [mm]: less than any gauge reads.
constexpr double gone = 1e-3;

/// An edge with a wall burr that a belt pushes beyond it.
struct Watched {
  std::size_t station = 0;
  cases::Feature feature;  // with that edge alone, named as its result
  double angle = 0;        // of a part on which it lies so [rad]
};

/// The edge of a feature that a belt rubs outwards: with the feed it rubs towards +x, the way a
/// leading edge's metal ends.
std::optional<Watched> pushed_beyond(const cases::Feature& feature, double angle, bool with_feed) {
  if (!std::holds_alternative<models::WallBurr>(feature.burr)) return std::nullopt;
  const Side wanted = with_feed ? Side::leading : Side::trailing;
  for (const Side drawn : sides_of(feature)) {
    for (const FedEdge& fed : fed_edges(angle, drawn)) {
      if (fed.side != wanted) continue;
      Watched watched{.station = 0, .feature = feature, .angle = fed.skew};
      watched.feature.name = edge_name(feature, drawn);
      watched.feature.side = wanted;
      return watched;
    }
  }
  return std::nullopt;
}

/// The first belt that meets the burrs, and what it pushes over.
std::optional<Watched> find_watched(const Setup& setup) {
  const cases::Part& part = setup.scenario.part;
  for (const auto& meeting : cases::meetings<FlipSetup>(part.burr_side, 1, setup.stations)) {
    const auto* belt = std::get_if<BeltSetup>(&setup.stations[meeting.station]);
    if (belt == nullptr || !meeting.burrs_up) continue;
    for (const auto& feature : part.features) {
      auto watched = pushed_beyond(feature, part.angle, belt->with_feed);
      if (!watched) continue;
      watched->station = meeting.station;
      return watched;
    }
    return std::nullopt;
  }
  return std::nullopt;
}

struct Outcome {
  FoldMap::Outcome kind = FoldMap::Outcome::stands;
  double left = 0;
  double secondary = 0;
};

/// One station, one pass, one edge: asked again and again with another burr.
class Bench {
 public:
  Bench(const Setup& setup, const Watched& watched, std::stop_token stop)
      : setup_(setup), stop_(std::move(stop)) {
    setup_.stations = {setup.stations[watched.station]};
    setup_.scenario.stations.clear();
    setup_.scenario.conveyor.passes = 1;
    setup_.scenario.part.features = {watched.feature};
    setup_.scenario.part.burr_side = cases::BurrSide::up;
    setup_.scenario.part.angle = watched.angle;
    settle();
  }

  [[nodiscard]] Outcome ask(double height, double root) {
    auto& wall = std::get<models::WallBurr>(setup_.scenario.part.features.front().burr);
    wall.height = height;
    wall.root = root;
    const StatedAnswer answer =
        fast::state(setup_, fast::simulate(setup_, drums_, stop_), /*waves=*/false);
    const FeatureResult& edge = answer.part.features.front();
    Outcome outcome{.left = edge.burr_height->value, .secondary = edge.secondary_burr->value};
    if (edge.fold_start)
      outcome.kind = FoldMap::Outcome::folds;
    else if (outcome.left <= gone)
      outcome.kind = FoldMap::Outcome::ground_off;
    return outcome;
  }

 private:
  /// Holds the drum where the setting puts it: a line load would be looked for again every time.
  void settle() {
    BeltSetup& station = setup_.belt(0);
    const auto found = fast::simulate(setup_, drums_, stop_).first.front();
    const double added = station.interference_offset + cover_growth(station);
    station.frame_compliance = 0.0;
    station.setting = cases::InterferenceSetting{found->effective_interference - added};
  }

  Setup setup_;
  fast::Drums drums_;
  std::stop_token stop_;
};

/// Root at which folding ends at a height: below it folds, above it does not.
std::optional<double> end_of_folding(Bench& bench, double height) {
  const auto folds = [&](double root) {
    return bench.ask(height, root).kind == FoldMap::Outcome::folds;
  };
  // A wall lower than half its root has no lip: nothing thicker folds.
  double low = thinnest;
  double high = std::min(thickest, 2.0 * height);
  if (!folds(low) || folds(high)) return std::nullopt;
  for (int k = 0; k < halvings; ++k) {
    const double middle = std::sqrt(low * high);
    (folds(middle) ? low : high) = middle;
  }
  return std::sqrt(low * high);
}

std::vector<double> in_logarithm(double low, double high) {
  std::vector<double> values;
  for (std::size_t i = 0; i < points; ++i)
    values.push_back(low * std::pow(high / low, static_cast<double>(i) / (points - 1)));
  return values;
}

}  // namespace

std::optional<FoldMap> study_folding(const Setup& setup, const std::stop_token& stop) {
  const auto watched = find_watched(setup);
  if (!watched) return std::nullopt;
  const auto& wall = std::get<models::WallBurr>(watched->feature.burr);
  Bench bench(setup, *watched, stop);
  const double end = end_of_folding(bench, wall.height).value_or(wall.root);
  FoldMap map;
  map.station = setup.belt(watched->station).description;
  map.edge = watched->feature.name;
  map.model = "fast";
  map.height = in_logarithm(wall.height / room, room * wall.height);
  map.root = in_logarithm(std::max(std::min(wall.root, end) / room, thinnest),
                          room * std::max(wall.root, end));
  map.case_height = wall.height;
  map.case_root = wall.root;
  for (const double height : map.height) {
    for (const double root : map.root) {
      const Outcome outcome = bench.ask(height, root);
      map.outcome.push_back(outcome.kind);
      map.burr_left.push_back(outcome.left);
      map.secondary_burr.push_back(outcome.secondary);
    }
  }
  return map;
}

}  // namespace drumlin::sim
