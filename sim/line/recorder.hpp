#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "sim/line/passage.hpp"
#include "sim/result.hpp"

namespace drumlin::sim::line {

/// Watches passages over one strip and keeps what writers show: a history of every step, and frames
/// on display points that are as fine as the strip at edges and coarser away from them.
class Recorder {
 public:
  /// @param frames_per_passage  about how many frames are kept of each.
  Recorder(const Strip& unworn, double part_thickness, int frames_per_passage);

  /// @param travel  of the drum in this passage [mm].
  void begin(int pass, int station, double travel);
  void step(const Strip& strip, const StepView& view);

  /// The record, with the state the strip ended in.
  [[nodiscard]] SectionRecord finish(const Strip& worn, double face_removal);

 private:
  [[nodiscard]] Frame frame(const Strip& strip, const StepView& view) const;
  [[nodiscard]] std::vector<double> sample(const Strip& strip, const std::vector<double>& values,
                                           bool only_metal) const;

  [[nodiscard]] std::vector<double> underside(const Strip& strip) const;

  SectionRecord record_;
  std::vector<std::size_t> points_;  // cells shown
  std::vector<std::uint8_t> face_;   // cells whose pressure is the face's
  int frames_per_passage_;
  int pass_ = 0;
  int station_ = 0;
  double frame_every_ = 0;  // [mm]
  double next_frame_ = 0;   // drum's axis from which on the next is due [mm]
  double telling_pressure_ = 0;
  Frame telling_;
};

}  // namespace drumlin::sim::line
