#include "sim/numerics/fft.hpp"

#include <initializer_list>
#include <mutex>
#include <new>
#include <utility>

#include <fftw3.h>

namespace drumlin::sim {
namespace {

std::mutex& planner_mutex() {
  static std::mutex mutex;
  return mutex;
}

bool made_of(std::size_t number, std::initializer_list<std::size_t> primes) {
  for (const std::size_t prime : primes) {
    while (number % prime == 0)
      number /= prime;
  }
  return number == 1;
}

}  // namespace

RealFft::RealFft(std::size_t length) : length_(length) {
  const std::scoped_lock lock(planner_mutex());
  samples_ = fftw_alloc_real(length);
  auto* components = fftw_alloc_complex(length / 2 + 1);
  components_ = reinterpret_cast<std::complex<double>*>(components);
  if (samples_ == nullptr || components == nullptr) throw std::bad_alloc();
  const int n = static_cast<int>(length);
  forward_plan_ = fftw_plan_dft_r2c_1d(n, samples_, components, FFTW_ESTIMATE);
  backward_plan_ = fftw_plan_dft_c2r_1d(n, components, samples_, FFTW_ESTIMATE);
}

RealFft::~RealFft() {
  const std::scoped_lock lock(planner_mutex());
  if (forward_plan_ != nullptr) fftw_destroy_plan(static_cast<fftw_plan>(forward_plan_));
  if (backward_plan_ != nullptr) fftw_destroy_plan(static_cast<fftw_plan>(backward_plan_));
  fftw_free(samples_);
  fftw_free(components_);
}

RealFft::RealFft(RealFft&& other) noexcept {
  *this = std::move(other);
}

RealFft& RealFft::operator=(RealFft&& other) noexcept {
  std::swap(length_, other.length_);
  std::swap(samples_, other.samples_);
  std::swap(components_, other.components_);
  std::swap(forward_plan_, other.forward_plan_);
  std::swap(backward_plan_, other.backward_plan_);
  return *this;
}

void RealFft::forward() noexcept {
  fftw_execute(static_cast<fftw_plan>(forward_plan_));
}

void RealFft::backward() noexcept {
  fftw_execute(static_cast<fftw_plan>(backward_plan_));
}

std::size_t RealFft::good_length(std::size_t n) {
  std::size_t candidate = n + n % 2;
  while (!made_of(candidate, {2, 3, 5}))
    candidate += 2;
  return candidate;
}

std::size_t RealFft::nearest_good_length(std::size_t n) {
  const std::size_t even = n + n % 2;
  for (std::size_t away = 0;; away += 2) {
    if (even > away && made_of(even - away, {2, 3, 5, 7, 11, 13})) return even - away;
    if (made_of(even + away, {2, 3, 5, 7, 11, 13})) return even + away;
  }
}

}  // namespace drumlin::sim
