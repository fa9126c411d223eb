#include <array>
#include <tuple>

#include <fmt/format.h>

#include "viz/lesson_parts.hpp"
#include "viz/lesson_table.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

std::string slider(const char* key, const char* words, const sim::LessonAxis& axis) {
  return fmt::format(
      "<div class=\"slide\" id=\"row-{0}\"><label for=\"slide-{0}\">{1}: <output "
      "id=\"label-{0}\">{2}</output></label>\n<input type=\"range\" id=\"slide-{0}\" min=\"0\" "
      "max=\"{3}\" step=\"1\" value=\"{4}\"></div>\n",
      key, words, escaped(axis.label[axis.own]), axis.level.size() - 1, axis.own);
}

std::string sliders(const sim::Lesson& lesson) {
  return "<div class=\"sliders\">\n" + slider("cover", "Hardness of the cover", lesson.cover) +
         "<fieldset><legend>Set by</legend><label><input type=\"radio\" name=\"set-by\" "
         "id=\"set-by-depth\"> interference (hand wheel)</label> <label><input type=\"radio\" "
         "name=\"set-by\" id=\"set-by-load\"> line load (force)</label></fieldset>\n" +
         slider("depth", "Interference", lesson.depth) + slider("load", "Line load", lesson.load) +
         slider("thickness", "Sheet thickness", lesson.thickness) +
         slider("speed", "Belt speed", lesson.speed) + slider("feed", "Feed", lesson.feed) +
         slider("tension", "Belt tension (by interference only)", lesson.tension) +
         "<p><button type=\"button\" id=\"back-to-case\">Back to the case</button> <button "
         "type=\"button\" id=\"large\" aria-pressed=\"false\">Large letters</button></p>\n</div>\n";
}

std::string numbers(const sim::Lesson& lesson) {
  std::string html =
      "<table class=\"numbers\"><caption>At this step (uncalibrated, one nominal "
      "value)</caption><tbody>\n";
  const auto row = [&](const char* words, const std::string& id) {
    html += fmt::format("<tr><th scope=\"row\">{}</th><td id=\"value-{}\"></td></tr>\n", words, id);
  };
  for (std::size_t i = 0; i < sim::lesson_values; ++i) {
    const auto which = static_cast<sim::LessonValue>(i);
    using enum sim::LessonValue;
    if (which == coating_left && lesson.coating.empty()) continue;
    const bool of_edge =
        which == burr_pressure || which == burr_left || which == lip || which == edge_drop;
    if (of_edge && lesson.burr.empty()) continue;
    row(lesson_column(which).words, lesson_column(which).key);
    if (which == burr_pressure) row("burr over face", "ratio");
    if (which == burr_left) row("what becomes of the burr", "outcome");
  }
  return html + "</tbody></table>\n";
}

constexpr const char* contact_picture = R"svg(<figure><h3>Drum, strip and burr</h3>
<div class="wide" tabindex="0" role="group" aria-label="Drum, strip and burr"><svg class="contact" viewBox="0 0 640 400" role="img" aria-labelledby="contact-title"><title id="contact-title">Drum pressed on the face, pressure below it, and a close-up of the burr</title>
<defs><clipPath id="drum-box"><rect x="10" y="14" width="380" height="176"/></clipPath></defs>
<g clip-path="url(#drum-box)"><polygon id="drum-cover" points="" class="cover"/><rect x="10" y="150" width="380" height="40" class="metal"/><rect x="10" y="150" width="380" height="5" class="coat" id="coat-on-sheet"/>
<polyline id="drum-belt" points="" class="belt"/><polyline id="drum-round" points="" class="round"/><line id="strip" x1="0" x2="0" y1="150" y2="150" class="strip"/></g>
<text x="14" y="28">cover on the drum</text><text x="14" y="182">sheet</text><text x="14" y="206" id="exaggeration" class="small"></text>
<g id="close-up"><polygon id="rim" points="440,150 510,150 510,190 440,190" class="metal"/><rect id="burr-before" class="was"/><rect id="burr-after" class="burr"/><text x="440" y="28" id="burr-scale" class="small"></text><text x="440" y="44" class="small">outline: before; filled: after</text></g>
<g id="pressure-grid" class="grid"></g><polygon id="pressure-curve" points="" class="pressure"/><rect id="burr-bar" x="488" y="365" width="22" height="0" class="burr"/>
<line x1="10" x2="620" y1="365" y2="365" class="axis"/><text x="14" y="388">pressure on the face, across the strip</text><text x="440" y="388" id="burr-words">highest on the burr</text></svg></div>
<figcaption>Dashed: the drum as it would be round. Strip, pressure and burr are the table's; outside the strip the cover's outline is drawn, not computed.</figcaption></figure>
)svg";

constexpr const char* coating_picture = R"svg(<figure><h3>Coating on the face</h3>
<svg viewBox="0 0 400 64" role="img" aria-labelledby="coating-title"><title id="coating-title">How much of the coating is left</title>
<rect x="10" y="8" width="380" height="26" class="worn" id="coating-gone"/><rect id="coating-left" x="10" y="8" width="0" height="26" class="coat"/><rect x="10" y="8" width="380" height="26" class="frame"/>
<text x="10" y="56" id="coating-words"></text></svg></figure>
)svg";

constexpr const char* chart_picture =
    R"svg(<figure><h3>Face removal against sheet thickness, µm</h3>
<svg viewBox="0 0 420 250" role="img" aria-labelledby="chart-title"><title id="chart-title">Face removal over sheet thickness for this cover</title>
<g id="chart-grid" class="grid"></g><polyline id="chart-line" points="" class="line"/><circle id="chart-marker" r="8" class="marker"/><text x="70" y="24" id="chart-words" class="small"></text></svg>
<figcaption>The steeper the line, the more a thickness counts. One scale for the whole page.</figcaption></figure>
)svg";

}  // namespace

std::string lesson_lab_html(const sim::Lesson& lesson) {
  std::string html =
      "<div id=\"lab\" class=\"with-script only-screen\" hidden>\n<p>Move one slider at a time; "
      "the "
      "arrow keys do it too. Where the program has no answer that holds, a warning stands in place "
      "of the numbers.</p>\n<p id=\"warning\" class=\"caution\" hidden></p>\n<p id=\"spoken\" "
      "class=\"unseen\" aria-live=\"polite\"></p>\n<div class=\"bench\">\n" +
      sliders(lesson) + "<div class=\"pictures\">\n";
  html += contact_picture;
  if (!lesson.coating.empty()) html += coating_picture;
  html += chart_picture;
  return html + "</div>\n" + numbers(lesson) +
         "</div>\n<p id=\"measured\" class=\"quiet\"></p>\n</div>\n";
}

}  // namespace drumlin::viz
