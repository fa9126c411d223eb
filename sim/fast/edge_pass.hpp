#pragma once

#include <vector>

#include <Eigen/Core>

#include "sim/fast/section.hpp"
#include "sim/fast/step_contact.hpp"
#include "sim/fast/wearing_pass.hpp"

namespace drumlin::sim::fast {

/// How far beside an edge metal is felt or read while a drum passes [mm].
///
/// @param tallest  burr that can meet the drum early [mm].
[[nodiscard]] double edge_pass_reach(const DrumLaw& law, double interference, double tallest);

/// How finely a pass is stepped.
struct Strides {
  double usual = 1.0 / 6.0;        ///< over the nip's half width
  double longest = 1.0 / 3.0;      ///< the same, where the estimate allows it
  double shortest = 1.0 / 96.0;    ///< the same, where a burr may give way
  double burr_loss = 0.15;         ///< of its height that a burr which may give way loses in a step
  double short_idle = 1.0 / 12.0;  ///< shortest for a burr that will not give way
  double idle_loss = 0.5;          ///< of its height that such a burr loses in a step
  double face_error = 0.05;        ///< of the pass's removal that a step may be wrong by
};

/// A drum going over the edges of one section: a small unilateral solve in every step.
///
/// The cells stay with the part, so one matrix serves the whole pass; a lossy, moving cover leans
/// here as it does in `line`. Strides follow an estimate of what a step may get wrong and the
/// height that a standing burr loses. After each step a burr that is asked for more than it can
/// take folds or breaks off, within the step at the share where it began to. The plain face on
/// either side enters with the profile of the steady wearing pass and is left with it.
class EdgePass {
 public:
  /// @param pairs  `CellPairs::matrix` of the section and the drum's kernel; must outlive the pass.
  EdgePass(const Eigen::MatrixXd& pairs, const DrumLaw& law, const Abrasion& abrasion,
           const Section& section, const Strides& strides = {});

  /// Drives the drum over the section.
  ///
  /// @param interference  against the nominal, unworn face [mm].
  /// @param plain         what the same drum does to the plain face in this pass.
  /// @param face          the plain face before this pass.
  /// @throws NumericsError if a step does not settle.
  void run(Section& section, double interference, const WearingPass& plain, const PlainFace& face);

  /// Presses without sliding, the drum's axis at x [mm]; the pressure per cell [MPa].
  const Eigen::VectorXd& press(const Section& section, double interference, double axis);

  [[nodiscard]] int steps() const noexcept { return steps_; }
  [[nodiscard]] int newton_steps() const noexcept { return contact_.newton_steps(); }

 private:
  struct Course {
    double from, to;
    double scale;  // that strides are measured by: the nip's half width, or more
  };
  /// What a burr was asked for at the end of the last step.
  struct Asked {
    double demand = 0;
    double force = 0;
  };
  [[nodiscard]] Course course_over(const Section& section, double interference) const;
  void march(Section& section, double interference, const Course& course, const WearingPass& plain,
             const PlainFace& face);
  [[nodiscard]] double may_ask(const Section& section, const SectionRim& rim) const;
  [[nodiscard]] double burr_loss(const Section& section, bool short_stride) const;
  void take(Section& section);
  void watch(Section& section, const PlainFace& face);
  void press(Section& section, SectionRim& rim, const PlainFace& face);
  void watch_rim(Section& section, SectionRim& rim, Asked& asked, const PlainFace& face);

  const DrumLaw& law_;
  const Abrasion& abrasion_;
  Strides strides_;
  StepContact contact_;
  std::vector<Asked> asked_;
  int steps_ = 0;
};

}  // namespace drumlin::sim::fast
