#pragma once

#include <functional>
#include <span>
#include <stop_token>
#include <string>
#include <vector>

#include "cases/window_study.hpp"
#include "sim/sweep/workers.hpp"
#include "sim/window_result.hpp"

namespace drumlin::sim {

/// What is known of one case of a window.
struct JudgedPoint {
  int kind = 0;
  std::vector<double>
      margins;  ///< as in WindowPoint; shorter where later limits were not known yet
  std::string reason;
};

/// Limits of a verdict, in the order in which they were met.
class LimitList {
 public:
  /// Kind and margins of a part with this verdict; limits that are new are taken in.
  [[nodiscard]] JudgedPoint judged(const Verdict& verdict);

  [[nodiscard]] const std::vector<WindowLimit>& list() const noexcept { return list_; }

 private:
  [[nodiscard]] std::size_t number_of(const VerdictItem& item);
  std::vector<WindowLimit> list_;
};

/// Margin of an item over the size of its limit [-]; NaN where it is not known.
[[nodiscard]] double relative_margin(const VerdictItem& item);

/// Runs cases of a window and says which limit fails, the same on one core and on many.
class PointJudge {
 public:
  using Done = std::function<void(std::size_t)>;  ///< told how many of a call are done

  /// @param study, runner  must outlive the object.
  PointJudge(const cases::WindowStudy& study, Workers& runner, std::stop_token stop)
      : study_(study), runner_(runner), stop_(std::move(stop)) {}

  /// Points of the map by the values of both axes [inner unit].
  /// @throws Stopped, or what the first of them says if not one of all so far could be computed.
  [[nodiscard]] std::vector<JudgedPoint> judge(std::span<const std::vector<double>> values,
                                               const Done& done = {});

  /// What a point's draws come to.
  struct Scattered {
    std::uint64_t met = 0;      ///< draws that keep all limits
    std::uint64_t unknown = 0;  ///< draws that are not known or could not be computed: not met
    /// Of each level asked for: the worst margin over its limit that so large a share of the draws
    /// reaches or exceeds; at least zero just where that share keeps all limits. Minus infinity
    /// where too many draws are not known.
    std::vector<double> margins;
  };

  /// The draws at each point.
  ///
  /// A part whose drawn thickness is not the case's meets a line that was set for the case's: tools
  /// that are set by gap go deeper into it by the difference.
  ///
  /// @param draws   values of what scatters [inner unit], draw by draw, the same at all points.
  /// @param levels  shares of the draws [-].
  [[nodiscard]] std::vector<Scattered> scatter(std::span<const std::vector<double>> values,
                                               std::span<const std::vector<double>> draws,
                                               std::span<const double> levels,
                                               const Done& done = {});

  [[nodiscard]] LimitList& limits() noexcept { return limits_; }

 private:
  [[nodiscard]] std::size_t at_a_time() const;
  [[nodiscard]] std::vector<float> worst_margins(std::span<const std::vector<double>> values,
                                                 std::span<const std::vector<double>> draws,
                                                 const Done& done);

  const cases::WindowStudy& study_;
  Workers& runner_;
  std::stop_token stop_;
  LimitList limits_;
  bool any_computed_ = false;
};

}  // namespace drumlin::sim
