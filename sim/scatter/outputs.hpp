#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim/part_result.hpp"
#include "sim/scatter_result.hpp"
#include "sim/sweep/columns.hpp"
#include "sim/sweep_result.hpp"

namespace drumlin::sim {

/// What a limit says of one draw.
enum class Met : signed char {
  no,
  yes,
  not_known,  ///< the model gives no value to hold against it
  absent,     ///< it says nothing of this draw's part, which cannot fail it then
};

/// One draw, run: a number for every output, and what every limit says.
struct Draw {
  RowStatus status = RowStatus::done;  ///< done, bad_input or not_converged
  std::string reason;
  std::vector<double> values;   ///< by output, in its unit; NaN where there is none
  std::vector<double> margins;  ///< by limit, in its unit; NaN where there is none
  std::vector<Met> met;         ///< by limit
  /// Whether a limit failed that is not among the outputs: the case as stated does not have it.
  bool fails_elsewhere = false;
};

/// The numbers that are followed over all draws: every limit of the case, then the main numbers of
/// the part that have none.
class Outputs {
 public:
  /// @param part     as the case's own run gives it. @param verdict  of that run, whole.
  Outputs(const PartState& part, const Verdict& verdict);

  /// Limits first; with names, units and limits, and nothing drawn yet.
  [[nodiscard]] const std::vector<ScatterOutput>& list() const noexcept { return list_; }
  [[nodiscard]] std::size_t limits() const noexcept { return limits_; }

  [[nodiscard]] Draw read(const RowAnswer& answer) const;
  /// Of a draw that could not be computed.
  [[nodiscard]] Draw failed(RowStatus status, std::string reason) const;

 private:
  using Read = std::function<Quantity(const PartState&)>;
  template <class Owner, class Keys, class Find>
  void add(const Keys& keys, std::string_view key, std::string_view accept_key,
           const std::string& owner, const Find& find);
  void add_face(const FaceState& state, bool reverse);

  std::vector<ScatterOutput> list_;
  std::size_t limits_ = 0;
  std::vector<Read> reads_;  ///< of the outputs without a limit
};

}  // namespace drumlin::sim
