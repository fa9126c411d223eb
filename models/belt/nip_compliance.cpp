#include "models/belt/nip_compliance.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

#include "models/elastomer/cover_table.hpp"
#include "models/elastomer/equal_steps.hpp"

namespace drumlin::models {
namespace {

using Complex = std::complex<double>;
using Compliance = SymmetricCompliance<Complex>;
using Spline = EqualStepSpline;

/// What the gripped cover has left. The belt's membrane is strained by i q u_t - u_n / R, and what
/// it carries for that it takes from the cover's surface (Sherman and Morrison's formula for its
/// one constraint): nearly nothing of a wave as long as the drum's circumference, since a belt is
/// no hoop, and nearly all of a wave as short as a nip.
Compliance gripped(const Compliance& c, double curvature, double q, double membrane) {
  const Complex normal = curvature * c.normal - q * c.coupling;
  const Complex tangential = curvature * c.coupling - q * c.tangential;
  const Complex stretch = curvature * normal - q * tangential + 1.0 / membrane;
  return {c.normal - normal * normal / stretch, c.coupling - normal * tangential / stretch,
          c.tangential - tangential * tangential / stretch};
}

/// Vertical give of the cover alone, from its surface compliance at q > 0, and what the vertical
/// load and movement of a curved surface add to the convolution (eq. 14 of the theory page).
template <typename Surface>
class Vertical {
 public:
  Vertical(Surface surface, const BeltOnCover& nip)
      : surface_(std::move(surface)),
        curvature_(nip.cover.curvature),
        grip_(nip.grip),
        membrane_(nip.membrane_stiffness) {}

  [[nodiscard]] Complex give(double q) const {
    if (curvature_ == 0.0) return at(q).normal;
    const Compliance above = at(q + curvature_);
    const Compliance below = at(q - curvature_);
    return 0.5 * (above.normal + below.normal + above.coupling - below.coupling);
  }

  [[nodiscard]] Complex remainder(double q) const {
    const Compliance c = at(q);
    return c.tangential - c.normal;
  }

 private:
  /// For either sign of q. A component of no wave number is that of a very long wave.
  [[nodiscard]] Compliance at(double q) const {
    const double size = std::max(std::abs(q), smallest);
    Compliance c = surface_(size);
    if (grip_ == Grip::stick) c = gripped(c, curvature_, size, membrane_);
    if (q >= 0.0) return c;
    return {std::conj(c.normal), -std::conj(c.coupling), std::conj(c.tangential)};
  }

  static constexpr double smallest = 1e-9;  // [rad/mm], a wave of some thousand kilometres
  Surface surface_;
  double curvature_;
  Grip grip_;
  double membrane_;
};

struct Direct {
  Cover cover;
  Compliance operator()(double q) const {
    const SurfaceCompliance c = surface_compliance(cover, q);
    return {c.nn, Complex(0.0, -1.0) * c.nt, c.tt};
  }
};

/// Stiffness of the belt alone, D q^4 + T q^2 [MPa/mm].
double plate(const TensionedPlate& belt, double q) {
  return (belt.bending_stiffness * q * q + belt.tension) * q * q;
}

Complex under_belt(const TensionedPlate& belt, double q, Complex cover) {
  return cover / (1.0 + plate(belt, q) * cover);
}

bool loses_nothing(const Cover& cover) {
  const double probe = 1.0 / cover.layer.thickness;
  return cover.speed == 0.0 || modulus_ratio(cover.relaxation, probe * cover.speed).imag() == 0.0;
}

}  // namespace

Complex nip_compliance(const BeltOnCover& nip, double q) {
  const Vertical vertical(Direct{nip.cover}, nip);
  const Complex c = under_belt(nip.belt, std::abs(q), vertical.give(std::abs(q)));
  return q < 0.0 ? std::conj(c) : c;
}

struct NipCompliance::Table {
  BeltOnCover nip;
  bool symmetric = false;
  bool closed_form = false;  ///< flat and at rest
  std::optional<Vertical<CoverTable>> cover;
  double first = 0, last = 0;  ///< span [rad/mm] of the splines
  /// Beyond, the cover adds less than 1e-7 to the belt's own stiffness [rad/mm].
  double belt_alone = std::numeric_limits<double>::infinity();
  /// Of the vertical give and of the remainder, times q, over log q.
  std::optional<Spline> real, imaginary, real_remainder, imaginary_remainder;

  [[nodiscard]] Complex cover_give(double q) const {
    if (closed_form) return Vertical(Direct{nip.cover}, nip).give(q);
    if (q < first || q >= last) return cover->give(q);
    const double u = std::log(q);
    return Complex((*real)(u), symmetric ? 0.0 : (*imaginary)(u)) / q;
  }

  [[nodiscard]] Complex cover_remainder(double q) const {
    if (!real_remainder || q < first || q >= last) return cover->remainder(q);
    const double u = std::log(q);
    return Complex((*real_remainder)(u), symmetric ? 0.0 : (*imaginary_remainder)(u)) / q;
  }

  void build(double accuracy, bool with_remainder);
};

void NipCompliance::Table::build(double accuracy, bool with_remainder) {
  cover.emplace(CoverTable(nip.cover, accuracy), nip);
  // Below, neighbouring harmonics take their modulus from about zero frequency; above, hardly any
  // component that a contact resolves is left. The splines begin and end a little outside, since
  // their slopes there are estimates.
  first = std::max(4.0 * nip.cover.curvature, 0.05 / nip.cover.layer.thickness);
  last = 400.0;
  const double from = std::log(0.6 * first);
  const double span = std::log(1.4 * last) - from;
  // The fourth power of the step, over 384, times a fourth derivative of some hundred.
  const auto steps = static_cast<std::size_t>(std::ceil(span / std::pow(accuracy, 0.25)));
  const double step = span / static_cast<double>(steps);
  const auto spline = [&](auto&& value, std::optional<Spline>& re, std::optional<Spline>& im) {
    std::vector<double> real_part(steps + 1);
    std::vector<double> imaginary_part(steps + 1);
    for (std::size_t i = 0; i <= steps; ++i) {
      const double q = std::exp(from + step * static_cast<double>(i));
      const Complex scaled = q * value(q);
      real_part[i] = scaled.real();
      imaginary_part[i] = scaled.imag();
    }
    re.emplace(equal_step_spline(real_part, from, step));
    im.emplace(equal_step_spline(imaginary_part, from, step));
  };
  spline([&](double q) { return cover->give(q); }, real, imaginary);
  if (with_remainder && nip.cover.curvature > 0.0)
    spline([&](double q) { return cover->remainder(q); }, real_remainder, imaginary_remainder);
}

NipCompliance::NipCompliance(const BeltOnCover& nip, double accuracy, bool with_remainder) {
  auto made = std::make_shared<Table>();
  made->nip = nip;
  made->symmetric = loses_nothing(nip.cover);
  made->closed_form = nip.cover.curvature == 0.0 && nip.cover.speed == 0.0;
  if (!made->closed_form) made->build(accuracy, with_remainder);
  if (nip.belt.bending_stiffness > 0.0) {
    double q = 1.0 / nip.cover.layer.thickness;
    while (std::abs(plate(nip.belt, q) * made->cover_give(q)) < 1e7)
      q *= 1.3;
    made->belt_alone = q;
  }
  table_ = std::move(made);
}

Complex NipCompliance::operator()(double q) const {
  const double size = std::abs(q);
  if (size > table_->belt_alone) return 1.0 / plate(table_->nip.belt, size);
  const Complex c = under_belt(table_->nip.belt, size, table_->cover_give(size));
  return q < 0.0 ? std::conj(c) : c;
}

Complex NipCompliance::remainder(double q) const {
  if (table_->nip.cover.curvature == 0.0) return 0.0;
  const double size = std::abs(q);
  if (size > table_->belt_alone) return 0.0;
  const TensionedPlate& belt = table_->nip.belt;
  const Complex held = 1.0 + plate(belt, size) * table_->cover_give(size);
  const Complex c = table_->cover_remainder(size) / (held * held);
  return q < 0.0 ? std::conj(c) : c;
}

bool NipCompliance::symmetric() const noexcept {
  return table_->symmetric;
}

}  // namespace drumlin::models
