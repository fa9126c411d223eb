#pragma once

#include <complex>
#include <cstddef>
#include <span>
#include <vector>

namespace drumlin::sim {

/// Real discrete Fourier transform of one length, planned once, run often. Not for sharing between
/// threads; each thread holds its own (planning is serialised inside).
///
/// Plans are made by estimate, never by timing: the same length gives the same bytes every time.
class RealFft {
 public:
  explicit RealFft(std::size_t length);
  ~RealFft();
  RealFft(const RealFft&) = delete;
  RealFft& operator=(const RealFft&) = delete;
  RealFft(RealFft&& other) noexcept;
  RealFft& operator=(RealFft&& other) noexcept;

  [[nodiscard]] std::size_t length() const noexcept { return length_; }
  /// Real samples, `length()` of them; input of `forward`, output of `backward`.
  [[nodiscard]] std::span<double> samples() noexcept { return {samples_, length_}; }
  /// Components 0 .. length/2; output of `forward`, input of `backward` (which destroys them).
  [[nodiscard]] std::span<std::complex<double>> components() noexcept {
    return {components_, length_ / 2 + 1};
  }

  void forward() noexcept;
  /// Without the factor 1/length.
  void backward() noexcept;

  /// Smallest even length >= n whose only prime factors are 2, 3 and 5.
  [[nodiscard]] static std::size_t good_length(std::size_t n);
  /// Even length closest to n whose prime factors are 13 at most: within a thousandth from some
  /// thousand on.
  [[nodiscard]] static std::size_t nearest_good_length(std::size_t n);

 private:
  std::size_t length_ = 0;
  double* samples_ = nullptr;
  std::complex<double>* components_ = nullptr;
  void* forward_plan_ = nullptr;
  void* backward_plan_ = nullptr;
};

}  // namespace drumlin::sim
