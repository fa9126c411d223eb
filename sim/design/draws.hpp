#pragma once

#include <cstdint>

/// Random numbers by counting: draw (i, j) of a seed is a function of these three and of nothing
/// else, so that rows come out alike whoever computes them and in whatever order.
namespace drumlin::sim {

/// 64 bits in which each bit of `x` tells on every bit.
///
/// Source: the finaliser of SplitMix64, Steele, Lea and Flood (2014), OOPSLA, 453 (from memory).
[[nodiscard]] constexpr std::uint64_t mixed(std::uint64_t x) noexcept {
  x += 0x9e3779b97f4a7c15U;
  x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9U;
  x = (x ^ (x >> 27U)) * 0x94d049bb133111ebU;
  return x ^ (x >> 31U);
}

/// What a draw is for: draws of different purposes have nothing to do with each other.
enum class DrawFor : std::uint64_t { row = 1, order = 2, place = 3, shift = 4, replicate = 5 };

/// Bits of draw i in dimension j.
[[nodiscard]] constexpr std::uint64_t draw_bits(std::uint64_t seed, DrawFor purpose,
                                                std::uint64_t i, std::uint64_t j) noexcept {
  return mixed(mixed(mixed(mixed(seed) ^ static_cast<std::uint64_t>(purpose)) ^ j) ^ i);
}

/// Middle of the cell of 2^-52 that 52 bits name: in (0, 1), never at an end.
[[nodiscard]] constexpr double unit_interval(std::uint64_t bits) noexcept {
  return (static_cast<double>(bits >> 12U) + 0.5) * 0x1p-52;
}

/// Uniform draw in (0, 1).
[[nodiscard]] constexpr double draw(std::uint64_t seed, DrawFor purpose, std::uint64_t i,
                                    std::uint64_t j) noexcept {
  return unit_interval(draw_bits(seed, purpose, i, j));
}

}  // namespace drumlin::sim
