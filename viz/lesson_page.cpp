#include "viz/lesson_page.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "viz/cells.hpp"
#include "viz/lesson_parts.hpp"
#include "viz/lesson_script.hpp"
#include "viz/lesson_style.hpp"
#include "viz/lesson_table.hpp"
#include "viz/page.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

std::string place_json(const sim::LessonPlace& place) {
  nlohmann::ordered_json json{
      {"cover", place.cover},        {"speed", place.speed},
      {"tension", place.tension},    {"feed", place.feed},
      {"by_load", place.by_load},    {place.by_load ? "load" : "depth", place.setting},
      {"thickness", place.thickness}};
  return json.dump();
}

std::string question_html(const LessonQuestion& q, std::size_t index) {
  std::string html = fmt::format(
      "<div class=\"question\" data-right=\"{}\">\n<h3>{}</h3>\n<p>{}</p>\n<p "
      "class=\"with-script\" hidden>",
      q.right ? fmt::format("{}", *q.right) : "", escaped(q.heading), escaped(q.question));
  for (const auto& [words, place] : q.places)
    html += fmt::format("<button type=\"button\" data-place=\"{}\">{}</button>",
                        escaped(place_json(place)), escaped(words));
  html += "</p>\n<fieldset><legend>Guess first</legend>\n";
  for (std::size_t i = 0; i < q.choices.size(); ++i)
    html += fmt::format(
        "<label><input type=\"radio\" name=\"guess-{}\" value=\"{}\" autocomplete=\"off\"> "
        "{}</label>\n",
        index, i, escaped(q.choices[i]));
  return html + "</fieldset>\n<p class=\"guess\" aria-live=\"polite\"></p>\n" +
         fold_html("Answer, from this case's table", list_html(q.answer)) + "</div>\n";
}

std::string questions_html(const std::vector<LessonQuestion>& questions) {
  std::string html;
  for (std::size_t i = 0; i < questions.size(); ++i)
    html += question_html(questions[i], i);
  return html;
}

/// The case as it stands, with the bands of the whole run.
std::string sureness_html(const sim::Lesson& lesson, const sim::Result& result) {
  Table table{"The case itself, with bands (the whole line, " + result.model + " model)",
              {"quantity", "value and band"},
              {}};
  const auto row = [&](const char* words, const sim::Quantity& value, const Scale& scale,
                       const char* unit) {
    if (value) table.rows.push_back({{words, "", ""}, quantity_cell(value, scale, unit)});
  };
  const auto& station = result.stations[lesson.station_index];
  row("line load", station.line_load, as_is, "N/mm");
  row("line load per 0.1 mm", station.line_load_slope, {.factor = 0.1}, "N/mm");
  row("face loses", result.part.face.removal, mm_to_um, "um");
  row("coating left", result.part.face.coating_left, mm_to_um, "um");
  for (const auto& edge : result.part.features)
    if (edge.burr_height)
      table.rows.push_back(
          {{"burr left at " + edge.name, "", ""}, quantity_cell(edge.burr_height, as_is, "mm")});
  return table_html(table) +
         (result.calibrated
              ? "<p>Calibrated with samples.</p>\n"
              : "<p>Uncalibrated: nothing here was measured on this line. The band of a face "
                "removal is often a factor of two or three either way; the sliders show one "
                "nominal "
                "value each and the trend, not the band.</p>\n");
}

std::string stills_html(const sim::Result& result) {
  std::string html;
  const auto add = [&](const std::vector<Drawing>& drawings, std::size_t most) {
    for (std::size_t i = 0; i < drawings.size() && i < most; ++i)
      html += figure_html(drawings[i], 1150, 700);
  };
  add(moment_drawings(result), 1);
  add(profile_drawings(result), 1);
  add(part_as_it_is_drawings(result), 1);
  return html.empty() ? "<p>This case's model draws no section.</p>\n" : html;
}

std::string notes_html(const sim::Lesson& lesson, const LessonTable& table) {
  std::vector<std::string> about{
      fmt::format("The lesson's table: {} steps, {} of them with a warning in place of numbers; "
                  "worked out by the fast model before the page was written. The page reads the "
                  "table and reckons nothing.",
                  lesson.steps.size(), lesson.hidden),
      fmt::format("Stored to {:.2g} % of each value (signed and bounded ones to {:.2g} % of their "
                  "range).",
                  100.0 * table.relative_error, 100.0 * table.straight_error),
      "Tension moves only where the drum is set by interference; between two steps there is "
      "nothing.",
      fmt::format("Removal law: {}.", lesson.removal_law)};
  if (lesson.stations_left_out > 0 || lesson.one_pass_of_several)
    about.emplace_back(
        "The sliders show the first belt alone, in one pass; the pictures and the "
        "table with bands show the whole line.");
  if (!lesson.burr.empty())
    about.push_back(fmt::format("The burr watched: {}, the tallest across the drum.", lesson.burr));
  return fold_html(
             "Trainer's notes: 45 minutes",
             list_html({"0 to 5 min: read the cautions aloud. Hand round a blank as cut and one "
                        "after the belt, edges taped.",
                        "5 to 12: question 1. Hands up before anybody clicks.",
                        "12 to 25: questions 2 and 3, soft and hard side by side. Let the class "
                        "find the slope themselves.",
                        "25 to 33: question 4. Hand round the thickest and the thinnest blank and "
                        "a micrometer.",
                        "33 to 40: question 5 and the myths. Who finds a setting with a warning?",
                        "40 to 45: the printed sheet, then compare with a sample of your own."})) +
         fold_html("What is measured, what is model",
                   list_html({"Model: every number on the sliders, the strip, the pressure, the "
                              "burr.",
                              "From the case or the library: hardness, grit, removal coefficient, "
                              "coating; each with a band.",
                              "Measured: only what your own samples show. Predicted sections are "
                              "to be held beside a photograph of yours."}) +
                       list_html(about)) +
         fold_html("Words", list_html({"Burr: metal standing above the face at a cut edge.",
                                       "Cover: the rubber on the drum; Shore A: its hardness.",
                                       "Interference: how far the drum is set into the part.",
                                       "Line load: force per mm of width.",
                                       "Strip (nip): where belt and part touch.",
                                       "Lip: burr pushed over the edge instead of cut.",
                                       "Bare: coating gone.", "Feed: speed of the part."}));
}

}  // namespace

std::string lesson_page(const sim::Lesson& lesson, const sim::Result& result, bool answers) {
  const LessonTable table = lesson_table(lesson);
  const auto questions = lesson_questions(lesson);
  Page page;
  page.title = result.title + ": lesson";
  page.style = lesson_style;
  page.script = lesson_script;
  page.header = fmt::format(
      "<p class=\"quiet\">Lesson{}</p>\n<h1>{}</h1>\n<p>{}</p>\n<p><strong>{}</strong></p>\n",
      answers ? ", trainer's copy" : "", escaped(result.title), escaped(lesson.station),
      result.calibrated ? "Calibrated" : "Uncalibrated: trends, not promises");
  std::string cautions = section_html("cautions", "Read aloud first", list_html(result.cautions));
  cautions.replace(0, 8, "<section class=\"read-aloud\"");
  page.body =
      cautions +
      section_html("play", "Try it",
                   lesson_lab_html(lesson) +
                       "<noscript><p>Scripts are off: the pictures and tables further down say the "
                       "same for chosen steps.</p></noscript>\n") +
      section_html("questions", "Five questions", questions_html(questions)) +
      section_html("stills", "The case's own pictures", stills_html(result)) +
      section_html("tables", "Soft and hard, in numbers", lesson_tables_html(lesson)) +
      section_html("sure", "How sure", sureness_html(lesson, result)) +
      section_html("notes", "For the trainer", notes_html(lesson, table)) +
      lesson_sheet_html(lesson, questions, answers) +
      fmt::format(
          "<script type=\"application/json\" id=\"lesson-data\">{}</script>\n<script "
          "type=\"text/plain\" id=\"lesson-steps\">{}</script>\n<script type=\"text/plain\" "
          "id=\"lesson-shapes\">{}</script>\n",
          table.meta, table.steps, table.shapes);
  page.footer = fmt::format(
      "<p>A process estimate, not a safety assessment. drumlin {}, case {}, SHA-256 "
      "{}.</p>\n",
      escaped(result.provenance.version), escaped(result.provenance.case_file),
      escaped(result.provenance.case_sha256));
  return page_html(page);
}

}  // namespace drumlin::viz
