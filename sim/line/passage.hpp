#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "sim/line/strip.hpp"
#include "sim/numerics/contact_solver.hpp"
#include "sim/numerics/line_compliance.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim::line {

/// Where the drum goes over a strip, and how finely.
struct Course {
  double interference = 0;  ///< delta [mm] against the nominal, unworn face
  std::size_t from = 0;     ///< cell under the drum's axis at the start
  std::size_t to = 0;       ///< and at the end, <= from: the drum travels towards -x
  std::size_t stride = 1;   ///< cells per step
};

/// One step of a passage as it looks once solved; the spans live until the next step.
struct StepView {
  int step = 0;
  std::size_t axis = 0;              ///< cell under the drum's axis
  std::size_t first = 0;             ///< strip cell under the first patch cell
  double line_load = 0;              ///< [N/mm]
  std::span<const double> pressure;  ///< [MPa], per patch cell
  std::span<const double> belt;      ///< height of the belt's face [mm], per patch cell
  ContactReport report;
};
using OnStep = std::function<void(const StepView&)>;

/// A drum with its belt, ready to press on strips of one spacing. The contact patch (as many cells
/// as the contact can get wide) rides with the drum.
///
/// Each step moves the drum by a stride and solves contact and wear together, implicitly
/// (backward Euler): the removal of the step acts as a local give of the surface, which keeps any
/// step stable and lets layers be crossed exactly within it.
class Passage {
 public:
  /// @param half_span  half the patch [mm].
  /// @param window     period of the response [mm].
  Passage(const BeltSetup& station, double spacing, double half_span, double window);

  /// Cells from the drum's axis to the patch's end.
  [[nodiscard]] std::size_t half_cells() const noexcept { return half_cells_; }
  [[nodiscard]] double window() const noexcept { return compliance_.window(); }

  /// Drives the drum over the strip and wears it.
  ///
  /// The strip must reach half_cells() beyond both ends of the course.
  /// @throws NumericsError if a step does not converge, PatchOutgrown if the contact gets too wide.
  void run(Strip& strip, const Course& course, const OnStep& on_step = {});

  /// Presses without sliding on a plain, unworn face. Leaves the answer in the spans of the view.
  StepView press(double interference);

  /// dP'/d(delta) [N/mm^2] of the last `press`.
  [[nodiscard]] double line_load_slope();

 private:
  template <class Law>
  void run_with(Strip& strip, const Course& course, const OnStep& on_step);
  template <class Give>
  void solve_step(const Give& give, std::span<const std::uint8_t> metal, int step);
  /// Turns the last step's pressure into a guess for this one: what presses beside an edge moves
  /// along with the part.
  void follow_edges(const Strip& strip, std::size_t first, std::size_t stride);
  void lay_belt(double interference);
  [[nodiscard]] double offset(std::size_t patch_cell) const noexcept;

  const BeltSetup& station_;
  double spacing_;
  std::size_t half_cells_;
  LineCompliance compliance_;
  ContactSolver solver_;
  ContactReport report_;
  std::vector<double> pressure_, overlap_, belt_, guess_;
};

}  // namespace drumlin::sim::line
