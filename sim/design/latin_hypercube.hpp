#pragma once

#include <cstdint>

namespace drumlin::sim {

/// Points of which every dimension has exactly one in each of n equal parts of (0, 1), at a random
/// place of the part; which parts go together is random.
///
///     x_ij = (pi_j(i) + u_ij) / n
///
/// The order pi_j is a bijection computed where it is asked for (a Feistel network of hashes on the
/// next power of four, walked until it lands below n), so no list of n numbers is kept.
///
/// Source: McKay, Beckman and Conover (1979), Technometrics 21, 239; Black and Rogaway (2002),
/// CT-RSA, 114, for the bijection (both from memory).
class LatinHypercube {
 public:
  /// @param points  n, at least 1.
  LatinHypercube(std::uint64_t seed, std::uint64_t points);

  /// Coordinate j of point i, 0 <= i < n, in (0, 1).
  [[nodiscard]] double at(std::uint64_t point, std::uint64_t dimension) const noexcept;

  /// The part that point i lies in, pi_j(i).
  [[nodiscard]] std::uint64_t part(std::uint64_t point, std::uint64_t dimension) const noexcept;

 private:
  std::uint64_t seed_;
  std::uint64_t points_;
  unsigned half_bits_ = 1;  // of the network's two halves
};

}  // namespace drumlin::sim
