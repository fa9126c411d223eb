#include "sim/fast/drums.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <utility>
#include <variant>

namespace drumlin::sim::fast {
namespace {

/// Accuracy of the compliance that a drum is made from: a tenth of what the law is good for.
constexpr double compliance_accuracy = 1e-3;
/// Interference over cover thickness that a law is laid out for, and room beyond what is asked.
constexpr double usual_depth = 0.2;
constexpr double room = 1.5;

/// Shallower than this no strain tells on the cover [mm], and a part is cut for it at least: drums
/// that just touch or hang clear are one.
constexpr double least_depth = 1e-3;

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
      : compliance_(nip, compliance_accuracy), first_(nip.cover.curvature) {
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

/// Depth that the law of a drum is laid out for [mm]: one of a few, so that drums do not depend on
/// which interference was asked for first.
double depth_for(const BeltSetup& station, double interference) {
  double deepest = usual_depth * station.cover.thickness;
  while (deepest < room * interference)
    deepest *= room;
  return deepest;
}

bool same(const models::BondedLayer& a, const models::BondedLayer& b) {
  return a.thickness == b.thickness && a.modulus == b.modulus && a.poisson_ratio == b.poisson_ratio;
}

bool same(const models::TensionedPlate& a, const models::TensionedPlate& b) {
  return a.bending_stiffness == b.bending_stiffness && a.tension == b.tension &&
         a.grain_compliance == b.grain_compliance;
}

bool same_law(const models::RateIndependent& /*a*/, const models::RateIndependent& /*b*/) {
  return true;
}

bool same_law(const models::ConstantLoss& a, const models::ConstantLoss& b) {
  return a.loss_factor == b.loss_factor;
}

bool same_law(const models::PronySeries& a, const models::PronySeries& b) {
  return a.relaxed == b.relaxed && a.time_shift == b.time_shift &&
         std::equal(a.terms.begin(), a.terms.end(), b.terms.begin(), b.terms.end(),
                    [](const models::PronyTerm& x, const models::PronyTerm& y) {
                      return x.time == y.time && x.modulus == y.modulus;
                    });
}

bool same(const models::AnyRelaxation& a, const models::AnyRelaxation& b) {
  return a.index() == b.index() &&
         std::visit([&]<class Law>(const Law& law) { return same_law(law, std::get<Law>(b)); }, a);
}

bool same(const models::BeltOnCover& a, const models::BeltOnCover& b) {
  return same(a.cover.layer, b.cover.layer) && a.cover.curvature == b.cover.curvature &&
         a.cover.density == b.cover.density && a.cover.speed == b.cover.speed &&
         same(a.cover.relaxation, b.cover.relaxation) && same(a.belt, b.belt) && a.grip == b.grip;
}

bool same(const DrumFace& a, const DrumFace& b) {
  return a.radius == b.radius && a.circular == b.circular &&
         a.grain_compliance == b.grain_compliance;
}

}  // namespace

Drum::Drum(const models::BeltOnCover& belt_on_cover, const DrumFace& face, double deepest)
    : nip(belt_on_cover),
      kernel(NipResponse(belt_on_cover)),
      law(kernel, face, belt_on_cover.belt.bending_stiffness, deepest) {}

double Drum::log_peak(std::size_t place) {
  if (log_peaks_.size() <= place) log_peaks_.resize(place + 1);
  std::optional<double>& known = log_peaks_[place];
  if (!known) {
    const double interference =
        law.deepest() * std::exp(-peak_spacing * static_cast<double>(place));
    known = std::log(law.peak_pressure(interference));
  }
  return *known;
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
  for (const auto& known : pairs_) {
    if (known->from == section.from && known->to == section.to) return known->matrix;
  }
  auto made =
      std::make_unique<Pairs>(Pairs{section.from, section.to, pair_matrix(kernel, section)});
  if (pairs_.size() < most_pairs) {
    pairs_.push_back(std::move(made));
    return pairs_.back()->matrix;
  }
  auto& place = pairs_[oldest_];
  oldest_ = (oldest_ + 1) % most_pairs;
  place = std::move(made);
  return place->matrix;
}

Drum& Drums::of(std::size_t index, const BeltSetup& station, double interference) {
  if (drums_.size() <= index) drums_.resize(index + 1);
  const models::BeltOnCover nip = nip_of(station, std::max(interference, least_depth));
  const DrumFace face{.radius = station.radius,
                      .circular = station.options.curved,
                      .grain_compliance = station.belt.grain_compliance};
  const double deepest = depth_for(station, interference);
  auto& known = drums_[index];
  const auto serves = [&](const std::unique_ptr<Drum>& drum) {
    return drum->law.deepest() == deepest && same(drum->law.drum(), face) && same(drum->nip, nip);
  };
  auto found = std::find_if(known.begin(), known.end(), serves);
  if (found == known.end()) {
    if (known.size() == kept_) known.pop_back();
    known.push_back(std::make_unique<Drum>(nip, face, deepest));
    found = known.end() - 1;
    ++made_;
  }
  std::rotate(known.begin(), found, found + 1);
  return *known.front();
}

Abrasion abrasion_of(const BeltSetup& station) {
  return {.substrate = station.substrate.law,
          .coating = station.coating.law,
          .path_per_feed = station.sliding_speed / station.feed,
          .top = station.top.law,
          .specific_energy = station.specific_energy,
          .friction = station.friction,
          .grain_spacing = station.grain_spacing,
          .drag = station.with_feed ? +1 : -1};
}

}  // namespace drumlin::sim::fast
