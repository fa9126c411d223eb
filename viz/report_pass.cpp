#include <algorithm>
#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "viz/moment_facts.hpp"
#include "viz/page.hpp"
#include "viz/pass_drawing.hpp"
#include "viz/report_parts.hpp"
#include "viz/section_view.hpp"
#include "viz/sheet.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

constexpr std::size_t most_sections = 2;  // that move; more would make the page slow to load
constexpr std::size_t most_moments = 48;  // of a section
constexpr std::size_t most_stills = 6;

/// Highest pressure within a millimetre of an edge [MPa].
double edge_pressure(const sim::SectionRecord& section, const sim::Frame& frame,
                     const sim::SectionEdge& edge) {
  constexpr double near = 1;  // [mm], as face_pressure keeps away
  return highest_pressure(section, frame, {edge.x - near, edge.x + near});
}

/// What a moment says in words; the slider reads it out.
std::string says(const sim::Result& result, const sim::SectionRecord& section,
                 const sim::Frame& frame, const std::string& edge_name) {
  const double start =
      section
          .frames[passage_start(section.frames,
                                static_cast<std::size_t>(&frame - section.frames.data()))]
          .drum_x;
  std::string text = fmt::format("Station {}, pass {}: drum at {:.1f} mm", frame.station + 1,
                                 frame.pass + 1, frame.drum_x);
  if (result.feed > 0) text += fmt::format(", t = {:.2f} s", (start - frame.drum_x) / result.feed);
  text += fmt::format(", line load {:.2f} N/mm", frame.line_load);
  if (const sim::SectionEdge* edge = edge_named(section, edge_name)) {
    const double pressure = edge_pressure(section, frame, *edge);
    const char* what = burr_or_edge(section, frame, *edge);
    text += pressure > 0 ? fmt::format(", {} {}", what, pressure_text(pressure))
                         : fmt::format(", {} not touched", what);
  }
  const double face = face_pressure(section, frame).value;
  return text + (face > 0 ? fmt::format(", face {}.", pressure_text(face))
                          : std::string(", face not touched."));
}

/// Frames in even steps, the telling one always among them.
std::vector<std::size_t> thinned_frames(const sim::SectionRecord& section) {
  const std::size_t n = section.frames.size();
  const std::size_t stride = (n + most_moments - 1) / most_moments;
  const auto telling = static_cast<std::size_t>(std::max(0, section.telling_frame));
  std::vector<std::size_t> frames;
  for (std::size_t i = 0; i < n; ++i)
    if (i % stride == telling % stride) frames.push_back(i);
  return frames;
}

std::string svg(const PassView& view, const std::string& id, const std::string& title,
                const std::string& inner) {
  return svg_element({.id = id, .width = view.width, .height = view.height, .title = title}, inner);
}

std::string view_html(const PassView& view, const PassDrawing& drawing, std::size_t shown,
                      const std::string& id, const std::string& title,
                      const sim::SectionRecord& section) {
  std::string inner = fmt::format("<g id=\"{}-under\">\n{}</g>\n", id, view.under);
  for (std::size_t i = 0; i < view.moments.size(); ++i)
    inner += fmt::format(
        "<g class=\"moment{}\" data-drum-x=\"{:.2f}\"><g id=\"{}-{}\">\n{}</g></g>\n",
        i == shown ? " now" : "", section.frames[drawing.frames[i]].drum_x, id, i, view.moments[i]);
  inner += fmt::format("<g id=\"{}-over\">\n{}</g>\n", id, view.over);
  return svg(view, id, title, inner);
}

/// Moments of the strip: those around the highest pressure, evenly through what presses.
std::vector<std::size_t> still_moments(const sim::SectionRecord& section,
                                       const PassDrawing& drawing) {
  std::vector<std::size_t> touching;
  const sim::SectionEdge* edge = edge_named(section, drawing.edge);
  for (std::size_t i = 0; i < drawing.frames.size(); ++i) {
    const sim::Frame& frame = section.frames[drawing.frames[i]];
    if (edge == nullptr ? highest_pressure(frame) > 0 : edge_pressure(section, frame, *edge) > 0)
      touching.push_back(i);
  }
  if (touching.size() <= most_stills) return touching;
  std::vector<std::size_t> out;
  for (std::size_t k = 0; k < most_stills; ++k)
    out.push_back(touching[k * (touching.size() - 1) / (most_stills - 1)]);
  return out;
}

std::string stills_html(const sim::Result& result, const sim::SectionRecord& section,
                        const PassDrawing& drawing, const std::string& id) {
  const bool close = drawing.close.has_value();
  const PassView& view = close ? *drawing.close : drawing.whole;
  const std::string source = id + (close ? "-close" : "-whole");
  std::string html;
  for (const std::size_t i : still_moments(section, drawing)) {
    const sim::Frame& frame = section.frames[drawing.frames[i]];
    const std::string words = says(result, section, frame, drawing.edge);
    html += fmt::format(
        "<li>\n{}<p>{}</p>\n</li>\n",
        svg(view, fmt::format("{}-still-{}", id, i),
            fmt::format("{}, drum at {:.1f} mm", section.name, frame.drum_x),
            fmt::format(
                "<use href=\"#{0}-under\"/><use href=\"#{0}-{1}\"/><use href=\"#{0}-over\"/>",
                source, i)),
        escaped(words));
  }
  return html.empty() ? html : fmt::format("<ol class=\"stills\">\n{}</ol>\n", html);
}

std::string controls_html(const std::string& id, const std::string& name, std::size_t moments,
                          std::size_t shown, const std::string& words) {
  return fmt::format(
      "<div class=\"controls only-screen\" hidden>\n"
      "<button type=\"button\" class=\"play\">Play</button>\n"
      "<button type=\"button\" class=\"back\">Step back</button>\n"
      "<button type=\"button\" class=\"on\">Step on</button>\n"
      "<label for=\"{0}-slider\">Place in the pass over {1}</label>\n"
      "<input type=\"range\" id=\"{0}-slider\" min=\"0\" max=\"{2}\" step=\"1\" value=\"{3}\">\n"
      "</div>\n<p class=\"says\" aria-live=\"polite\">{4}</p>\n",
      id, escaped(name), moments - 1, shown, escaped(words));
}

std::string pass_html(const sim::Result& result, const sim::SectionRecord& section,
                      const std::string& id) {
  const PassDrawing drawing = pass_drawing(section, result.drums, thinned_frames(section), id);
  const auto telling = static_cast<std::size_t>(std::max(0, section.telling_frame));
  const auto shown = static_cast<std::size_t>(
      std::find(drawing.frames.begin(), drawing.frames.end(), telling) - drawing.frames.begin());
  std::string words;  // of every moment, for the script
  for (const std::size_t frame : drawing.frames)
    words += fmt::format("<li>{}</li>\n",
                         escaped(says(result, section, section.frames[frame], drawing.edge)));
  std::string views = view_html(drawing.whole, drawing, shown, id + "-whole",
                                section.name + ": drum, cover and part during the pass", section);
  if (drawing.close)
    views +=
        view_html(*drawing.close, drawing, shown, id + "-close",
                  section.name + ": close-up at " + drawing.edge + " during the pass", section);
  const sim::Frame& frame = section.frames[drawing.frames[shown]];
  std::string scale = fmt::format(
      "Every moment is drawn at one scale and on one axis of pressure. Heights are "
      "drawn {:g} times larger than lengths",
      drawing.whole.heights);
  if (drawing.close)
    scale += drawing.close->heights > 1
                 ? fmt::format(", in the close-up {:g} times", drawing.close->heights)
                 : std::string(", in the close-up they are to scale");
  scale +=
      fmt::format(". {} of {} computed moments.", drawing.frames.size(), section.frames.size());
  return fmt::format(
      "<div class=\"pass\" id=\"{0}\">\n<h3>{1}</h3>\n<p class=\"setup\">{2}</p>\n"
      "<div class=\"views\">\n{3}</div>\n{4}<p class=\"why\">{5}</p>\n<p class=\"quiet\">{6}</p>\n"
      "<template>\n<ul>\n{7}</ul>\n</template>\n{8}</div>\n",
      id, escaped(section.name), escaped(setup_text(result, frame.station)), views,
      controls_html(id, section.name, drawing.frames.size(), shown,
                    says(result, section, frame, drawing.edge)),
      escaped(moment_why(result, section, frame)), escaped(scale), words,
      stills_html(result, section, drawing, id));
}

bool can_move(const sim::Result& result, const sim::SectionRecord& section) {
  const auto telling = static_cast<std::size_t>(std::max(0, section.telling_frame));
  return section.x.size() > 1 && telling < section.frames.size() &&
         std::all_of(section.frames.begin(), section.frames.end(), [&](const sim::Frame& frame) {
           const sim::DrumShape* drum = drum_of(result, frame.station);
           return drum != nullptr && drum->radius > 0;
         });
}

/// Whether what decides the verdict lies in a section.
bool decides(const sim::Result& result, const sim::SectionRecord& section) {
  return std::any_of(section.edges.begin(), section.edges.end(), [&](const sim::SectionEdge& edge) {
    return result.verdict.decided_by.starts_with(edge.feature + " ");
  });
}

double telling_pressure(const sim::SectionRecord& section) {
  return highest_pressure(section.frames[static_cast<std::size_t>(section.telling_frame)]);
}

}  // namespace

std::string report_pass(const sim::Result& result) {
  std::vector<const sim::SectionRecord*> moving;
  for (const sim::SectionRecord& section : result.sections)
    if (can_move(result, section)) moving.push_back(&section);
  if (moving.empty()) return "";
  std::stable_sort(moving.begin(), moving.end(), [&](const auto* a, const auto* b) {
    const bool first = decides(result, *a);
    const bool second = decides(result, *b);
    return first != second ? first : telling_pressure(*a) > telling_pressure(*b);
  });
  const std::size_t all = moving.size();
  moving.resize(std::min(all, most_sections));
  std::string body =
      "<p>The drum travels over the part from right to left. Grey: metal; green: coating; orange: "
      "burr as it came, and burr that hangs over the edge; sand: what is worn away; blue: pressure."
      "</p>\n";
  for (std::size_t i = 0; i < moving.size(); ++i)
    body += pass_html(result, *moving[i], fmt::format("pass-{}", i));
  if (all > moving.size())
    body += fmt::format(
        "<p class=\"quiet\">{} of {} sections move here, what decides first, then those with the "
        "highest pressure; the pictures below show the others at their highest pressure.</p>\n",
        moving.size(), all);
  return section_html("pass", "The pass, moment by moment", body);
}

}  // namespace drumlin::viz
