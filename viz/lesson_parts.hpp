#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/lesson_result.hpp"
#include "sim/result.hpp"

/// What a lesson page is put together from.
namespace drumlin::viz {

/// A question with its choices, and the answer as the table gives it for this case.
struct LessonQuestion {
  std::string heading;
  std::string question;
  std::vector<std::string> choices;
  std::optional<std::size_t> right;  ///< no value where the table does not decide
  std::vector<std::string> answer;   ///< sentences, reckoned from the table
  std::vector<std::pair<std::string, sim::LessonPlace>>
      places;  ///< words on a button, and where to
};
[[nodiscard]] std::vector<LessonQuestion> lesson_questions(const sim::Lesson& lesson);

/// Softest and hardest cover that show numbers as the case is set; both the case's own where no
/// other does.
struct LessonPair {
  std::size_t soft = 0, hard = 0;
};
[[nodiscard]] LessonPair lesson_pair(const sim::Lesson& lesson, bool by_load);

/// A value as it is shown, "no number" where a warning stands in its place.
[[nodiscard]] std::string lesson_text(const sim::LessonStep& step, sim::LessonValue which);

/// Sliders, numbers and pictures; hidden until the script shows them.
[[nodiscard]] std::string lesson_lab_html(const sim::Lesson& lesson);

/// Soft and hard covers by interference and by line load on thin, nominal and thick sheet.
[[nodiscard]] std::string lesson_tables_html(const sim::Lesson& lesson);

/// A4 sheet for learners, with the answers on a trainer's copy.
[[nodiscard]] std::string lesson_sheet_html(const sim::Lesson& lesson,
                                            const std::vector<LessonQuestion>& questions,
                                            bool answers);

}  // namespace drumlin::viz
