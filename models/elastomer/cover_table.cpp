#include "models/elastomer/cover_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "models/elastomer/equal_steps.hpp"

namespace drumlin::models {
namespace {

using Complex = std::complex<double>;
using Compliance = SymmetricCompliance<Complex>;

/// Real and imaginary parts of nn, nt / i and tt, as the splines hold them.
using Row = std::array<double, 6>;

Row row_of(const Compliance& c) {
  return {c.normal.real(),   c.normal.imag(),     c.coupling.real(),
          c.coupling.imag(), c.tangential.real(), c.tangential.imag()};
}

/// Six splines over equal steps.
class RowSpline {
 public:
  /// @param flat_start  the functions are even about the first node
  RowSpline(const std::vector<Row>& rows, double first, double step, bool flat_start) {
    std::vector<double> column(rows.size());
    for (std::size_t part = 0; part < 6; ++part) {
      for (std::size_t i = 0; i < rows.size(); ++i)
        column[i] = rows[i][part];
      splines_[part].emplace(equal_step_spline(column, first, step, flat_start));
    }
  }

  [[nodiscard]] Compliance operator()(double u) const {
    return {{at(0, u), at(1, u)}, {at(2, u), at(3, u)}, {at(4, u), at(5, u)}};
  }

 private:
  [[nodiscard]] double at(std::size_t part, double u) const { return (*splines_[part])(u); }
  std::array<std::optional<EqualStepSpline>, 6> splines_;
};

Compliance scaled(const Compliance& c, Complex factor) {
  return {c.normal * factor, c.coupling * factor, c.tangential * factor};
}

/// Waves longer than some two and a half covers are drawn together by the scale of asinh.
constexpr double core_scale = 0.4;

}  // namespace

struct CoverTable::Splines {
  Cover cover;
  double tolerance = 0;
  /// q near which a drum is still integrated at every call: the centrifugal term makes the
  /// harmonics next to zero depend on the modulus at next to no frequency, and a grip on their
  /// difference.
  double core_start = 0;
  double core_end = 0;            ///< q [rad/mm] from which on the hub is not felt
  double tail_end = 0;            ///< q from which on the remainder falls as 1 / q
  std::optional<RowSpline> core;  ///< empty: integrate at every call
  std::optional<RowSpline> tail;  ///< empty: flat

  [[nodiscard]] Compliance direct(double q) const {
    const SurfaceCompliance c = surface_compliance(cover, q, tolerance);
    return {c.nn, Complex(0.0, -1.0) * c.nt, c.tt};
  }

  [[nodiscard]] Compliance half_space_of(double q) const {
    const WorkingState state = working_state(cover, q);
    return scaled(half_space(state.inertia, cover.layer.poisson_ratio),
                  1.0 / (q * state.shear_modulus));
  }

  /// Half-space without inertia: waves longer than the cover do not notice theirs, and what varies
  /// with the logarithm of the frequency down to nothing cannot be splined.
  [[nodiscard]] Compliance slow_half_space_of(double q) const {
    const Complex unit = 1.0 / (q * working_state(cover, q).shear_modulus);
    return scaled(half_space(0.0, cover.layer.poisson_ratio), unit);
  }

  [[nodiscard]] Row core_row(double u) const {
    const double t = cover.layer.thickness;
    // At q = 0 the functions are even: a wave far longer than anything stands for it.
    const double w = std::max(core_scale * std::sinh(u), 1e-5);
    const double q = w / t;
    const Compliance deep = slow_half_space_of(q);
    const Compliance c = direct(q);
    const double lift = std::sqrt(1.0 + 1.0 / (w * w));
    return row_of({c.normal / deep.normal * lift,
                   (c.coupling - deep.coupling * (w * w / (1.0 + w * w))) / deep.normal,
                   c.tangential / deep.tangential * lift});
  }

  [[nodiscard]] Compliance core_value(double q, const Compliance& s) const {
    const double w = q * cover.layer.thickness;
    const Compliance deep = slow_half_space_of(q);
    const double drop = w / std::sqrt(1.0 + w * w);
    return {s.normal * deep.normal * drop,
            s.coupling * deep.normal + deep.coupling * (w * w / (1.0 + w * w)),
            s.tangential * deep.tangential * drop};
  }

  [[nodiscard]] Row tail_row(double q) const {
    const Compliance deep = half_space_of(q);
    const Compliance c = direct(q);
    const double waves = q / cover.curvature;
    return row_of({(c.normal / deep.normal - 1.0) * waves,
                   (c.coupling - deep.coupling) / deep.normal * waves,
                   (c.tangential / deep.tangential - 1.0) * waves});
  }

  [[nodiscard]] Compliance tail_value(double q, const Compliance& s) const {
    const Compliance deep = half_space_of(q);
    const double share = cover.curvature / q;
    return {deep.normal * (1.0 + share * s.normal),
            deep.coupling + share * s.coupling * deep.normal,
            deep.tangential * (1.0 + share * s.tangential)};
  }

  void build_core(double accuracy);
  void build_tail(double accuracy);
};

void CoverTable::Splines::build_core(double accuracy) {
  const double first = std::asinh(core_start * cover.layer.thickness / core_scale);
  const double end = std::asinh(core_end * cover.layer.thickness / core_scale);
  const bool even = core_start == 0.0;
  // Doubled once for 1e-3 and twice for 1e-5 in the usual case.
  std::vector<Row> rows(accuracy > 1e-4 ? 9 : 10);
  const auto gaps = static_cast<double>(rows.size() - 1);
  for (std::size_t i = 0; i < rows.size(); ++i)
    rows[i] = core_row(first + (end - first) * static_cast<double>(i) / gaps);
  // Above 600 nodes integrating at every call is no dearer.
  while (rows.size() < 600) {
    const double step = (end - first) / static_cast<double>(rows.size() - 1);
    const RowSpline coarse(rows, first, step, even);
    std::vector<Row> finer(2 * rows.size() - 1);
    double error = 0.0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      finer[2 * i] = rows[i];
      if (i + 1 == rows.size()) break;
      const double u = first + step * (static_cast<double>(i) + 0.5);
      finer[2 * i + 1] = core_row(u);
      const Row guess = row_of(coarse(u));
      for (std::size_t part = 0; part < 6; ++part)
        error = std::max(error, std::abs(guess[part] - finer[2 * i + 1][part]));
    }
    rows = std::move(finer);
    // Halving the step takes a cubic spline's error to a sixteenth and, while the step is still
    // wide against what it has to follow, to less: 30 to 50 seen. 20 are credited.
    if (error < 20.0 * accuracy) {
      core.emplace(rows, first, 0.5 * step, even);
      return;
    }
  }
}

void CoverTable::Splines::build_tail(double accuracy) {
  tail_end = std::max(8.0 * core_end, 0.3 * cover.curvature / accuracy);
  const std::size_t nodes = accuracy > 1e-4 ? 5 : 12;
  const double first = std::log(core_end);
  const double step = (std::log(tail_end) - first) / static_cast<double>(nodes - 1);
  std::vector<Row> rows(nodes);
  for (std::size_t i = 0; i < nodes; ++i)
    rows[i] = tail_row(std::exp(first + step * static_cast<double>(i)));
  tail.emplace(rows, first, step, false);
}

CoverTable::CoverTable(const Cover& cover, double accuracy) {
  auto made = std::make_shared<Splines>();
  made->cover = cover;
  made->tolerance = std::clamp(accuracy, 1e-6, 1e-3);
  const double t = cover.layer.thickness;
  const double decay = std::sqrt(1.0 - working_state(cover, 10.0 / t).inertia).real();
  made->core_end = std::min((accuracy < 1e-4 ? 9.5 : 6.5) / decay, 100.0) / t;
  made->core_start = 0.4 * cover.curvature;
  made->build_core(accuracy);
  if (made->core && cover.curvature > 0.0) made->build_tail(accuracy);
  splines_ = std::move(made);
}

SymmetricCompliance<std::complex<double>> CoverTable::operator()(double q) const {
  const Splines& s = *splines_;
  // A little inside, since the slope at the first node is a difference.
  if (!s.core || q < 1.3 * s.core_start) return s.direct(q);
  if (q < s.core_end) {
    return s.core_value(q, (*s.core)(std::asinh(q * s.cover.layer.thickness / core_scale)));
  }
  if (!s.tail) return s.half_space_of(q);
  return s.tail_value(q, (*s.tail)(std::log(std::min(q, s.tail_end))));
}

}  // namespace drumlin::models
