#include "sim/line/feed_row.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "sim/numerics/line_compliance.hpp"

namespace drumlin::sim::line {

FeedRow::FeedRow(const Drum& drum, const PlainPass& plain, double room) {
  const SteadyNip& nip = plain.nip;
  spacing_ = nip.offset[1] - nip.offset[0];
  const double half = -nip.offset.front();
  // The undeformed drum is a gap farther off where its arc has risen by as much.
  const double wanted = std::sqrt(half * half + 2.0 * drum.station().radius * room) - half;
  const auto pad = static_cast<std::size_t>(std::ceil(wanted / spacing_)) + 2;
  first_ = nip.offset.front() - static_cast<double>(pad) * spacing_;
  pressure_.assign(nip.pressure.size() + 2 * pad, 0.0);
  std::copy(nip.pressure.begin(), nip.pressure.end(),
            pressure_.begin() + static_cast<std::ptrdiff_t>(pad));
  load_.resize(pressure_.size());
  std::partial_sum(pressure_.begin(), pressure_.end(), load_.begin());
  for (double& l : load_)
    l *= spacing_;
  gap_.assign(pressure_.size(), 0.0);
  if (room <= 0.0) return;
  LineCompliance compliance(drum.compliance(), spacing_, pressure_.size(),
                            response_window(drum.station(), {}));
  std::vector<double> surface(pressure_.size());
  compliance.apply(pressure_, surface);
  for (std::size_t i = 0; i < surface.size(); ++i)
    surface[i] += drum.rise(offset(i));
  const auto pressed = [](double p) { return p > 0.0; };
  const auto in = static_cast<std::size_t>(
      std::find_if(pressure_.begin(), pressure_.end(), pressed) - pressure_.begin());
  const auto out = static_cast<std::size_t>(
      pressure_.rend() - std::find_if(pressure_.rbegin(), pressure_.rend(), pressed) - 1);
  for (std::size_t i = 0; i < in; ++i)
    gap_[i] = std::max(surface[i] - surface[in], 0.0);
  for (std::size_t i = out + 1; i < gap_.size(); ++i)
    gap_[i] = std::max(surface[i] - surface[out], 0.0);
}

double FeedRow::read(const std::vector<double>& values, double offset) const {
  const double place =
      std::clamp((offset - first_) / spacing_, 0.0, static_cast<double>(values.size() - 1));
  const auto k = std::min(static_cast<std::size_t>(place), values.size() - 2);
  return values[k] + (place - static_cast<double>(k)) * (values[k + 1] - values[k]);
}

double FeedRow::begins(double gap) const {
  std::size_t i = 0;
  while (i + 1 < gap_.size() && pressure_[i] <= 0.0 && (gap_[i] > gap || gap <= 0.0))
    ++i;
  return offset(i) - 0.5 * spacing_;
}

double FeedRow::ends(double gap) const {
  std::size_t i = gap_.size() - 1;
  while (i > 0 && pressure_[i] <= 0.0 && (gap_[i] > gap || gap <= 0.0))
    --i;
  return offset(i) + 0.5 * spacing_;
}

double FeedRow::mean_pressure(double from, double to) const {
  // load_ is told at the ends of places, half a spacing beyond their middles.
  const double before = read(load_, from - 0.5 * spacing_);
  return (read(load_, to - 0.5 * spacing_) - before) / (to - from);
}

double FeedRow::centre() const {
  double moment = 0.0;
  for (std::size_t i = 0; i < pressure_.size(); ++i)
    moment += offset(i) * pressure_[i];
  return moment * spacing_ / load_.back();
}

}  // namespace drumlin::sim::line
