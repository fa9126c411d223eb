#include "sim/design/latin_hypercube.hpp"

#include "sim/design/draws.hpp"

namespace drumlin::sim {
namespace {

/// Four rounds of a random function make a permutation that cannot be told from a random one
/// (Luby and Rackoff 1988, from memory); halves of a few bits are mixed a little more.
constexpr std::uint64_t rounds = 6;

}  // namespace

LatinHypercube::LatinHypercube(std::uint64_t seed, std::uint64_t points)
    : seed_(seed), points_(points) {
  while (half_bits_ < 31 && (std::uint64_t{1} << (2 * half_bits_)) < points)
    ++half_bits_;
}

std::uint64_t LatinHypercube::part(std::uint64_t point, std::uint64_t dimension) const noexcept {
  const std::uint64_t mask = (std::uint64_t{1} << half_bits_) - 1;
  std::uint64_t at = point;
  do {
    std::uint64_t left = at >> half_bits_;
    std::uint64_t right = at & mask;
    for (std::uint64_t round = 0; round < rounds; ++round) {
      const std::uint64_t turned =
          draw_bits(seed_, DrawFor::order, right, dimension * rounds + round) & mask;
      const std::uint64_t next = left ^ turned;
      left = right;
      right = next;
    }
    at = (left << half_bits_) | right;
  } while (at >= points_);
  return at;
}

double LatinHypercube::at(std::uint64_t point, std::uint64_t dimension) const noexcept {
  const double inside = draw(seed_, DrawFor::place, point, dimension);
  return (static_cast<double>(part(point, dimension)) + inside) / static_cast<double>(points_);
}

}  // namespace drumlin::sim
