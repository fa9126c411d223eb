#include <cmath>

#include "sim/study_analysis/knee.hpp"
#include "sim/study_analysis/parts.hpp"

namespace drumlin::sim {

std::optional<std::vector<double>> Fronts::turned(std::span<const double> values) const {
  std::vector<double> turned(values.size());
  for (std::size_t k = 0; k < values.size(); ++k) {
    if (!std::isfinite(values[k])) return std::nullopt;
    turned[k] = aims_[k].up ? -values[k] : values[k];
  }
  return turned;
}

bool Fronts::in_bounds(std::span<const double> values) const {
  for (std::size_t k = 0; k < values.size(); ++k) {
    if (aims_[k].at_least && values[k] < *aims_[k].at_least) return false;
    if (aims_[k].at_most && values[k] > *aims_[k].at_most) return false;
  }
  return true;
}

void Fronts::offer(std::uint64_t row, RowStatus status, std::span<const double> values) {
  if (aims_.empty() || !has_numbers(status)) return;
  const auto aims = turned(values);
  if (!aims) return;
  all_.offer(row, *aims);
  if (status == RowStatus::done && in_bounds(values)) accepted_.offer(row, *aims);
}

void Fronts::strike(RowStatus status, std::span<const double> values) {
  if (!has_numbers(status)) return;
  const auto aims = turned(values);
  if (!aims) return;
  all_.strike(*aims);
  if (status == RowStatus::done && in_bounds(values)) accepted_.strike(*aims);
}

Front Fronts::front(const FrontArchive& archive) const {
  Front front{.points = {},
              .candidates = archive.offered(),
              .thinned = archive.thinned(),
              .knee = {},
              .no_knee = {}};
  std::vector<bool> up;
  for (const AimedColumn& aim : aims_)
    up.push_back(aim.up);
  for (const FrontArchive::Point& point : archive.points()) {
    FrontPoint own{.row = point.row, .aims = point.aims};
    for (std::size_t k = 0; k < up.size(); ++k)
      if (up[k]) own.aims[k] = -own.aims[k];
    front.points.push_back(std::move(own));
  }
  KneeOrReason found = knee_of(front.points, up);
  front.knee = std::move(found.knee);
  front.no_knee = std::move(found.reason);
  return front;
}

void Fronts::put_into(StudyAnalysis& analysis) const {
  if (aims_.empty()) return;
  analysis.front = front(accepted_);
  analysis.front_of_all = front(all_);
}

}  // namespace drumlin::sim
