#pragma once

#include <array>
#include <string_view>
#include <utility>
#include <variant>

/// How a number scatters: each distribution as its quantile function, so that one uniform number in
/// (0, 1) makes one draw, whoever draws it and in whatever order.
///
/// Source: Devroye (1986), Non-Uniform Random Variate Generation, ch. 2 (inversion); normal
/// quantiles by Boost.Math. Derivations: models/theory/designs.md.
namespace drumlin::models {

/// Every value between two ends alike: x = a + u (b - a).
struct Uniform {
  static constexpr std::string_view name = "uniform";
  double low = 0;
  double high = 0;  ///< >= low

  [[nodiscard]] double quantile(double u) const noexcept;
  [[nodiscard]] bool operator==(const Uniform&) const = default;
};

/// Every value between two ends alike in its logarithm: x = a (b / a)^u.
struct LogUniform {
  static constexpr std::string_view name = "log-uniform";
  double low = 0;   ///< > 0
  double high = 0;  ///< >= low

  [[nodiscard]] double quantile(double u) const noexcept;
  [[nodiscard]] bool operator==(const LogUniform&) const = default;
};

/// Density that rises straight to the mode and falls straight from it.
struct Triangular {
  static constexpr std::string_view name = "triangular";
  double low = 0;
  double mode = 0;  ///< low <= mode <= high
  double high = 0;  ///< > low

  [[nodiscard]] double quantile(double u) const noexcept;
  [[nodiscard]] bool operator==(const Triangular&) const = default;
};

/// Gauss: x = mean + deviation Phi^-1(u), without ends.
struct Normal {
  static constexpr std::string_view name = "normal";
  double mean = 0;
  double deviation = 0;  ///< standard deviation, > 0

  [[nodiscard]] double quantile(double u) const noexcept;
  [[nodiscard]] bool operator==(const Normal&) const = default;
};

/// Gauss between two ends, what lies beyond left out: mean and deviation are those of the whole
/// normal distribution.
struct TruncatedNormal {
  static constexpr std::string_view name = "truncated-normal";
  double mean = 0;
  double deviation = 0;  ///< of the whole one, > 0
  double low = 0;
  double high = 0;  ///< > low

  [[nodiscard]] double quantile(double u) const noexcept;
  [[nodiscard]] bool operator==(const TruncatedNormal&) const = default;
};

/// The logarithm is normal: x = median factor^(Phi^-1(u)), so that 68 % of all values lie between
/// median / factor and median x factor.
struct Lognormal {
  static constexpr std::string_view name = "lognormal";
  double median = 0;  ///< > 0
  double factor = 1;  ///< geometric standard deviation [-], > 1

  [[nodiscard]] double quantile(double u) const noexcept;
  [[nodiscard]] bool operator==(const Lognormal&) const = default;
};

/// Registration: a new distribution adds its struct and its name here, and how it is read to
/// cases/read_distribution.cpp.
using AnyDistribution =
    std::variant<Uniform, LogUniform, Triangular, Normal, TruncatedNormal, Lognormal>;

/// Value that a share u of all draws stays below.
///
/// @param u  0 < u < 1.
[[nodiscard]] inline double quantile(const AnyDistribution& any, double u) noexcept {
  return std::visit([u](const auto& distribution) { return distribution.quantile(u); }, any);
}

/// Ends between which draws lie: all of a distribution that has ends, 99.73 % (three standard
/// deviations either way) of one that has none.
[[nodiscard]] std::pair<double, double> range_of(const AnyDistribution& any) noexcept;

}  // namespace drumlin::models
