#include "sim/lesson_block.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <variant>

#include "sim/belt_wear.hpp"
#include "sim/drum_state.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::sim {
namespace {

/// Belt speed over critical speed from which a warning is due, as in every run.
constexpr double near_critical = 0.7;
/// A bare cover's Rayleigh speed bounds the critical speed from below but for the belt's mass,
/// which takes three tenths at most: below this share of it no belt is near.
constexpr double far_from_critical = 0.49;
/// Share of the sheet that no setting in use takes.
constexpr double too_much = 0.5;
/// Relief by wear over interference beyond which the fast model is more than 6 % off.
constexpr double fast_relief = 1.0 / 3.0;

/// The case of a cover, speed and tension, joined with the laws.
Setup base_setup(const LessonGround& ground, const Lesson& lesson, const LessonPlace& at) {
  cases::Case one = ground.reduced;
  auto& station = std::get<cases::BeltStation>(one.stations.front());
  const double hardness = lesson.cover.level[at.cover];
  if (hardness > 0.0) {
    station.drum.hardness = hardness;
    station.drum.modulus.reset();
  }
  station.speed = lesson.speed.level[at.speed] * 1000.0;
  station.belt.tension = lesson.tension.level[at.tension];
  station.setting = cases::InterferenceSetting{lesson.depth.level[lesson.depth.own]};
  Setup setup = set_up(std::move(one));
  dull_belt(setup.belt(0), ground.sharpness * setup.belt(0).wear.sharpness);
  return setup;
}

double interference_at(const Lesson& lesson, std::size_t index) {
  // setting + thickness, in that order, so that the nominal sheet has the setting's very number
  const std::size_t last = lesson.depth.level.size() - 1;
  const std::size_t nominal = lesson.thickness.own;
  if (index < nominal) return lesson.depth.level.front() + lesson.thickness.level[index];
  if (index - nominal <= last) return lesson.depth.level[index - nominal];
  return lesson.depth.level.back() + lesson.thickness.level[index - last];
}

unsigned outcome_index(const std::string& outcome) {
  for (unsigned i = 1; i < lesson_outcomes.size(); ++i)
    if (outcome == lesson_outcomes[i]) return i;
  return 0;
}

std::optional<double> scaled(const Quantity& quantity, double factor) {
  if (!quantity) return std::nullopt;
  return quantity->value * factor;
}

/// Everything that is shown of a step.
void read(const StatedAnswer& answer, LessonStep& step) {
  const StationResult& station = answer.stations.front();
  const auto put = [&](LessonValue which, std::optional<double> value) {
    step.value[static_cast<std::size_t>(which)] = value;
  };
  put(LessonValue::line_load, scaled(station.line_load, 1.0));
  put(LessonValue::working_load, scaled(station.working_line_load, 1.0));
  put(LessonValue::load_slope, scaled(station.line_load_slope, 0.1));
  put(LessonValue::half_width, scaled(station.half_width, 1.0));
  put(LessonValue::depth, scaled(station.effective_interference, 1.0));
  put(LessonValue::face_pressure, scaled(station.peak_pressure, 1.0));
  put(LessonValue::power, scaled(station.power, 1e-3));
  const FaceResult& face = answer.part.face;
  put(LessonValue::removal, scaled(face.removal, 1e3));
  put(LessonValue::coating_left, scaled(face.coating_left, 1e3));
  if (face.temperature) put(LessonValue::face_heat, face.temperature->value - 273.15);
  if (answer.part.features.empty()) return;
  const FeatureResult& edge = answer.part.features.front();
  put(LessonValue::burr_pressure, scaled(edge.peak_pressure, 1.0));
  put(LessonValue::burr_left, scaled(edge.burr_height, 1.0));
  put(LessonValue::lip, scaled(edge.secondary_burr, 1e3));
  put(LessonValue::edge_drop, scaled(edge.edge_drop, 1e3));
  step.outcome = outcome_index(edge.outcome);
}

/// All steps of one cover, speed and tension.
class Block {
 public:
  Block(const LessonGround& ground, Lesson& lesson, const LessonPlace& at,
        const std::stop_token& stop)
      : lesson_(lesson), at_(at), stop_(stop) {
    const auto& station = std::get<cases::BeltStation>(ground.reduced.stations.front());
    const double speed = lesson.speed.level[at.speed] * 1000.0;
    const auto above = [&](const std::optional<double>& limit) {
      return limit && speed > *limit * (1.0 + 1e-9);
    };
    if (above(station.belt.speed_limit) || above(station.drum.speed_limit))
      common_ |= lesson_flag::over_rating;
    try {
      setup_ = base_setup(ground, lesson, at);
    } catch (const cases::CaseError&) {
      common_ |= lesson_flag::refused;
    }
  }

  void run() {
    if ((common_ & lesson_flag::hides) == 0) find_speed_ratios();
    if ((common_ & lesson_flag::hides) != 0) return fill();
    if (tension_at_speed(setup_->belt(0)) < 0.5 * setup_->belt(0).belt.tension)
      common_ |= lesson_flag::slack;
    run_interferences();
    if (!with_loads()) return;
    for (std::size_t feed = 0; feed < lesson_.feed.level.size(); ++feed)
      for (std::size_t load = 0; load < lesson_.load.level.size(); ++load)
        run_load(feed, load);
  }

 private:
  [[nodiscard]] LessonStep& by_depth(std::size_t feed, std::size_t depth) {
    LessonPlace place = at_;
    place.feed = feed;
    place.setting = depth;
    return lesson_.steps[lesson_.index(place)];
  }
  [[nodiscard]] LessonStep& by_load(std::size_t feed, std::size_t load, std::size_t thickness) {
    LessonPlace place = at_;
    place.feed = feed;
    place.by_load = true;
    place.setting = load;
    place.thickness = thickness;
    return lesson_.steps[lesson_.index(place)];
  }
  [[nodiscard]] bool with_loads() const { return at_.tension == lesson_.tension.own; }

  /// Where no step has an answer that could be shown.
  void fill() {
    for (std::size_t f = 0; f < lesson_.feed.level.size(); ++f) {
      for (std::size_t d = 0; d < lesson_.depths(); ++d)
        by_depth(f, d).flags = common_;
      for (std::size_t l = 0; with_loads() && l < lesson_.load.level.size(); ++l)
        for (std::size_t t = 0; t < lesson_.thickness.level.size(); ++t)
          by_load(f, l, t).flags = common_;
    }
  }

  /// Belt speed over critical speed at the shallowest and the deepest setting; straight between,
  /// since strain softens a cover by some per cent over all of that, and finding a critical speed
  /// takes milliseconds.
  void find_speed_ratios() {
    const BeltSetup& station = setup_->belt(0);
    shallow_ = std::max(interference_at(lesson_, 0), 1e-2);
    deep_ = interference_at(lesson_, lesson_.depths() - 1);
    if (rayleigh_ratio(station, deep_) < far_from_critical) {
      setup_->belt(0).below_critical = true;
      return;
    }
    const auto ratio = [&](double depth) {
      const auto critical = critical_speed_of(station, depth);
      double found = critical ? station.belt_speed / *critical : 0.0;
      // A cover without loss has undamped waves of its own, as `inertia_share` knows.
      if (std::holds_alternative<models::RateIndependent>(station.relaxation) &&
          station.options.moving)
        found = std::max(found, rayleigh_ratio(station, depth));
      return found;
    };
    shallow_ratio_ = ratio(shallow_);
    deep_ratio_ = ratio(deep_);
    if (std::min(shallow_ratio_, deep_ratio_) > most_inertia) common_ |= lesson_flag::capped;
    if (std::max(shallow_ratio_, deep_ratio_) <= most_inertia)
      setup_->belt(0).below_critical = true;
  }

  [[nodiscard]] double speed_ratio(double depth) const {
    const double share = std::clamp((depth - shallow_) / (deep_ - shallow_), 0.0, 1.0);
    return shallow_ratio_ + share * (deep_ratio_ - shallow_ratio_);
  }

  void run_interferences() {
    Setup setup = *setup_;
    for (std::size_t d = 0; d < lesson_.depths(); ++d) {
      const double depth = interference_at(lesson_, d);
      setup.belt(0).setting = cases::InterferenceSetting{depth};
      for (std::size_t f = 0; f < lesson_.feed.level.size(); ++f) {
        set_feed(setup, lesson_.feed.level[f] / 0.06);
        if (depth <= 0.0)
          by_depth(f, d).flags = common_ | lesson_flag::clear;
        else
          solve(setup, by_depth(f, d));
      }
      keep_shape(d);
    }
  }

  /// One line load on sheets of every thickness: the depth that works at it on the nominal sheet,
  /// and from there on as `deepen` does. The interferences above give a first guess, so that two
  /// drums do where a search from nothing takes five.
  void run_load(std::size_t feed, std::size_t load) {
    const std::size_t thicknesses = lesson_.thickness.level.size();
    Setup setup = *setup_;
    set_feed(setup, lesson_.feed.level[feed] / 0.06);
    BeltSetup& station = setup.belt(0);
    const std::optional<double> depth = depth_for(setup, feed, lesson_.load.level[load]);
    const double added = station.interference_offset + cover_growth(station);
    station.frame_compliance = 0.0;  // the load is as set whatever the frame gives
    for (std::size_t t = 0; t < thicknesses; ++t) {
      LessonStep& at = by_load(feed, load, t);
      at.flags = common_;
      if (!depth) {
        at.flags |= capped_ ? lesson_flag::capped : lesson_flag::unsolved;
        continue;
      }
      const double deeper = *depth + lesson_.thickness.level[t];
      station.setting = cases::InterferenceSetting{deeper - added};
      if (deeper <= 0.0)
        at.flags |= lesson_flag::clear;
      else
        solve(setup, at);
    }
  }

  /// Depth of the nip [mm] that works at a line load; none where none does, or where the cover
  /// would be pressed in by half.
  std::optional<double> depth_for(Setup setup, std::size_t feed, double load) {
    setup.scenario.part.features.clear();
    BeltSetup& station = setup.belt(0);
    station.frame_compliance = 0.0;
    const double added = station.interference_offset + cover_growth(station);
    // Logarithms of depth and load of two neighbours, the load between them if there are such.
    double depth = 0.0;
    double exponent = 1.5;
    const LessonStep* below = nullptr;
    for (std::size_t d = 0; d < lesson_.depths(); ++d) {
      const LessonStep& above = by_depth(feed, d);
      if (!above.of(LessonValue::working_load) || *above.of(LessonValue::working_load) <= 0.0)
        continue;
      const double reached = *above.of(LessonValue::working_load);
      if (below != nullptr)
        exponent = std::log(reached / *below->of(LessonValue::working_load)) /
                   std::log(*above.of(LessonValue::depth) / *below->of(LessonValue::depth));
      depth = *above.of(LessonValue::depth) * std::pow(load / reached, 1.0 / exponent);
      below = &above;
      if (reached >= load) break;
    }
    capped_ = below == nullptr && deep_ratio_ > most_inertia;
    if (below == nullptr) return std::nullopt;
    constexpr double closeness = 2e-5;  // as close as the fast model's own search
    constexpr int most_steps = 12;
    for (int i = 0; i < most_steps; ++i) {
      if (!(depth > 0.0) || depth > 0.5 * station.cover.thickness) return std::nullopt;
      station.setting = cases::InterferenceSetting{depth - added};
      try {
        const auto answer = fast::simulate(setup, drums_, stop_);
        const double reached = answer.first.front()->plain.working_line_load;
        if (std::abs(reached / load - 1.0) < closeness) return depth;
        if (!(reached > 0.0)) return std::nullopt;
        depth *= std::pow(load / reached, 1.0 / exponent);
      } catch (const NumericsError&) {
        return std::nullopt;
      }
    }
    return std::nullopt;
  }

  void solve(Setup& setup, LessonStep& step) {
    if (stop_.stop_requested()) throw Stopped();
    step.flags = common_;
    const double set = std::get<cases::InterferenceSetting>(setup.belt(0).setting).interference;
    const double ratio = speed_ratio(set);
    if (ratio > most_inertia) {
      step.flags |= lesson_flag::capped;
      return;
    }
    if (ratio >= near_critical) step.flags |= lesson_flag::near_critical;
    try {
      const fast::FastAnswer answer = fast::simulate(setup, drums_, stop_);
      read(fast::state(setup, answer, /*waves=*/false), step);
      judge(setup, answer, step);
    } catch (const NumericsError&) {
      step.flags |= lesson_flag::unsolved;
    }
  }

  static void judge(const Setup& setup, const fast::FastAnswer& answer, LessonStep& step) {
    const BeltSetup& station = setup.belt(0);
    const fast::BeltPass& pass = answer.first.front().value();
    const double depth = pass.effective_interference;
    if (depth <= 0.0 || answer.static_nips.front()->line_load <= 0.0)
      step.flags |= lesson_flag::clear;
    if (depth > lesson_deepest * station.cover.thickness) step.flags |= lesson_flag::too_deep;
    if (pass.plain.relief > fast_relief * depth) step.flags |= lesson_flag::wearing;
    if (pass.plain.removal >= too_much * setup.scenario.part.thickness)
      step.flags |= lesson_flag::too_much;
  }

  /// The shape of the pressure, from the drum that the depth's steps have just used.
  void keep_shape(std::size_t depth) {
    const LessonStep& at = by_depth(0, depth);
    if (!at.of(LessonValue::half_width) || !at.of(LessonValue::depth)) return;
    const double interference = *at.of(LessonValue::depth);
    const double half_width = *at.of(LessonValue::half_width);
    if (interference <= 0.0 || half_width <= 0.0) return;
    const fast::NipShape nip = drums_.of(0, setup_->belt(0), interference).law.shape(interference);
    LessonShape shape{};
    double highest = 0.0;
    for (std::size_t k = 0; k < shape.size(); ++k) {
      const double x = half_width * (static_cast<double>(k) + 0.5) / lesson_shape_points;
      Eigen::Index cell = 0;
      while (cell + 1 < nip.pressure.size() && nip.edge[cell + 1] < x)
        ++cell;
      shape[k] = nip.pressure.size() > 0 && x < nip.edge[cell + 1] ? nip.pressure[cell] : 0.0;
      highest = std::max(highest, shape[k]);
    }
    if (highest <= 0.0) return;
    for (double& value : shape)
      value /= highest;
    lesson_.shapes[lesson_.shape_index(at_, depth)] = shape;
  }

  Lesson& lesson_;
  LessonPlace at_;
  const std::stop_token& stop_;
  std::optional<Setup> setup_;
  unsigned common_ = 0;
  bool capped_ = false;
  fast::Drums drums_;
  double shallow_ = 0, deep_ = 1, shallow_ratio_ = 0, deep_ratio_ = 0;
};

}  // namespace

void work_out_block(const LessonGround& ground, Lesson& lesson, const LessonPlace& at,
                    const std::stop_token& stop) {
  Block(ground, lesson, at, stop).run();
}

}  // namespace drumlin::sim
