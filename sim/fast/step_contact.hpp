#pragma once

#include <vector>

#include <Eigen/Core>

#include "sim/fast/active_inverse.hpp"
#include "sim/fast/drum_law.hpp"
#include "sim/fast/section.hpp"
#include "sim/fast/wearing_pass.hpp"

namespace drumlin::sim::fast {

/// Contact and wear of one step between a drum and the cells of a section, solved together
/// (backward Euler):
///
///     (A p)_i / w_i + c_g p_i + depth_i(p_i) = overlap_i  where p_i > 0, else a gap,
///
/// by Newton steps on the pressed cells, whose inverse goes along from step to step.
class StepContact {
 public:
  /// @param pairs  A: `CellPairs::matrix` of the section and the drum's kernel; must outlive the
  /// object.
  StepContact(const Eigen::MatrixXd& pairs, const DrumLaw& law, const Abrasion& abrasion,
              const Section& section);

  /// Lifts the drum off.
  void clear(const Section& section, double interference);
  /// Puts the drum's axis at x [mm].
  void place(const Section& section, double interference, double axis);
  /// Lets pressures go on as they went over the last step, so many of its lengths.
  void guess(double growth);
  /// @param path  of the belt in the step [mm]; 0 presses only.
  /// @throws NumericsError if the step does not settle.
  void solve(const Section& section, double path);
  /// Takes the step as done.
  void settle();

  [[nodiscard]] const Eigen::VectorXd& pressure() const noexcept { return pressure_; }  ///< [MPa]
  /// What the step takes off each cell [mm].
  [[nodiscard]] const Eigen::VectorXd& depth() const noexcept { return depth_; }
  [[nodiscard]] Eigen::VectorXd& depth() noexcept { return depth_; }
  /// Cells that carry.
  [[nodiscard]] const std::vector<Eigen::Index>& pressed() const noexcept {
    return active_.cells();
  }
  /// By how much the step may be wrong, at the worst cell [mm].
  [[nodiscard]] double change() const;
  [[nodiscard]] int newton_steps() const noexcept { return newton_steps_; }

 private:
  void find_candidates(const Section& section, double axis);
  template <class Law>
  void solve_with(const Section& section, double path);
  /// @param steep  makes slopes the steeper of tangent and secant.
  template <class Law>
  double assess(const Section& section, double path, bool steep);
  void update_active();
  void newton_step(double share);

  const DrumLaw& law_;
  const Abrasion& abrasion_;
  const Eigen::MatrixXd& matrix_;
  ActiveInverse active_;
  double span_ = 0;  // from the axis within which cells may carry [mm]
  Eigen::VectorXd width_, one_over_width_, pressure_, last_pressure_, overlap_, sunk_, residual_,
      diagonal_, rhs_;
  Eigen::VectorXd depth_;               // taken off each cell in the step [mm]
  Eigen::VectorXd slope_;               // of that depth with pressure [mm/MPa]
  std::vector<double> ease_;            // removal of a cell's burr metal over the base metal's
  std::vector<unsigned char> layered_;  // cells with anything over the base metal
  Eigen::Index count_ = 0;              // cells
  Eigen::Index first_ = 0, end_ = 0;    // of them that may carry in this step
  int newton_steps_ = 0;
};

}  // namespace drumlin::sim::fast
