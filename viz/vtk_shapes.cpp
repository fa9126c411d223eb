#include "viz/vtk_shapes.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>
#include <utility>

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkFieldData.h>
#include <vtkFloatArray.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkStringArray.h>

#include "viz/vtk_arrays.hpp"

namespace drumlin::viz {
namespace {

constexpr double cover_shown = 0.35;  // [mm] of the cover above the belt, in a close-up

/// Contact pressure is a matter of surfaces: it is shown in a skin this deep on either side of the
/// contact [mm] and fades to nothing inside it, so that nobody reads it as stress in the bulk.
constexpr double skin = 0.03;

/// What a quantity is where it does not exist, such as coating on the cover: no number.
constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// Gathers points with their values, then cells, and makes the data set.
class Shapes {
 public:
  explicit Shapes(double stretch) : stretch_(stretch) {
    name(*pressure_, pressure_key);
    name(*coating_, coating_key);
    name(*worn_, worn_key);
  }

  vtkIdType point(double x, double z, double pressure = 0, double coating = none,
                  double worn = none) {
    pressure_->InsertNextValue(static_cast<float>(pressure));
    coating_->InsertNextValue(static_cast<float>(coating * 1e3));
    worn_->InsertNextValue(static_cast<float>(worn * 1e3));
    return points_->InsertNextPoint(x, 0, z * stretch_);
  }
  void line(const std::vector<vtkIdType>& ids, Layer layer) {
    if (ids.size() >= 2) add(*lines_, line_layers_, ids, layer);
  }
  void strip(const std::vector<vtkIdType>& ids, Layer layer) {
    constexpr std::size_t least = 3;  // one triangle
    if (ids.size() >= least) add(*strips_, strip_layers_, ids, layer);
  }

  [[nodiscard]] vtkSmartPointer<vtkPolyData> data(const sim::Frame& frame,
                                                  const FrameTime& time) const {
    auto out = vtkSmartPointer<vtkPolyData>::New();
    out->SetPoints(points_);
    out->SetLines(lines_);
    out->SetStrips(strips_);
    out->GetPointData()->AddArray(pressure_);
    out->GetPointData()->AddArray(coating_);
    out->GetPointData()->AddArray(worn_);
    out->GetPointData()->SetActiveScalars(pressure_->GetName());
    // Not unsigned char: viewers take such an array for colours as they stand.
    vtkNew<vtkIntArray> layers;
    name(*layers, layer_key);
    for (const auto& list : {line_layers_, strip_layers_})  // lines come first in a vtkPolyData
      for (const Layer layer : list)
        layers->InsertNextValue(static_cast<int>(layer));
    out->GetCellData()->AddArray(layers);
    add_field(*out, stretch_key, stretch_);
    add_field(*out, drum_key, frame.drum_x);
    add_field(*out, load_key, frame.line_load);
    add_field(*out, time_key, time.whole);
    add_field(*out, passage_key, time.of_passage);
    add_field(*out, pass_key, frame.pass + 1);
    add_field(*out, station_key, frame.station + 1);
    vtkNew<vtkStringArray> meanings;
    meanings->SetName("meaning of the arrays");
    for (const ArrayKey& key : all_keys)
      meanings->InsertNextValue(std::string(key.name) + ": " + key.meaning);
    out->GetFieldData()->AddArray(meanings);
    return out;
  }

 private:
  static void add(vtkCellArray& cells, std::vector<Layer>& layers,
                  const std::vector<vtkIdType>& ids, Layer layer) {
    cells.InsertNextCell(static_cast<vtkIdType>(ids.size()), ids.data());
    layers.push_back(layer);
  }
  static void add_field(vtkPolyData& data, const ArrayKey& key, double value) {
    vtkNew<vtkFloatArray> field;
    name(*field, key);
    field->InsertNextValue(static_cast<float>(value));
    data.GetFieldData()->AddArray(field);
  }

  double stretch_;
  vtkNew<vtkPoints> points_;
  vtkNew<vtkFloatArray> pressure_;
  vtkNew<vtkFloatArray> coating_;
  vtkNew<vtkFloatArray> worn_;
  vtkNew<vtkCellArray> lines_;
  vtkNew<vtkCellArray> strips_;
  std::vector<Layer> line_layers_;
  std::vector<Layer> strip_layers_;
};

/// Indices of a piece without those that lie too close; both ends stay, and so does every step of
/// the profile.
std::vector<std::size_t> thinned(const std::vector<double>& x, const std::vector<double>& z,
                                 const Piece& piece, double least) {
  constexpr double step = 0.01;  // [mm] a burr's flank
  std::vector<std::size_t> kept{piece.first};
  for (std::size_t i = piece.first + 1; i < piece.last; ++i)
    if (x[i] - x[kept.back()] >= least || std::abs(z[i + 1] - z[i]) > step ||
        std::abs(z[i] - z[i - 1]) > step)
      kept.push_back(i);
  kept.push_back(piece.last);
  return kept;
}

/// Metal that hangs over an opening, from its underside up.
void add_hanging(Shapes& shapes, const sim::SectionRecord& section, const sim::Frame& frame,
                 const Piece& piece) {
  std::vector<vtkIdType> strip;
  for (std::size_t i = piece.first; i <= piece.last; ++i) {
    strip.push_back(shapes.point(section.x[i], frame.underside[i]));
    strip.push_back(shapes.point(section.x[i], frame.surface[i], frame.pressure[i]));
  }
  shapes.strip(strip, Layer::burr);
}

void add_part(Shapes& shapes, const sim::SectionRecord& section, const sim::Frame& frame,
              const SeriesView& view, const Range& window) {
  for (const auto& [piece, hangs] : metal_runs(section.x, frame.surface, frame.underside, window)) {
    if (hangs) {
      add_hanging(shapes, section, frame, piece);
      continue;
    }
    std::vector<vtkIdType> substrate;
    std::vector<vtkIdType> under;
    std::vector<vtkIdType> coating;
    std::vector<vtkIdType> burr;
    const auto show_burr = [&] {
      shapes.strip(burr, Layer::burr);
      burr.clear();
    };
    for (const std::size_t i : thinned(section.x, frame.surface, piece, view.least_spacing)) {
      const double x = section.x[i];
      const double left = std::max(0.0, frame.coating[i]);
      const double on_top = i < frame.burr.size() ? std::max(0.0, frame.burr[i]) : 0.0;
      const double worn = section.before[i] - frame.surface[i];
      const auto add = [&](double z, double pressure) {
        return shapes.point(x, z, pressure, left, worn);
      };
      const double foot = frame.surface[i] - on_top;
      const double metal = foot - left;
      const vtkIdType border = add(metal, frame.pressure[i]);
      const vtkIdType inside = add(std::max(metal - skin, -view.depth), 0);
      substrate.push_back(add(-view.depth, 0));
      substrate.push_back(inside);
      under.push_back(inside);
      under.push_back(border);
      coating.push_back(border);
      coating.push_back(add(foot, frame.pressure[i]));
      if (on_top > 0) {
        burr.push_back(coating.back());
        burr.push_back(add(frame.surface[i], frame.pressure[i]));
      } else {
        show_burr();
      }
    }
    show_burr();
    shapes.strip(substrate, Layer::substrate);
    shapes.strip(under, Layer::substrate);
    shapes.strip(coating, Layer::coating);
  }
}

void add_before(Shapes& shapes, const sim::SectionRecord& section, const SeriesView& view,
                const Range& window) {
  for (const Piece& piece : metal_pieces(section.x, section.before, window)) {
    std::vector<vtkIdType> line;
    for (const std::size_t i : thinned(section.x, section.before, piece, view.least_spacing))
      line.push_back(
          shapes.point(section.x[i], section.before[i], none, section.before_coating[i], 0));
    shapes.line(line, Layer::before);
  }
}

/// Cover and belt over the part only.
void add_cover_strip(Shapes& shapes, const sim::SectionRecord& section, const sim::Frame& frame,
                     const sim::DrumShape& drum, const SeriesView& view, const Range& window) {
  constexpr double far = 2;  // [mm] a belt that high over the face is out of the picture
  std::vector<double> outline = drum_outline(section.x, frame, drum);
  for (double& z : outline)
    if (z > far) z = std::numeric_limits<double>::quiet_NaN();
  for (const Piece& piece : metal_pieces(section.x, outline, window)) {
    std::vector<vtkIdType> cover;
    std::vector<vtkIdType> above;
    std::vector<vtkIdType> belt;
    for (const std::size_t i : thinned(section.x, outline, piece, view.least_spacing)) {
      belt.push_back(shapes.point(section.x[i], outline[i], frame.pressure[i]));
      const vtkIdType inside = shapes.point(section.x[i], outline[i] + skin);
      above.push_back(belt.back());
      above.push_back(inside);
      cover.push_back(inside);
      cover.push_back(shapes.point(section.x[i], outline[i] + cover_shown));
    }
    shapes.line(belt, Layer::belt);
    shapes.strip(above, Layer::cover);
    shapes.strip(cover, Layer::cover);
  }
}

/// The drum's full ring of cover, squashed at the part; the belt on it is drawn where it was
/// computed and on the lower half of the circle.
void add_whole_drum(Shapes& shapes, const sim::SectionRecord& section, const sim::Frame& frame,
                    const sim::DrumShape& drum, const SeriesView& view) {
  constexpr int ring = 180;               // points of the circle away from the part
  constexpr double part_of_radius = 0.5;  // the nip lies well inside this share of the radius
  const double centre = drum.radius - drum.interference;
  const double hub = drum.radius - drum.cover;
  const std::vector<double> outline = drum_outline(section.x, frame, drum);
  const double reach = part_of_radius * drum.radius;
  std::vector<std::pair<double, double>> rim;  // from left over the nip to the right, then round
  double last = frame.drum_x - reach;
  for (std::size_t i = 0; i < section.x.size(); ++i) {
    if (std::abs(section.x[i] - frame.drum_x) >= reach || !std::isfinite(outline[i])) continue;
    if (section.x[i] - last < view.least_spacing) continue;
    last = section.x[i];
    rim.emplace_back(section.x[i], outline[i]);
  }
  const auto angle_of = [&](double x, double z) {
    return std::atan2(z - centre, x - frame.drum_x);
  };
  const double quarter = std::numbers::pi / 2;
  double start = rim.empty() ? -quarter : angle_of(rim.back().first, rim.back().second);
  double end = rim.empty() ? -quarter : angle_of(rim.front().first, rim.front().second);
  end += 2 * std::numbers::pi;
  std::vector<vtkIdType> cover;
  std::vector<vtkIdType> above;
  std::vector<vtkIdType> belt;
  const auto add = [&](double x, double z, double pressure) {
    const double angle = angle_of(x, z);
    belt.push_back(shapes.point(x, z, pressure));
    const vtkIdType inside = shapes.point(x - skin * std::cos(angle), z - skin * std::sin(angle));
    above.push_back(belt.back());
    above.push_back(inside);
    cover.push_back(inside);
    cover.push_back(
        shapes.point(frame.drum_x + hub * std::cos(angle), centre + hub * std::sin(angle)));
  };
  for (const auto& [x, z] : rim)
    add(x, z, value_at(section.x, frame.pressure, x).value_or(0));
  for (int i = 1; i <= ring; ++i) {
    const double angle = start + (end - start) * i / ring;
    add(frame.drum_x + drum.radius * std::cos(angle), centre + drum.radius * std::sin(angle), 0);
  }
  if (cover.size() >= 4) cover.insert(cover.end(), {cover[0], cover[1]});
  shapes.line(belt, Layer::belt);
  shapes.strip(above, Layer::cover);
  shapes.strip(cover, Layer::cover);
}

}  // namespace

vtkSmartPointer<vtkPolyData> frame_shapes(const sim::SectionRecord& section,
                                          const sim::Frame& frame, const sim::DrumShape& drum,
                                          const SeriesView& view, const FrameTime& time) {
  Shapes shapes(view.stretch);
  for (const Range& window : view.windows) {
    add_part(shapes, section, frame, view, window);
    add_before(shapes, section, view, window);
    if (!view.whole_drum) add_cover_strip(shapes, section, frame, drum, view, window);
  }
  if (view.whole_drum) add_whole_drum(shapes, section, frame, drum, view);
  return shapes.data(frame, time);
}

}  // namespace drumlin::viz
