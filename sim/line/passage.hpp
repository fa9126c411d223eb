#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <variant>
#include <vector>

#include "sim/line/drum.hpp"
#include "sim/line/hinge.hpp"
#include "sim/line/strip.hpp"
#include "sim/numerics/contact_solver.hpp"
#include "sim/numerics/line_compliance.hpp"
#include "sim/numerics/mesh_compliance.hpp"
#include "sim/numerics/tilt.hpp"

namespace drumlin::sim::line {

/// What counts as solved: a gap error of a millionth of the deepest overlap [mm], a tenth of a
/// nanometre at least. Removal per step is of the order of 1e-4 mm, so this leaves it good to a
/// thousandth.
[[nodiscard]] ContactTolerance contact_tolerance(double deepest);

/// What a drum that has come a long way over a plain face has done to the columns under it.
struct SteadyNip {
  std::vector<double> offset;    ///< of each column from the axis [mm], evenly rising
  std::vector<double> pressure;  ///< [MPa]
  std::vector<double> removed;   ///< [mm] so far; the columns come in from -x
};

/// Where the drum goes over a strip, and how finely.
struct Course {
  double interference = 0;  ///< delta [mm] against the nominal, unworn face
  int from = 0;             ///< unit under the drum's axis at the start
  int to = 0;               ///< and at the end, <= from: the drum travels towards -x
  int stride = 1;           ///< units per step
  int longest = 1;          ///< stride up to which steps may grow where the estimate allows [units]
  double face_error = 0;    ///< removal that a step may be wrong by [mm], where strides may grow
  double burr_error = 0;    ///< the same on burr metal [mm]
  const SteadyNip* landing = nullptr;  ///< the nip to start with; none: the drum lands on the strip
};

/// One step of a passage as it looks once solved; the spans live until the next step.
struct StepView {
  int step = 0;
  double axis = 0;                   ///< x of the drum's axis [mm]
  std::size_t first = 0;             ///< strip cell under the first patch cell
  double line_load = 0;              ///< [N/mm]
  double edge_pressure = 0;          ///< [MPa] highest on any burr or edge
  std::span<const double> pressure;  ///< [MPa], per patch cell
  std::span<const double> belt;      ///< height of the belt's face [mm], per patch cell
  ContactReport report;
};
using OnStep = std::function<void(const StepView&)>;

/// A drum with its belt, ready to pass over a strip. The contact patch (as wide as the contact can
/// get) rides with the drum.
///
/// Each step moves the drum by a stride and solves contact and wear together, implicitly
/// (backward Euler): the removal of the step acts as a local give of the surface, which keeps any
/// step stable and lets layers be crossed exactly within it. Strides may grow: the error of a step
/// is estimated from how much each column's pressure changed over it.
///
/// Burrs that the step's forces bend or break off do so before it wears anything.
///
/// Even strips are solved by Fourier transforms, others by the mesh's own matrix; `strip.cells`
/// decides.
class Passage {
 public:
  /// @param drum       must outlive the passage.
  /// @param half_span  half the patch [mm].
  /// @param window     period of the response [mm].
  Passage(const Drum& drum, const Strip& strip, double half_span, double window);

  /// Drives the drum over the strip and wears it.
  ///
  /// The strip must reach half a patch beyond both ends of the course.
  /// @throws NumericsError if a step does not converge, PatchOutgrown if the contact gets too wide.
  void run(Strip& strip, const Course& course, const OnStep& on_step = {});

 private:
  template <class Law, class C>
  void run_with(C& compliance, Strip& strip, const Course& course, const OnStep& on_step);
  template <class Law>
  void land(Strip& strip, const Course& course);
  /// Places the patch under an axis.
  void place(Tilted<LineCompliance>& compliance, const Strip& strip, int axis);
  void place(Tilted<MeshCompliance>& compliance, const Strip& strip, int axis);
  template <class C, class Give>
  void solve_step(C& compliance, const Give& give, std::span<const std::uint8_t> metal, int step);
  /// Guess for this step from the last one's pressure: it rides with the drum, but what presses
  /// beside an edge stays with the part.
  void guess(const Strip& strip, double travel);
  void lay_belt(const Strip& strip, double interference, double axis);
  void save();
  bool yield(Strip& strip, std::vector<Hinge>& hinges, const std::function<void()>& solve);
  void turn(Strip& strip, Hinge& hinge, const std::function<void()>& solve);
  [[nodiscard]] bool break_off(Strip& strip, StripEdge& edge, const models::Bead& bead) const;

  const Drum& drum_;
  double half_span_;
  std::variant<Tilted<LineCompliance>, Tilted<MeshCompliance>> compliance_;
  ContactSolver solver_;
  ContactReport report_;
  std::size_t first_ = 0;  // strip cell of the first patch cell
  std::size_t count_ = 0;
  std::vector<double> pressure_, overlap_, belt_, depth_;  // per patch cell
  std::vector<double> last_pressure_;                      // per strip cell
  std::vector<std::uint8_t> stays_;                        // strip cells beside an edge
  std::vector<std::uint8_t> owner_;  // per strip cell, 1 + the nearest edge; 0 without edges
};

}  // namespace drumlin::sim::line
