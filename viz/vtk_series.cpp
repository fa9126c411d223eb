#include <algorithm>
#include <cmath>
#include <fstream>
#include <stdexcept>
#include <vector>

#include <fmt/format.h>
#include <vtkFloatArray.h>
#include <vtkImageData.h>
#include <vtkInformation.h>
#include <vtkInformationStringKey.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkXMLImageDataWriter.h>
#include <vtkXMLPolyDataWriter.h>

#include "viz/file_names.hpp"
#include "viz/output.hpp"
#include "viz/section_view.hpp"
#include "viz/vtk_shapes.hpp"
#include "viz/vtk_threads.hpp"
#include "viz/vtk_xml.hpp"

namespace drumlin::viz {
namespace {

constexpr std::size_t most_frames = 48;  // enough for a smooth pass, few enough for the disk
constexpr double stretch = 10;           // of heights in the close-up: 20 um of zinc become visible
constexpr double close_reach = 1.5;      // [mm] shown on both sides of an edge
constexpr double joined_gap = 6;         // [mm] between two neighbourhoods that is shown as well
constexpr double close_depth = 0.3;      // [mm] of metal shown in the close-up

/// About evenly spread frames, the telling one among them.
std::vector<std::size_t> chosen_frames(const sim::SectionRecord& section) {
  const std::size_t n = section.frames.size();
  const std::size_t count = std::min(n, most_frames);
  std::vector<std::size_t> out;
  for (std::size_t k = 0; k < count; ++k)
    out.push_back(count == 1 ? 0 : (k * (n - 1) + (count - 1) / 2) / (count - 1));
  const auto telling = static_cast<std::size_t>(std::max(0, section.telling_frame));
  if (telling < n && !out.empty()) {
    const auto after = std::lower_bound(out.begin(), out.end(), telling);
    // The ends stay: they are the part before and after.
    if (after != out.end() && *after != telling && after + 1 != out.end() && after != out.begin())
      *after = telling;
  }
  return out;
}

/// Neighbourhoods of the edges, joined where they meet.
std::vector<Range> close_windows(const sim::SectionRecord& section) {
  std::vector<double> places;
  for (const sim::SectionEdge& edge : section.edges)
    places.push_back(edge.x);
  std::sort(places.begin(), places.end());
  std::vector<Range> out;
  for (const double x : places) {
    if (!out.empty() && x - close_reach <= out.back().high + joined_gap)
      out.back().high = x + close_reach;
    else
      out.push_back({x - close_reach, x + close_reach});
  }
  return out;
}

class SectionSeries {
 public:
  SectionSeries(const sim::Result& result, const sim::SectionRecord& section, std::string name,
                Output& out)
      : result_(result),
        section_(section),
        name_(std::move(name)),
        out_(out),
        travel_(travel(section.frames)) {}

  void write() const;

 private:
  void write_frames(const std::string& pvd, const std::string& folder,
                    const SeriesView& view) const;
  [[nodiscard]] FrameTime time_of(std::size_t frame) const;
  void write_pressure_map() const;
  [[nodiscard]] std::vector<float> map_row(std::size_t frame, int columns, double spacing) const;

  const sim::Result& result_;
  const sim::SectionRecord& section_;
  std::string name_;
  Output& out_;
  std::vector<double> travel_;
};

void SectionSeries::write() const {
  SeriesView true_scale;
  true_scale.windows = {{section_.x.front(), section_.x.back()}};
  true_scale.depth = section_.part_thickness;
  true_scale.least_spacing = 0.05;
  true_scale.whole_drum = true;
  write_frames(name_, name_ + "-frames", true_scale);
  if (!section_.edges.empty()) {
    SeriesView close;
    close.windows = close_windows(section_);
    close.depth = std::min(close_depth, section_.part_thickness);
    close.least_spacing = 0.004;
    close.stretch = stretch;
    write_frames(name_ + "-closeup", fmt::format("{}-closeup-z{:g}-frames", name_, stretch), close);
  }
  write_pressure_map();
}

FrameTime SectionSeries::time_of(std::size_t frame) const {
  const std::size_t first = passage_start(section_.frames, frame);
  return {travel_[frame] / result_.feed, (travel_[frame] - travel_[first]) / result_.feed};
}

void SectionSeries::write_frames(const std::string& pvd, const std::string& folder,
                                 const SeriesView& view) const {
  std::string list;
  int number = 0;
  for (const std::size_t k : chosen_frames(section_)) {
    const sim::Frame& frame = section_.frames[k];
    const sim::DrumShape* drum = drum_of(result_, frame.station);
    if (drum == nullptr || !(result_.feed > 0)) continue;
    const FrameTime time = time_of(k);
    const std::string file = fmt::format("{}/{:03}.vtp", folder, number++);
    const auto data = frame_shapes(section_, frame, *drum, view, time);
    vtkNew<vtkXMLPolyDataWriter> writer;
    writer->SetInputData(data);
    write_xml(*writer, out_.place("pass/" + file));
    list += fmt::format("    <DataSet timestep=\"{:.6g}\" part=\"0\" file=\"{}\"/>\n", time.whole,
                        file);
  }
  write_text(
      out_.place("pass/" + pvd + ".pvd"),
      "<?xml version=\"1.0\"?>\n"
      "<!-- time value: seconds of the pass, counted on through all passes and stations -->\n"
      "<VTKFile type=\"Collection\" version=\"0.1\" byte_order=\"LittleEndian\">\n"
      "  <Collection>\n" +
          list + "  </Collection>\n</VTKFile>\n");
}

/// Pressure on evenly spaced places; each shows the highest pressure of the points around it, so
/// that no spike falls between two of them.
std::vector<float> SectionSeries::map_row(std::size_t frame, int columns, double spacing) const {
  const std::vector<double>& pressure = section_.frames[frame].pressure;
  std::vector<float> row(static_cast<std::size_t>(columns), 0.0F);
  for (int i = 0; i < columns; ++i)
    row[static_cast<std::size_t>(i)] = static_cast<float>(
        value_at(section_.x, pressure, section_.x.front() + i * spacing).value_or(0));
  for (std::size_t i = 0; i < section_.x.size(); ++i) {
    const auto column =
        static_cast<std::size_t>(std::lround((section_.x[i] - section_.x.front()) / spacing));
    float& place = row.at(std::min(column, row.size() - 1));
    place = std::max(place, static_cast<float>(pressure[i]));
  }
  return row;
}

void SectionSeries::write_pressure_map() const {
  constexpr int columns = 800;
  const std::size_t rows = section_.frames.size();
  if (rows < 2 || !(travel_.back() > 0)) return;
  const double dx = (section_.x.back() - section_.x.front()) / (columns - 1);
  const double dy = travel_.back() / static_cast<double>(rows - 1);
  vtkNew<vtkFloatArray> pressure;
  pressure->SetName("pressure [MPa]");
  pressure->GetInformation()->Set(vtkDataArray::UNITS_LABEL(), "MPa");
  for (std::size_t j = 0; j < rows; ++j) {
    // The frame nearest to this travel; frames are about evenly spaced.
    const double at = dy * static_cast<double>(j);
    const auto nearest = std::min_element(travel_.begin(), travel_.end(), [at](double a, double b) {
      return std::abs(a - at) < std::abs(b - at);
    });
    for (const float value :
         map_row(static_cast<std::size_t>(nearest - travel_.begin()), columns, dx))
      pressure->InsertNextValue(value);
  }
  vtkNew<vtkImageData> image;
  image->SetDimensions(columns, static_cast<int>(rows), 1);
  image->SetOrigin(section_.x.front(), 0, 0);
  image->SetSpacing(dx, dy, 1);
  image->GetPointData()->SetScalars(pressure);
  vtkNew<vtkXMLImageDataWriter> writer;
  writer->SetInputData(image);
  write_xml(*writer, out_.place("pass/" + name_ + "-pressure.vti"));
}

std::string readme() {
  return fmt::format(
      R"(The pass of the drum over each section, as VTK files (open the .pvd or .vti files in any
viewer that reads VTK XML files; looking along +y shows x to the right and z up).

Lengths are in mm. x is the feed direction, z is up, z = 0 is the nominal, unworn face; the drum
travels towards -x in the part's frame.

The time value of a .pvd is seconds of the pass: 0 when the first drum comes into reach of the
section, then on through all stations and passes, one passage right after the other. The way from
one station to the next and back to the start is left out: nothing touches the part on it. The field
"time in this passage [s]" starts at 0 in each. Every section has its own 0.

NAME.pvd              true scale: whole drum and whole section (frames in NAME-frames/)
NAME-closeup.pvd      {0:g} mm on both sides of each edge, heights stretched {1:g} times
                      (frames in NAME-closeup-z{1:g}-frames/; the factor is also the field
                      "z stretch [1]"; divide z by it to get mm)
NAME-pressure.vti     pressure over place (x) and drum travel (y), both in mm; every place shows
                      the highest pressure of the points around it

Every array has its unit in its name, and its meaning in the field "meaning of the arrays".
Points: pressure [MPa], coating left [um], worn away [um] (depth lost since the start); off the part
the last two are no number (NaN). Cells: layer [1] is 0 bare metal, 1 coating, 2 elastic cover,
3 face of the belt, 4 profile before the first pass, 5 burr. Fields: drum x [mm], line load [N per
mm], z stretch [1], time [s], time in this passage [s], pass [1] and station [1], both from 1.
Contact pressure lives on the surfaces; it is drawn in a skin of 0.03 mm on either side of the
contact, fading to zero: the colour is not stress inside the metal or the cover.
To see the coating, colour by "layer [1]" or "coating left [um]"; to see the contact, by "pressure
[MPa]" (a logarithmic colour scale shows face and burr together).

The numbers themselves, at full resolution, are in ../results.h5.
)",
      close_reach, stretch);
}

}  // namespace

void write_vtk_series(const sim::Result& result, Output& out) {
  const std::vector<std::string> files = section_files(result);
  bool any = false;
  on_one_thread([&] {
    for (std::size_t i = 0; i < files.size(); ++i) {
      if (result.sections[i].frames.empty() || result.sections[i].x.size() < 2) continue;
      SectionSeries(result, result.sections[i], files[i], out).write();
      any = true;
    }
  });
  if (any) write_text(out.place("pass/README.txt"), readme());
}

}  // namespace drumlin::viz
