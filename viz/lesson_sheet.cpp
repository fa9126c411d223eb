#include <algorithm>

#include <fmt/format.h>

#include "viz/lesson_parts.hpp"
#include "viz/lesson_table.hpp"
#include "viz/page.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

using sim::LessonPlace;
using sim::LessonStep;
using sim::LessonValue;

Cell value_cell(const sim::Lesson& lesson, const LessonPlace& place, LessonValue which) {
  const LessonStep& step = lesson.at(place);
  if (!step.shown()) {
    std::string why;
    for (const sim::LessonWarning& warning : lesson.warnings)
      if ((warning.flag & step.flags) != 0 && why.empty()) why = warning.text;
    return {"no number", why.substr(0, why.find(':')), "absent"};
  }
  if (which == LessonValue::coating_left && step.of(which) && *step.of(which) <= 0.0)
    return {"bare", "", "bad"};
  return {lesson_text(step, which), "", ""};
}

std::string table_of(const sim::Lesson& lesson, bool by_load) {
  const LessonPair pair = lesson_pair(lesson, by_load);
  const sim::LessonAxis& setting = by_load ? lesson.load : lesson.depth;
  std::vector<LessonValue> values{LessonValue::line_load, LessonValue::load_slope,
                                  LessonValue::removal};
  if (!lesson.coating.empty()) values.push_back(LessonValue::coating_left);
  if (!lesson.burr.empty()) values.push_back(LessonValue::burr_left);
  Table table;
  table.caption = by_load ? "Set by line load" : "Set by interference";
  table.head = {"cover, setting, sheet"};
  for (const LessonValue which : values)
    table.head.emplace_back(lesson_column(which).words);
  const std::size_t last = lesson.thickness.level.size() - 1;
  const std::size_t top = setting.level.size() - 1;
  std::vector<std::size_t> settings{setting.own - std::min<std::size_t>(setting.own, 2),
                                    setting.own, std::min(setting.own + 2, top)};
  settings.erase(std::unique(settings.begin(), settings.end()), settings.end());
  std::vector<std::size_t> covers{pair.soft};
  if (pair.hard != pair.soft) covers.push_back(pair.hard);
  for (const std::size_t cover : covers) {
    for (const std::size_t at : settings) {
      for (const std::size_t sheet : {std::size_t{0}, lesson.thickness.own, last}) {
        LessonPlace place = lesson.own();
        place.by_load = by_load;
        place.cover = cover;
        place.setting = at;
        place.thickness = sheet;
        std::vector<Cell> row{{fmt::format("{}, {}, {}", lesson.cover.label[cover],
                                           setting.label[at], lesson.thickness.label[sheet]),
                               "", ""}};
        for (const LessonValue which : values)
          row.push_back(value_cell(lesson, place, which));
        table.rows.push_back(std::move(row));
      }
    }
  }
  return table_html(table);
}

/// The table that learners fill in.
std::string blanks(const sim::Lesson& lesson, bool answers) {
  const LessonPair pair = lesson_pair(lesson, true);
  std::string html = fmt::format(
      "<table><caption>At {} on a nominal sheet, and {} thicker</caption><thead><tr>"
      "<th scope=\"col\">cover</th><th scope=\"col\">load per 0.1 mm</th><th "
      "scope=\"col\">face loses</th><th scope=\"col\">on the thick sheet</th></tr>"
      "</thead><tbody>\n",
      escaped(lesson.load.label[lesson.load.own]),
      escaped(lesson.thickness.label.back().substr(1)));
  std::vector<std::size_t> covers{pair.soft};
  if (pair.hard != pair.soft) covers.push_back(pair.hard);
  for (const std::size_t cover : covers) {
    LessonPlace place = lesson.own();
    place.by_load = true;
    place.setting = lesson.load.own;
    place.thickness = lesson.thickness.own;
    place.cover = cover;
    LessonPlace thick = place;
    thick.thickness = lesson.thickness.level.size() - 1;
    const auto cell = [&](const LessonPlace& at, LessonValue which) {
      const std::string text = answers ? lesson_text(lesson.at(at), which) : std::string();
      return fmt::format("<td class=\"blank\">{}</td>", escaped(text));
    };
    html += fmt::format("<tr><th scope=\"row\">{}</th>{}{}{}</tr>\n",
                        escaped(lesson.cover.label[cover]), cell(place, LessonValue::load_slope),
                        cell(place, LessonValue::removal), cell(thick, LessonValue::removal));
  }
  return html + "</tbody></table>\n";
}

}  // namespace

std::string lesson_tables_html(const sim::Lesson& lesson) {
  return fmt::format("<p>Belt {}, feed {}, tension {}. One nominal value each, uncalibrated.</p>\n",
                     escaped(lesson.speed.label[lesson.speed.own]),
                     escaped(lesson.feed.label[lesson.feed.own]),
                     escaped(lesson.tension.label[lesson.tension.own])) +
         table_of(lesson, false) + table_of(lesson, true);
}

std::string lesson_sheet_html(const sim::Lesson& lesson,
                              const std::vector<LessonQuestion>& questions, bool answers) {
  std::string html = fmt::format(
      "<section class=\"sheet only-print\" aria-hidden=\"true\">\n<h2>{}</h2>\n<p>Name "
      "____________________ &nbsp; Date ____________ &nbsp; Guess first, then look.</p>\n",
      answers ? "Trainer's copy, with answers" : "Sheet for learners");
  for (const LessonQuestion& question : questions) {
    html += fmt::format("<div class=\"asked\"><h3>{}</h3>\n<p>{}</p>\n<p>",
                        escaped(question.heading), escaped(question.question));
    for (std::size_t i = 0; i < question.choices.size(); ++i)
      html += fmt::format("<span class=\"choice\">{} {}</span> ",
                          answers && question.right == i ? "&#9746;" : "&#9744;",
                          escaped(question.choices[i]));
    html += "</p>\n";
    html += answers ? list_html(question.answer) : "<p class=\"rule\">What the page shows:</p>\n";
    html += "</div>\n";
  }
  return html + blanks(lesson, answers) + "</section>\n";
}

}  // namespace drumlin::viz
