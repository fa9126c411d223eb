#pragma once

#include <vector>

#include <Eigen/Core>

#include "sim/fast/section.hpp"
#include "sim/fast/wearing_pass.hpp"

namespace drumlin::sim::fast {

/// How far beside an edge metal is felt or read while a drum passes [mm].
///
/// @param tallest  burr that can meet the drum early [mm].
[[nodiscard]] double edge_pass_reach(const DrumLaw& law, double interference, double tallest);

/// A drum going over the edges of one section: a small unilateral solve in every step.
///
/// The cells stay with the part, so one matrix serves the whole pass. In each step the drum's axis
/// moves on by a tenth of the nip's half width and contact and wear are solved together
/// (backward Euler),
///
///     (A p)_i / w_i + c_g p_i + depth_i(p_i) = overlap_i  where p_i > 0,
///
/// by Newton steps on the pressed cells; a lossy, moving cover leans here as it does in `line`. The
/// plain face on either side enters with the profile of the steady wearing pass and is left with
/// it.
class EdgePass {
 public:
  EdgePass(const LineKernel& kernel, const DrumLaw& law, const Abrasion& abrasion,
           const Section& section);

  /// Drives the drum over the section.
  ///
  /// @param interference  against the nominal, unworn face [mm].
  /// @param plain         what the same drum does to the plain face in this pass.
  /// @param face          the plain face before this pass.
  /// @throws NumericsError if a step does not settle.
  void run(Section& section, double interference, const WearingPass& plain, const PlainFace& face);

  /// Presses without sliding, the drum's axis at x [mm]; the pressure per cell [MPa].
  const Eigen::VectorXd& press(const Section& section, double interference, double axis);

  [[nodiscard]] int newton_steps() const noexcept { return newton_steps_; }

 private:
  struct Course {
    double from, to;
    int steps;
  };
  [[nodiscard]] Course course_over(const Section& section, double interference) const;
  void lay_overlap(const Section& section, double interference, double axis);
  template <class Law>
  void solve_step(const Section& section, double path);
  template <class Law>
  double assess(const Section& section, double path);
  void newton_step();
  template <class Law>
  void run_with(Section& section, double interference, const Course& course);

  const DrumLaw& law_;
  const Abrasion& abrasion_;
  bool symmetric_;
  Eigen::VectorXd width_;
  Eigen::MatrixXd matrix_;  // of pairs of cells [mm^3/N]
  Eigen::VectorXd pressure_, overlap_, sunk_, residual_, give_;
  Eigen::MatrixXd system_;
  Eigen::VectorXd step_;
  std::vector<Eigen::Index> free_;
  int newton_steps_ = 0;
};

}  // namespace drumlin::sim::fast
