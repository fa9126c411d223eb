#pragma once

#include <map>
#include <optional>
#include <stop_token>
#include <string>
#include <utility>
#include <vector>

#include "cases/knobs.hpp"
#include "sim/fast/drums.hpp"
#include "sim/result.hpp"

namespace drumlin::sim {

/// Knobs turned, by index, each to a value [inner unit, or number of the choice].
using Settings = std::vector<std::pair<int, double>>;

/// One limit as it stood in a trial.
struct TriedLimit {
  std::optional<double> value;   ///< [unit of the limit]
  std::optional<double> margin;  ///< likewise; negative: not met
  double size = 1;               ///< of the limit, for margins over it
};

/// A main quantity of a line.
struct MainQuantity {
  std::string name;
  std::string unit;
  double value = 0;
};

/// What the fast model says of the case with some knobs turned.
struct Trial {
  std::string refused;             ///< why it could not be run, in a few words; empty: it ran
  std::vector<TriedLimit> limits;  ///< in the order of the case's own verdict
  std::vector<MainQuantity> main;  ///< those that the case knows

  /// Least margin over its limit of all limits that are judged; no value where none is.
  [[nodiscard]] std::optional<double> worst() const;
};

/// A case tried under other settings by the fast model. Each trial is the changed document, read
/// and checked as the reader does, and run; what was tried is remembered.
///
/// Where the case's own verdict comes from another model, values of limits are moved by what the
/// two models differ by at the case's own settings.
class Trials {
 public:
  /// @param verdict  of the case, by its own model.
  /// @param most     evaluations that are allowed.
  Trials(const cases::OpenCase& open, const std::vector<cases::Knob>& knobs, const Verdict& verdict,
         int most, std::stop_token stop);

  [[nodiscard]] const Trial& at(const Settings& settings);
  [[nodiscard]] const Trial& base() { return at({}); }

  /// The case with knobs turned, as the reader reads it. @throws cases::CaseError
  [[nodiscard]] cases::Case changed(const Settings& settings) const;

  [[nodiscard]] int evaluations() const noexcept { return evaluations_; }
  /// Whether all that is allowed is used up: then `at` refuses what it has not seen.
  [[nodiscard]] bool spent() const noexcept { return evaluations_ >= most_; }
  /// Allows so many more from here on.
  void allow(int more) noexcept { most_ = evaluations_ + more; }

  /// Main quantities with the life of belts and the cost that goes with it, which take longer.
  [[nodiscard]] std::vector<MainQuantity> effects(const Settings& settings);

  /// Value of a limit as set, as the fast model itself has it.
  [[nodiscard]] std::optional<double> unmoved(std::size_t limit);

  [[nodiscard]] const Verdict& verdict() const noexcept { return verdict_; }

 private:
  [[nodiscard]] Trial run(const Settings& settings, bool with_life = false);

  const cases::OpenCase& open_;
  const std::vector<cases::Knob>& knobs_;
  const Verdict& verdict_;
  int most_;
  std::stop_token stop_;
  fast::Drums drums_;
  std::map<Settings, Trial> seen_;
  std::map<Settings, std::vector<MainQuantity>> effects_;
  std::vector<double> shift_;  ///< of values, one per limit [unit of the limit]
  int evaluations_ = 0;
};

}  // namespace drumlin::sim
