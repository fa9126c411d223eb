#include "sim/fast/drum.hpp"

#include <array>
#include <cmath>
#include <complex>
#include <utility>

namespace drumlin::sim::fast {
namespace {

/// Accuracy of the compliance that a drum is made from: a tenth of what the law is good for.
constexpr double compliance_accuracy = 1e-3;
/// Pair matrices kept per drum: some 5 kB each.
constexpr std::size_t most_pairs = 64;

/// Distance of interferences at which peaks are solved, in logarithm.
constexpr double peak_spacing = 0.14;
/// That many of them reach from a fifth of a 40 mm cover to a micrometre.
constexpr double most_peaks = 64.0;

/// The nip's compliance as the kernel wants it. On a drum only whole harmonics q = n / R exist, and
/// between the first few the formula runs wild (a gripped surface). The kernel wants all wave
/// numbers: straight lines from harmonic to harmonic make its integral the sum over harmonics.
class NipResponse {
 public:
  explicit NipResponse(const models::BeltOnCover& nip)
      : compliance_(nip, compliance_accuracy, /*with_remainder=*/false),
        first_(nip.cover.curvature) {
    for (std::size_t n = 0; first_ > 0.0 && n < at_.size(); ++n)
      at_[n] = compliance_(static_cast<double>(n) * first_);
  }
  std::complex<double> operator()(double q) const {
    const double harmonic = first_ > 0.0 ? q / first_ : 0.0;
    const auto below = static_cast<std::size_t>(harmonic);
    if (first_ <= 0.0 || below + 1 >= at_.size()) return compliance_(q);
    return at_[below] + (at_[below + 1] - at_[below]) * (harmonic - static_cast<double>(below));
  }

 private:
  models::NipCompliance compliance_;
  double first_;  // wave number of the first harmonic [rad/mm]; 0: flat cover
  std::array<std::complex<double>, 8> at_{};  // of the first harmonics
};

std::vector<const DrumLaw*> laws_of(const std::vector<std::shared_ptr<Drum>>& drums) {
  std::vector<const DrumLaw*> laws;
  for (const auto& drum : drums)
    laws.push_back(&drum->law);
  return laws;
}

}  // namespace

Drum::Drum(const models::BeltOnCover& belt_on_cover, const DrumFace& face, double deepest,
           std::shared_ptr<KeptPairs> pairs)
    : nip(belt_on_cover),
      law(LineKernel(NipResponse(belt_on_cover)), face, belt_on_cover.belt.bending_stiffness,
          deepest),
      known_pairs_(std::move(pairs)) {}

Drum::Drum(const models::BeltOnCover& belt_on_cover, std::vector<std::shared_ptr<Drum>> of,
           std::vector<double> shares, std::shared_ptr<KeptPairs> pairs)
    : nip(belt_on_cover),
      law(laws_of(of), shares),
      of_(std::move(of)),
      shares_(std::move(shares)),
      known_pairs_(std::move(pairs)) {}

double Drum::log_peak(std::size_t place) {
  if (log_peaks_.size() <= place) log_peaks_.resize(place + 1);
  std::optional<double>& known = log_peaks_[place];
  if (known) return *known;
  if (of_.empty()) {
    const double interference =
        law.deepest() * std::exp(-peak_spacing * static_cast<double>(place));
    known = std::log(law.peak_pressure(interference));
    return *known;
  }
  double sum = 0.0;
  for (std::size_t k = 0; k < of_.size(); ++k)
    sum += shares_[k] * of_[k]->log_peak(place);
  known = sum;
  return sum;
}

double Drum::peak_pressure(double interference) {
  if (interference <= 0.0) return 0.0;
  const double place = std::log(law.deepest() / interference) / peak_spacing;
  // Shallower than anything that is set, or deeper than the law is laid out: asked for rarely.
  if (place < 0.0 || place > most_peaks) return law.peak_pressure(interference);
  const auto below = static_cast<std::size_t>(place);
  const double share = place - static_cast<double>(below);
  return std::exp((1.0 - share) * log_peak(below) + share * log_peak(below + 1));
}

const Eigen::MatrixXd& Drum::pairs(const Section& section) {
  for (const auto& known : pairs_)
    if (known->cells->serves(section)) return known->matrix;
  auto made = std::make_unique<Pairs>(Pairs{known_pairs_->of(section), {}});
  made->matrix = made->cells->matrix(law.kernel());
  if (pairs_.size() < most_pairs) {
    pairs_.push_back(std::move(made));
    return pairs_.back()->matrix;
  }
  auto& place = pairs_[oldest_];
  oldest_ = (oldest_ + 1) % most_pairs;
  place = std::move(made);
  return place->matrix;
}

}  // namespace drumlin::sim::fast
