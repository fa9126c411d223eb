#include <fmt/format.h>

#include "viz/drawings.hpp"
#include "viz/file_names.hpp"
#include "viz/moment_drawing.hpp"
#include "viz/moment_facts.hpp"
#include "viz/section_view.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {

std::vector<Drawing> moment_drawings(const sim::Result& result) {
  const std::vector<std::string> files = section_files(result);
  std::vector<Drawing> drawings;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const sim::SectionRecord& section = result.sections[i];
    const auto moment = telling_moment(result, section);
    if (!moment) continue;
    const sim::Frame& frame = moment->frame;
    drawings.push_back(
        {.file = "moment-" + files[i],
         .what = section.name + ", highest edge pressure",
         .setup = setup_text(result, frame.station),
         .why = moment_why(result, section, frame),
         .paint = [moment = *moment](Canvas& canvas,
                                     const Box& area) { draw_moment(canvas, area, moment); },
         .height = [moment = *moment](double width) { return moment_height(moment, width); },
         .shows = fmt::format(
             "Section through drum, elastic cover, belt and part at the moment of the highest edge "
             "pressure, with the pressure along the feed below: up to {} at the edge, {} on the "
             "face "
             "beside it. A close-up shows the edge, and the burr before as a dashed line.",
             pressure_text(highest_pressure(frame)),
             pressure_text(face_pressure(section, frame).value))});
  }
  return drawings;
}

}  // namespace drumlin::viz
