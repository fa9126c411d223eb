#pragma once

#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

#include "sim/brush/brush_tool.hpp"
#include "sim/fast/drum.hpp"
#include "sim/fast/drum_ladder.hpp"
#include "sim/fast/wearing_pass.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim::fast {

/// The drums and brushes of a line, kept from case to case: a case that changes neither cover, belt
/// nor belt speed of a station finds its drum made. With finite strain the cover's stiffness goes
/// with the interference, so a drum then serves one interference only.
///
/// With axes to interpolate over drums stand between the rungs of a ladder: for many cases that
/// differ in the modulus (finite strain, hardness, temperature) or the belt's speed.
///
/// A drum is the same whether it was made for the case or found: answers do not depend on what was
/// asked before.
class Drums {
 public:
  /// @param kept  drums per station that are kept: many for cases that come back to the same few.
  /// @param axes  by station, that drums are interpolated over; where there are none, every drum
  ///              is made for itself.
  explicit Drums(std::size_t kept = 1, std::vector<LadderAxes> axes = {})
      : kept_(kept), axes_(std::move(axes)) {}

  /// The drum of a station at an interference; stays until the station's next call.
  Drum& of(std::size_t index, const BeltSetup& station, double interference);

  [[nodiscard]] BrushTools& brushes() noexcept { return brushes_; }

  /// Drums made so far.
  [[nodiscard]] int made() const noexcept { return made_; }

 private:
  [[nodiscard]] std::unique_ptr<Drum> make(std::size_t index, const BeltSetup& station,
                                           double interference, const models::BeltOnCover& nip,
                                           const DrumFace& face, double deepest);

  std::size_t kept_;
  std::vector<LadderAxes> axes_;
  std::shared_ptr<KeptPairs> pairs_ = std::make_shared<KeptPairs>();
  std::vector<std::vector<std::unique_ptr<Drum>>> drums_;  // by station, asked for last in front
  std::vector<std::vector<std::unique_ptr<DrumLadder>>> ladders_;  // likewise
  BrushTools brushes_;
  int made_ = 0;
};

/// What a station's belt does to the part.
[[nodiscard]] Abrasion abrasion_of(const BeltSetup& station);

}  // namespace drumlin::sim::fast
