#include <fmt/format.h>

#include "viz/file_names.hpp"
#include "viz/moment_drawing.hpp"
#include "viz/moment_facts.hpp"
#include "viz/offscreen.hpp"
#include "viz/output.hpp"
#include "viz/section_view.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {

void write_moment_pictures(const sim::Result& result, Output& out) {
  std::vector<std::string> names;
  for (const sim::SectionRecord& section : result.sections)
    names.push_back(section.name);
  const std::vector<std::string> files = file_names(names);
  for (std::size_t i = 0; i < files.size(); ++i) {
    const sim::SectionRecord& section = result.sections[i];
    const auto index = static_cast<std::size_t>(std::max(0, section.telling_frame));
    if (index >= section.frames.size()) continue;
    const sim::Frame& frame = section.frames[index];
    const sim::DrumShape* drum = drum_of(result, frame.station);
    if (drum == nullptr) continue;
    Offscreen* screen = out.screen();
    if (screen == nullptr) return;
    screen->draw(out.place(fmt::format("pictures/moment-{}.png", files[i])), [&](Canvas& canvas) {
      const Box area =
          draw_sheet(canvas, result, section.name + ", highest edge pressure",
                     setup_text(result, frame.station), moment_why(result, section, frame));
      draw_moment(canvas, area, {result, section, frame, *drum});
    });
  }
}

}  // namespace drumlin::viz
