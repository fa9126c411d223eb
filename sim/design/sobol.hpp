#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace drumlin::sim {

/// Sobol's sequence: points that fill the unit cube more evenly than random ones, so that a mean
/// over them errs by about 1/N in place of 1/sqrt(N).
///
/// Point i has the bits V_j1 ^ V_j2 ^ ... of the bits that are set in the Gray code of i, as
/// published (Bratley and Fox order, the origin first); direction numbers are those of Joe and Kuo
/// (2008), SIAM J. Sci. Comput. 30, 2635, by way of Boost.Random. With a seed every dimension is
/// shifted digitally (all bits XOR one random word), which keeps the evenness, makes each point
/// uniform by itself and lets repeats tell the error. The first 2^k points belong together: none is
/// left out.
///
/// Source: Sobol' (1967), USSR Comput. Math. Math. Phys. 7(4), 86; Owen (2020), arXiv:2008.08051,
/// for keeping the first point (both from memory).
class Sobol {
 public:
  /// @param dimensions  1 to `most_dimensions`.
  /// @param shift       seed of the digital shift; none: the sequence as published.
  explicit Sobol(std::size_t dimensions, std::optional<std::uint64_t> shift = {});

  /// Bits of coordinate j of point i < 2^52, the first one worth a half.
  [[nodiscard]] std::uint64_t bits(std::uint64_t point, std::size_t dimension) const noexcept;

  /// Coordinate in (0, 1): the middle of its cell of 2^-52.
  [[nodiscard]] double at(std::uint64_t point, std::size_t dimension) const noexcept;

  static constexpr std::size_t most_dimensions = 3667;

 private:
  static constexpr std::size_t digits = 52;
  std::size_t dimensions_;
  std::vector<std::uint64_t> directions_;  // digit by digit, all dimensions of it
  std::vector<std::uint64_t> shifts_;      // by dimension
};

}  // namespace drumlin::sim
