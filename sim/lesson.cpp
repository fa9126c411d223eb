#include "sim/lesson.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "sim/belt_life.hpp"
#include "sim/belt_wear.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/lesson_axes.hpp"
#include "sim/lesson_block.hpp"
#include "sim/removal_text.hpp"

namespace drumlin::sim {
namespace {

/// Two cores are what every PC of a shop has.
constexpr unsigned threads = 2;

LessonGround ground_of(const cases::Case& scenario, const LessonTopic& topic,
                       const std::stop_token& stop) {
  LessonGround ground{reduced_case(scenario, topic), 1.0};
  const Setup whole = set_up(scenario);
  ground.sharpness = with_belt_ages(whole, stop).belt(topic.station).wear.sharpness;
  return ground;
}

/// Works the blocks off, each into steps of its own: whoever works them, the answer is the same.
void work_off(const LessonGround& ground, Lesson& lesson, const Progress& progress,
              const std::stop_token& stop) {
  const std::size_t tensions = lesson.tension.level.size();
  const std::size_t speeds = lesson.speed.level.size();
  const std::size_t blocks = lesson.cover.level.size() * speeds * tensions;
  std::atomic<std::size_t> next{0};
  std::mutex guard;
  std::exception_ptr failure;
  std::size_t finished = 0;
  const auto work = [&] {
    for (std::size_t i = next++; i < blocks; i = next++) {
      try {
        const LessonPlace at{.cover = i / tensions / speeds,
                             .speed = i / tensions % speeds,
                             .tension = i % tensions};
        work_out_block(ground, lesson, at, stop);
      } catch (...) {
        const std::scoped_lock lock(guard);
        if (!failure) failure = std::current_exception();
        next = blocks;
      }
      const std::scoped_lock lock(guard);
      ++finished;
      if (progress) progress(static_cast<double>(finished) / static_cast<double>(blocks), "steps");
    }
  };
  {
    std::vector<std::jthread> others;
    for (unsigned i = 1; i < threads; ++i)
      others.emplace_back(work);
    work();
  }
  if (failure) std::rethrow_exception(failure);
}

std::vector<LessonWarning> words_of(const cases::Case& reduced, const Lesson& lesson) {
  const auto& station = std::get<cases::BeltStation>(reduced.stations.front());
  std::string rating = "the speed marked on belt or drum";
  for (const auto& [limit, of] :
       {std::pair(station.belt.speed_limit, "belt"), std::pair(station.drum.speed_limit, "drum")})
    if (limit) rating += fmt::format(" ({}: {:.4g} m/s)", of, *limit / 1000.0);
  const double depth = lesson_deepest * lesson.cover_thickness;
  return {
      {lesson_flag::refused,
       "The belt is faster than waves run in this cover: no steady contact exists and the program "
       "refuses the case. Take a harder cover or a slower belt (theory, no measured onset)."},
      {lesson_flag::over_rating,
       fmt::format("Above {}: never run it. Tools above their marked speed burst.", rating)},
      {lesson_flag::capped,
       "Above nine tenths of the speed at which waves in this cover keep up with the strip: no "
       "number is shown. The cover may throw standing waves. Take a harder cover or a slower belt "
       "(theory, no measured onset)."},
      {lesson_flag::clear,
       "The drum does not reach the face: nothing is pressed, nothing is "
       "ground."},
      {lesson_flag::too_deep,
       fmt::format("The cover is pressed in by more than a fifth of its thickness ({:.3g} mm): the "
                   "model does not hold here.",
                   depth)},
      {lesson_flag::unsolved,
       "The model finds no answer here: this cover does not carry that line load within its "
       "thickness, or the numbers do not settle."},
      {lesson_flag::too_much,
       "The face would lose half of the sheet or more: no such setting is in "
       "use."},
      {lesson_flag::near_critical,
       "Near the speed at which waves in the cover keep up with the strip (above 0.7 of it): "
       "pressure answers strongly to speed (theory, no measured onset)."},
      {lesson_flag::slack, "At this speed more than half of the belt's tension is gone."},
      {lesson_flag::wearing,
       "The pass wears off so much of the interference that the quick model may be more than 6 % "
       "off here."},
  };
}

void describe(const cases::Case& scenario, const cases::Case& reduced, const LessonTopic& topic,
              const Setup& setup, Lesson& lesson) {
  const BeltSetup& belt = setup.belt(0);
  lesson.station = belt.description;
  lesson.station_index = topic.station;
  lesson.stations_left_out = scenario.stations.size() - 1;
  lesson.one_pass_of_several = scenario.conveyor.passes > 1;
  lesson.drum_radius = belt.radius;
  lesson.cover_thickness = belt.cover.thickness;
  lesson.part_thickness = reduced.part.thickness;
  lesson.material = reduced.part.material.name;
  if (reduced.part.coating) {
    lesson.coating = reduced.part.coating->material.name;
    lesson.coating_thickness = 1000.0 * reduced.part.coating->thickness;
  }
  if (!reduced.part.features.empty()) {
    const cases::Feature& feature = reduced.part.features.front();
    lesson.burr = feature.name;
    lesson.burr_height = models::height_of(feature.burr);
    lesson.burr_root = models::footprint_of(feature.burr);
  }
  const auto& station = std::get<cases::BeltStation>(reduced.stations.front());
  lesson.removal_law = removal_law_text(station.belt);
  lesson.straight_law = removes_in_proportion(belt);
}

/// The case as it stands, for the sliders to be laid around.
struct OwnNip {
  double depth = 0.3;
  double load = 0.5;
};

OwnNip own_nip(const Setup& setup, const std::stop_token& stop) {
  fast::Drums drums;
  const fast::FastAnswer answer = fast::simulate(setup, drums, stop);
  const fast::BeltPass& pass = answer.first.front().value();
  OwnNip nip;
  if (pass.interference > 0.0) nip.depth = pass.interference;
  if (pass.plain.working_line_load > 0.0) nip.load = pass.plain.working_line_load;
  return nip;
}

}  // namespace

std::optional<Lesson> work_out_lesson(const cases::Case& scenario, const Progress& progress,
                                      const std::stop_token& stop) {
  const auto topic = lesson_topic(scenario);
  if (!topic) return std::nullopt;
  const LessonGround ground = ground_of(scenario, *topic, stop);
  Setup own = set_up(ground.reduced);
  dull_belt(own.belt(0), ground.sharpness * own.belt(0).wear.sharpness);
  Lesson lesson;
  describe(scenario, ground.reduced, *topic, own, lesson);
  const OwnNip nip = own_nip(own, stop);
  lay_out_sliders(ground.reduced, nip.depth, nip.load, lesson);
  const std::size_t drums =
      lesson.cover.level.size() * lesson.speed.level.size() * lesson.tension.level.size();
  lesson.steps.resize(lesson.size());
  lesson.shapes.resize(drums * lesson.depths());
  work_off(ground, lesson, progress, stop);
  lesson.warnings = words_of(ground.reduced, lesson);
  for (const LessonStep& step : lesson.steps) {
    if (step.of(LessonValue::removal)) ++lesson.computed;
    if (!step.shown()) ++lesson.hidden;
  }
  return lesson;
}

}  // namespace drumlin::sim
