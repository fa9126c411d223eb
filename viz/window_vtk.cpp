#include <cmath>
#include <limits>
#include <map>
#include <string>

#include <fmt/format.h>
#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkDoubleArray.h>
#include <vtkFieldData.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkStringArray.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLPolyDataWriter.h>
#include <vtkXMLUnstructuredGridWriter.h>

#include "viz/file_names.hpp"
#include "viz/vtk_arrays.hpp"
#include "viz/vtk_threads.hpp"
#include "viz/vtk_xml.hpp"
#include "viz/window_parts.hpp"

namespace drumlin::viz {
namespace {

constexpr ArrayKey kind_key{"kind [1]", "1",
                            "0 accepted, -1 not known, -2 cannot be computed, else number of the "
                            "limit that fails first"};
constexpr ArrayKey border_key{"at border [1]", "1", "1 where the corners of a cell differ"};
constexpr ArrayKey worst_key{"worst margin [1]", "1",
                             "smallest distance to a limit over that limit; below zero: not met"};
constexpr ArrayKey probability_key{"probability [1]", "1",
                                   "share of the draws that keep all limits"};
constexpr ArrayKey low_key{"probability low [1]", "1", "lower end of its exact 95 % interval"};
constexpr ArrayKey high_key{"probability high [1]", "1", "upper end of its exact 95 % interval"};
constexpr ArrayKey line_key{"line [1]", "1",
                            "0 border of what is accepted, 2 tolerance box, else the probability "
                            "of a contour"};

/// Says what coordinates and arrays are, as fields of the data set.
void describe(vtkDataSet& data, const sim::Window& window) {
  const auto text = [&](const char* name, const std::string& words) {
    vtkNew<vtkStringArray> array;
    array->SetName(name);
    array->InsertNextValue(words);
    data.GetFieldData()->AddArray(array);
  };
  const auto axis = [](const sim::WindowAxis& of) {
    return fmt::format("{} [{}]", of.key, of.unit.empty() ? "1" : of.unit);
  };
  text("x is", axis(window.axes[0]));
  text("y is", axis(window.axes[1]));
  for (std::size_t k = 0; k < window.limits.size(); ++k)
    text(fmt::format("limit {}", k + 1).c_str(),
         window.limits[k].name + " " + window.limits[k].limit);
}

template <class Array>
vtkSmartPointer<Array> named(const ArrayKey& key) {
  auto array = vtkSmartPointer<Array>::New();
  name(*array, key);
  return array;
}

/// A grid of the leaves of a map, its points at the settings' own values.
class LeafGrid {
 public:
  LeafGrid(const sim::Window& window, std::size_t cells) : window_(window), cells_(cells) {
    grid_->SetPoints(points_);
  }

  void point(const sim::MapPoint& at) {
    const auto n = static_cast<double>(cells_);
    numbers_[at] = points_->InsertNextPoint(window_.axes[0].at(static_cast<double>(at.i) / n),
                                            window_.axes[1].at(static_cast<double>(at.j) / n), 0);
  }
  void leaf(const sim::MapCell& cell) {
    const auto [i, j] = cell.corner;
    const std::size_t s = cell.side;
    const vtkIdType corners[4] = {numbers_.at({i, j}), numbers_.at({i + s, j}),
                                  numbers_.at({i + s, j + s}), numbers_.at({i, j + s})};
    grid_->InsertNextCell(VTK_QUAD, 4, corners);
  }
  [[nodiscard]] vtkUnstructuredGrid& grid() { return *grid_; }

 private:
  const sim::Window& window_;
  std::size_t cells_;
  vtkNew<vtkPoints> points_ = [] {
    vtkNew<vtkPoints> points;
    points->SetDataTypeToDouble();
    return points;
  }();
  vtkNew<vtkUnstructuredGrid> grid_;
  std::map<sim::MapPoint, vtkIdType> numbers_;
};

void write_grid(vtkUnstructuredGrid& grid, const std::filesystem::path& path) {
  vtkNew<vtkXMLUnstructuredGridWriter> writer;
  writer->SetInputData(&grid);
  write_xml(*writer, path);
}

void write_map(const sim::Window& window, Output& out) {
  LeafGrid leaves(window, window.map.cells);
  leaves.grid().AllocateExact(static_cast<vtkIdType>(window.map.leaves.size()),
                              static_cast<vtkIdType>(4 * window.map.leaves.size()));
  auto kinds = named<vtkIntArray>(kind_key);
  auto worst = named<vtkDoubleArray>(worst_key);
  for (const sim::WindowPoint& point : window.points) {
    leaves.point(point.at);
    kinds->InsertNextValue(point.kind);
    double least = std::numeric_limits<double>::quiet_NaN();
    for (const double margin : point.margins)
      least = std::fmin(least, margin);  // leaves NaN out
    worst->InsertNextValue(least);
  }
  leaves.grid().GetPointData()->AddArray(kinds);
  leaves.grid().GetPointData()->AddArray(worst);
  for (std::size_t k = 0; k < window.limits.size(); ++k) {
    const std::string words = fmt::format("margin of limit {} [1]", k + 1);
    auto margins =
        named<vtkDoubleArray>({words.c_str(), "1", "distance to the limit over the limit"});
    for (const sim::WindowPoint& point : window.points)
      margins->InsertNextValue(point.margins[k]);
    leaves.grid().GetPointData()->AddArray(margins);
  }
  auto cell_kinds = named<vtkIntArray>(kind_key);
  auto border = named<vtkIntArray>(border_key);
  for (const sim::MapCell& cell : window.map.leaves) {
    leaves.leaf(cell);
    cell_kinds->InsertNextValue(cell.kind);
    border->InsertNextValue(cell.at_border ? 1 : 0);
  }
  leaves.grid().GetCellData()->AddArray(cell_kinds);
  leaves.grid().GetCellData()->AddArray(border);
  describe(leaves.grid(), window);
  write_grid(leaves.grid(), out.place("window.vtu"));
}

void write_probability(const sim::Window& window, Output& out) {
  const sim::WindowProbability& of = *window.probability;
  LeafGrid leaves(window, of.cells);
  leaves.grid().AllocateExact(static_cast<vtkIdType>(of.leaves.size()),
                              static_cast<vtkIdType>(4 * of.leaves.size()));
  auto value = named<vtkDoubleArray>(probability_key);
  auto low = named<vtkDoubleArray>(low_key);
  auto high = named<vtkDoubleArray>(high_key);
  for (const sim::WindowNode& node : of.nodes) {
    leaves.point(node.at);
    value->InsertNextValue(node.met.value);
    low->InsertNextValue(node.met.low);
    high->InsertNextValue(node.met.high);
  }
  for (const sim::MapCell& cell : of.leaves)
    leaves.leaf(cell);
  leaves.grid().GetPointData()->AddArray(value);
  leaves.grid().GetPointData()->AddArray(low);
  leaves.grid().GetPointData()->AddArray(high);
  describe(leaves.grid(), window);
  write_grid(leaves.grid(), out.place("window-probability.vtu"));
}

void write_lines(const sim::Window& window, Output& out) {
  constexpr double box_line = 2;
  vtkNew<vtkPolyData> data;
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  vtkNew<vtkCellArray> cells;
  auto which = named<vtkDoubleArray>(line_key);
  const auto add = [&](const std::vector<sim::MapPlace>& places, double of) {
    cells->InsertNextCell(static_cast<int>(places.size()));
    for (const sim::MapPlace& place : places)
      cells->InsertCellPoint(
          points->InsertNextPoint(window.axes[0].at(place[0]), window.axes[1].at(place[1]), 0));
    which->InsertNextValue(of);
  };
  for (const sim::WindowLine& line : window.border)
    add(line.places, 0);
  if (window.robust) {
    const auto [x, y] = window.robust->middle;
    const double r = window.robust->reach;
    add({{x - r, y - r}, {x + r, y - r}, {x + r, y + r}, {x - r, y + r}, {x - r, y - r}}, box_line);
  }
  if (window.probability)
    for (const sim::ProbabilityContour& contour : window.probability->contours)
      for (const sim::WindowLine& line : contour.lines)
        add(line.places, contour.level);
  data->SetPoints(points);
  data->SetLines(cells);
  data->GetCellData()->AddArray(which);
  describe(*data, window);
  vtkNew<vtkXMLPolyDataWriter> writer;
  writer->SetInputData(data);
  write_xml(*writer, out.place("window-lines.vtp"));
}

}  // namespace

void write_window_vtk(const sim::Window& window, Output& out) {
  on_one_thread([&] {
    write_map(window, out);
    write_lines(window, out);
    if (window.probability) write_probability(window, out);
  });
}

}  // namespace drumlin::viz
