#pragma once

#include <array>
#include <complex>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <Eigen/Core>

namespace drumlin::sim::fast {

/// How far belt and cover sink beside a pressed strip, in closed form but for a table.
///
/// With K(x) the sinking at x beside a unit line load [mm per N/mm], everything that cells of
/// constant pressure need is its second integral over the distance, G'' = K. Its even and odd part,
///
///     G_e(x) = (1/pi) int_0^inf Re C(q) (1 - cos q x) / q^2 dq,
///     G_o(x) = (1/pi) int_0^inf Im C(q) sin q x / q^2 dq     (but for a part in proportion to x),
///
/// are Mellin convolutions: on wave numbers and distances in one geometric progression each is one
/// sum over weights that depend on their product only and are computed once for all drums. C is
/// taken as a local cubic in log q through its nodes, G as a local polynomial of degree seven in
/// log x. Without grains, which act where they press.
class LineKernel {
 public:
  static constexpr std::size_t wave_numbers = 148;
  static constexpr std::size_t distances = 100;

  /// Wave number of a node [rad/mm], from 1.2e-4 to 1.2e4.
  [[nodiscard]] static double wave_number(std::size_t node);

  /// @param compliance  C(q) [mm/MPa] to a component exp(i q x), q > 0, real or complex, Re C > 0.
  template <class Compliance>
  explicit LineKernel(const Compliance& compliance) {
    Samples samples;
    for (std::size_t i = 0; i < wave_numbers; ++i)
      samples[i] = compliance(wave_number(i));
    tabulate(samples);
  }

  /// Sum of kernels, table by table: G is linear in C. All must lean or none.
  LineKernel(std::span<const LineKernel* const> of, std::span<const double> shares);

  /// Where distances lie in the table: what all kernels share.
  class Places {
   public:
    /// @param distances  between -600 and 600 mm; of either sign.
    explicit Places(std::vector<double> distances);
    [[nodiscard]] std::size_t size() const noexcept { return distance_.size(); }

   private:
    friend class LineKernel;
    std::vector<double> distance_, along_;
    std::vector<std::uint32_t> segment_;
  };

  /// G_e at a distance between -600 and 600 mm [mm^3/N].
  [[nodiscard]] double operator()(double distance) const noexcept;
  /// The same at every place.
  void even(const Places& places, std::span<double> values) const noexcept;
  /// G_e + G_o at a distance and at the same one the other way.
  struct BothWays {
    double there, back;
  };
  [[nodiscard]] BothWays leaning(double distance) const noexcept;
  /// The same at every place.
  void leaning(const Places& places, std::span<BothWays> values) const noexcept;
  /// Whether C is real: G_o is then 0.
  [[nodiscard]] bool symmetric() const noexcept { return symmetric_; }

  /// K(x) -> constant - (2 / (pi E*)) ln x for short distances: 2 / E* [1/MPa], from the shortest
  /// waves; 0 where the belt has bending stiffness or tension, which end that limit.
  [[nodiscard]] double half_space() const noexcept { return half_space_; }
  /// The constant of that limit [mm/MPa per mm].
  [[nodiscard]] double half_space_constant() const noexcept;

 private:
  static constexpr std::size_t order = 8;  // points of a local polynomial
  static constexpr std::size_t segments = distances - order + 1;
  using Samples = std::array<std::complex<double>, wave_numbers>;
  using Values = std::array<double, distances>;
  using Coefficient = Eigen::Array2d;  // of the even and the odd part
  using Polynomials = std::array<std::array<Coefficient, order>, segments>;

  void tabulate(const Samples& samples);
  void set(Eigen::Index part, const Values& values);
  /// A polynomial's place in the table, and the argument to it.
  struct Place {
    std::size_t segment;
    double s;
  };
  [[nodiscard]] static Place place_of(double place) noexcept;
  [[nodiscard]] double even_at(std::size_t segment, double s) const noexcept;
  [[nodiscard]] BothWays leaning_at(std::size_t segment, double s, double distance) const noexcept;

  double half_space_ = 0;
  bool symmetric_ = true;
  Polynomials polynomials_;  // G_e / x^2 and G_o / x in log x
};

}  // namespace drumlin::sim::fast
