#include "sim/design/sobol.hpp"

#include <bit>

#include <boost/random/sobol.hpp>

#include "sim/design/draws.hpp"

namespace drumlin::sim {

Sobol::Sobol(std::size_t dimensions, std::optional<std::uint64_t> shift)
    : dimensions_(dimensions), directions_(digits * dimensions), shifts_(dimensions, 0) {
  boost::random::sobol engine(dimensions);
  // The engine leaves out the origin; its point 2^k has the Gray code with bits k and k - 1.
  for (std::size_t k = 0; k < digits; ++k) {
    engine.seed((std::uint64_t{1} << k) - 1);
    for (std::size_t j = 0; j < dimensions; ++j) {
      directions_[k * dimensions + j] = engine();
      if (k > 0) directions_[k * dimensions + j] ^= directions_[(k - 1) * dimensions + j];
    }
  }
  if (!shift) return;
  for (std::size_t j = 0; j < dimensions; ++j)
    shifts_[j] = draw_bits(*shift, DrawFor::shift, 0, j);
}

std::uint64_t Sobol::bits(std::uint64_t point, std::size_t dimension) const noexcept {
  std::uint64_t sum = shifts_[dimension];
  for (std::uint64_t code = point ^ (point >> 1U); code != 0; code &= code - 1)
    sum ^= directions_[static_cast<std::size_t>(std::countr_zero(code)) * dimensions_ + dimension];
  return sum;
}

double Sobol::at(std::uint64_t point, std::size_t dimension) const noexcept {
  return unit_interval(bits(point, dimension));
}

}  // namespace drumlin::sim
