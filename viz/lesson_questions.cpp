#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "viz/lesson_parts.hpp"
#include "viz/lesson_table.hpp"

namespace drumlin::viz {
namespace {

using sim::LessonPlace;
using sim::LessonStep;
using sim::LessonValue;

/// Closer than that two removals count as alike: no gauge in a shop tells them apart.
constexpr double alike = 0.02;

std::optional<double> shown(const LessonStep& step, LessonValue which) {
  return step.shown() ? step.of(which) : std::nullopt;
}

std::string metal(const sim::Lesson& lesson) {
  return lesson.coating.empty() ? lesson.material : lesson.coating;
}

/// Index of "the first", "the second" or "both alike" among such choices.
std::optional<std::size_t> larger(const std::optional<double>& a, const std::optional<double>& b) {
  if (!a || !b) return std::nullopt;
  if (std::abs(*a - *b) <= alike * std::max(*a, *b)) return 2;
  return *a > *b ? 0 : 1;
}

std::string cover_name(const sim::Lesson& lesson, std::size_t cover) {
  return lesson.cover.label[cover];
}

/// One step in a sentence.
std::string loss_text(const sim::Lesson& lesson, const LessonPlace& place) {
  const LessonStep& step = lesson.at(place);
  if (!step.shown()) return "no number, see the warning on the page";
  std::string text = fmt::format("the face loses {}", lesson_text(step, LessonValue::removal));
  if (!lesson.coating.empty()) {
    const auto& left = step.of(LessonValue::coating_left);
    text += left && *left <= 0.0 ? ", the coating is gone"
                                 : fmt::format(", {} of coating are left",
                                               lesson_text(step, LessonValue::coating_left));
  }
  return text;
}

LessonPlace with_cover(LessonPlace place, std::size_t cover) {
  place.cover = cover;
  return place;
}

LessonPlace set_by(const sim::Lesson& lesson, bool by_load) {
  LessonPlace place = lesson.own();
  place.by_load = by_load;
  place.setting = by_load ? lesson.load.own : lesson.depth.own;
  return place;
}

LessonQuestion touching(const sim::Lesson& lesson) {
  const LessonPlace own = lesson.own();
  const LessonStep& step = lesson.at(own);
  LessonQuestion q;
  q.heading = "1. Where does the belt touch?";
  q.places = {{"Set the sliders as in the case", own}};
  const auto width = shown(step, LessonValue::half_width);
  const std::string strip =
      width ? fmt::format("The strip of contact is {:.1f} mm wide along the feed.", 2.0 * *width)
            : "At this setting no number is shown; see the warning on the page.";
  if (lesson.burr.empty()) {
    q.question = "How wide is the strip on which the belt presses on the face?";
    q.choices = {"less than 2 mm", "2 to 8 mm", "more than 8 mm"};
    if (width) q.right = 2.0 * *width < 2.0 ? 0 : 2.0 * *width <= 8.0 ? 1 : 2;
    q.answer = {strip, "This case has no burr: the lesson is about the face alone."};
    return q;
  }
  q.question =
      "Why does the burr go before the face? How much harder is it pressed than the face beside "
      "it?";
  q.choices = {"both alike", "up to ten times", "more than ten times"};
  const auto face = shown(step, LessonValue::face_pressure);
  const auto burr = shown(step, LessonValue::burr_pressure);
  q.answer = {strip};
  if (!face || !burr || *face <= 0.0) return q;
  const double ratio = *burr / *face;
  q.right = ratio < 1.2 ? 0 : ratio <= 10.0 ? 1 : 2;
  q.answer.push_back(fmt::format(
      "Highest pressure on the face {:.3g} MPa, on the burr {:.3g} MPa: {:.3g} times. The burr "
      "stands {:.3g} mm up and holds the belt off beside it, so what would press there presses on "
      "it.",
      *face, *burr, ratio, lesson.burr_height));
  q.answer.push_back(
      fmt::format("Does the belt \"take the burr out\"? What the model finds here: {}; its top "
                  "ends {} above the "
                  "worn face (below zero: worn below it), and the face loses {} meanwhile.",
                  sim::lesson_outcomes[step.outcome], lesson_text(step, LessonValue::burr_left),
                  lesson_text(step, LessonValue::removal)));
  return q;
}

/// A soft and a hard cover, set alike.
std::pair<LessonPlace, LessonPlace> soft_and_hard(const sim::Lesson& lesson, bool by_load) {
  const LessonPair pair = lesson_pair(lesson, by_load);
  const LessonPlace soft = with_cover(set_by(lesson, by_load), pair.soft);
  return {soft, with_cover(soft, pair.hard)};
}

/// A question that asks for one of two covers.
LessonQuestion which_of(const sim::Lesson& lesson, const LessonPlace& soft,
                        const LessonPlace& hard) {
  LessonQuestion q;
  q.choices = {cover_name(lesson, soft.cover), cover_name(lesson, hard.cover), "both alike"};
  q.places = {{"Soft cover", soft}, {"Hard cover", hard}};
  return q;
}

LessonQuestion same_depth(const sim::Lesson& lesson) {
  const auto [soft, hard] = soft_and_hard(lesson, false);
  LessonQuestion q = which_of(lesson, soft, hard);
  q.heading = "2. The same interference";
  q.question = fmt::format(
      "Both drums are set {} into the part. Which one takes more off the face, {} first?",
      lesson.depth.label[lesson.depth.own], metal(lesson));
  q.right = larger(shown(lesson.at(soft), LessonValue::removal),
                   shown(lesson.at(hard), LessonValue::removal));
  for (const LessonPlace& place : {soft, hard})
    q.answer.push_back(fmt::format("{}: line load {}, {}.", cover_name(lesson, place.cover),
                                   lesson_text(lesson.at(place), LessonValue::line_load),
                                   loss_text(lesson, place)));
  q.answer.emplace_back(
      "Held equal: how far the drum is set in. What presses is the cover's stiffness times that.");
  return q;
}

LessonQuestion same_load(const sim::Lesson& lesson) {
  const auto [soft, hard] = soft_and_hard(lesson, true);
  LessonQuestion q = which_of(lesson, soft, hard);
  q.heading = "3. The twist: the same line load";
  q.question = fmt::format(
      "Now both press with {} while they grind. Which one takes more off the face, {} first?",
      lesson.load.label[lesson.load.own], metal(lesson));
  const auto a = shown(lesson.at(soft), LessonValue::removal);
  const auto b = shown(lesson.at(hard), LessonValue::removal);
  q.right = larger(a, b);
  for (const LessonPlace& place : {soft, hard})
    q.answer.push_back(fmt::format("{}: {}; line load per 0.1 mm {}.",
                                   cover_name(lesson, place.cover), loss_text(lesson, place),
                                   lesson_text(lesson.at(place), LessonValue::load_slope)));
  q.answer.push_back(
      lesson.straight_law
          ? "Removal in this case goes with pressure in a straight line from zero (Preston's law), "
            "so a narrow hard strip and a wide soft one take the same at one line load. Under "
            "another law they would not."
          : fmt::format(
                "Removal in this case does not go with pressure in a straight line from "
                "zero ({}): pressure counts for more or less than its share, so hardness "
                "need not cancel at one line load; the numbers above say what happens here.",
                lesson.removal_law));
  const auto soft_slope = shown(lesson.at(soft), LessonValue::load_slope);
  const auto hard_slope = shown(lesson.at(hard), LessonValue::load_slope);
  if (soft_slope && hard_slope && *soft_slope > 0.0)
    q.answer.push_back(fmt::format(
        "What differs is the slope: per 0.1 mm the load of {} changes {:.3g} times as much.",
        cover_name(lesson, hard.cover), *hard_slope / *soft_slope));
  return q;
}

LessonQuestion thicker(const sim::Lesson& lesson) {
  const LessonPair pair = lesson_pair(lesson, true);
  LessonPlace soft = with_cover(set_by(lesson, true), pair.soft);
  soft.thickness = lesson.thickness.level.size() - 1;
  const LessonPlace hard = with_cover(soft, pair.hard);
  LessonQuestion q;
  q.heading = "4. A thicker sheet comes";
  q.question = fmt::format(
      "Both drums were set to the same line load on a nominal sheet. The next sheet is {} thicker. "
      "On which one does the face lose more?",
      lesson.thickness.label.back().substr(1));
  q.choices = {cover_name(lesson, pair.soft), cover_name(lesson, pair.hard), "both alike"};
  q.places = {{"Soft cover, thick sheet", soft}, {"Hard cover, thick sheet", hard}};
  q.right = larger(shown(lesson.at(soft), LessonValue::removal),
                   shown(lesson.at(hard), LessonValue::removal));
  for (const LessonPlace& place : {soft, hard}) {
    LessonPlace nominal = place;
    nominal.thickness = lesson.thickness.own;
    LessonPlace thin = place;
    thin.thickness = 0;
    q.answer.push_back(fmt::format("{}: nominal, {}; thicker, {}; {}, {}.",
                                   cover_name(lesson, place.cover), loss_text(lesson, nominal),
                                   loss_text(lesson, place), lesson.thickness.label.front(),
                                   loss_text(lesson, thin)));
  }
  q.answer.emplace_back(
      "Thickness arrives as interference: on a hard cover it brings more load than on a soft one, "
      "as the "
      "slopes of question 3 say.");
  return q;
}

/// The fastest belt for which a cover shows numbers.
std::optional<std::size_t> fastest(const sim::Lesson& lesson, LessonPlace place) {
  for (std::size_t i = lesson.speed.level.size(); i-- > 0;) {
    place.speed = i;
    if (lesson.at(place).shown()) return i;
  }
  return std::nullopt;
}

void add_myths(const sim::Lesson& lesson, LessonQuestion& q) {
  const LessonPlace own = set_by(lesson, false);
  LessonPlace deep = own;
  deep.setting = lesson.depth.level.size() - 1;
  if (lesson.at(own).shown() && lesson.at(deep).shown() && !lesson.burr.empty())
    q.answer.push_back(fmt::format(
        "Is more pressure always faster? At {}: burr {}, {} left, and {}. At {}: burr {}, {} "
        "left, and {}.",
        lesson.depth.label[own.setting], sim::lesson_outcomes[lesson.at(own).outcome],
        lesson_text(lesson.at(own), LessonValue::burr_left), loss_text(lesson, own),
        lesson.depth.label[deep.setting], sim::lesson_outcomes[lesson.at(deep).outcome],
        lesson_text(lesson.at(deep), LessonValue::burr_left), loss_text(lesson, deep)));
  const LessonPlace soft = with_cover(own, 0);
  const LessonPlace hard = with_cover(own, lesson.cover.level.size() - 1);
  const auto a = fastest(lesson, soft);
  const auto b = fastest(lesson, hard);
  if (!a || !b) return;
  q.answer.push_back(
      *a == *b
          ? fmt::format("Is soft always gentler? At the belt speeds on this page soft and hard "
                        "covers show numbers alike, up to {}; question 2 says what they do to the "
                        "face.",
                        lesson.speed.label[*a])
          : fmt::format(
                "Is soft always gentler? Not at every speed: of the belt speeds on this page {} "
                "shows numbers up to {}, {} up to {}. Above that a warning says why (theory, no "
                "measured onset).",
                cover_name(lesson, soft.cover), lesson.speed.label[*a],
                cover_name(lesson, hard.cover), lesson.speed.label[*b]));
}

LessonQuestion faster(const sim::Lesson& lesson) {
  const LessonPlace own = lesson.own();
  LessonPlace quick = own;
  quick.speed = std::min(own.speed + 1, lesson.speed.level.size() - 1);
  if (!lesson.at(quick).shown() || quick.speed == own.speed)
    quick.speed = own.speed > 0 ? own.speed - 1 : own.speed;
  LessonPlace slow = own;
  slow.feed = 0;
  LessonQuestion q;
  q.heading = "5. Speed and heat";
  q.question = fmt::format("The belt runs at {} instead of {}. What does the face feel?",
                           lesson.speed.label[quick.speed], lesson.speed.label[own.speed]);
  q.choices = {"loses more and gets hotter", "loses more, gets no hotter",
               "loses no more, gets hotter", "loses no more, gets no hotter"};
  q.places = {{"As in the case", own}, {"Other belt speed", quick}, {"Half the feed", slow}};
  const auto r0 = shown(lesson.at(own), LessonValue::removal);
  const auto r1 = shown(lesson.at(quick), LessonValue::removal);
  const auto t0 = shown(lesson.at(own), LessonValue::face_heat);
  const auto t1 = shown(lesson.at(quick), LessonValue::face_heat);
  if (r0 && r1 && t0 && t1) q.right = (*r1 > *r0 ? 0U : 2U) + (*t1 > *t0 ? 0U : 1U);
  for (const LessonPlace& place : {own, quick, slow})
    q.answer.push_back(fmt::format("Belt {}, feed {}: {}; power {}, hottest place of the face {}.",
                                   lesson.speed.label[place.speed], lesson.feed.label[place.feed],
                                   loss_text(lesson, place),
                                   lesson_text(lesson.at(place), LessonValue::power),
                                   lesson_text(lesson.at(place), LessonValue::face_heat)));
  add_myths(lesson, q);
  return q;
}

}  // namespace

LessonPair lesson_pair(const sim::Lesson& lesson, bool by_load) {
  LessonPlace place = set_by(lesson, by_load);
  LessonPair pair{lesson.cover.own, lesson.cover.own};
  for (std::size_t i = 0; i < lesson.cover.level.size(); ++i) {
    place.cover = i;
    if (!lesson.at(place).shown()) continue;
    pair.soft = std::min(pair.soft, i);
    pair.hard = std::max(pair.hard, i);
  }
  return pair;
}

std::string lesson_text(const sim::LessonStep& step, sim::LessonValue which) {
  if (!step.shown()) return "no number";
  const auto& value = step.of(which);
  if (!value) return "absent";
  const LessonColumn& column = lesson_column(which);
  return fmt::format("{:.{}f} {}", *value, column.decimals, column.unit);
}

std::vector<LessonQuestion> lesson_questions(const sim::Lesson& lesson) {
  return {touching(lesson), same_depth(lesson), same_load(lesson), thicker(lesson), faster(lesson)};
}

}  // namespace drumlin::viz
