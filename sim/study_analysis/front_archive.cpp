#include "sim/study_analysis/front_archive.hpp"

#include <algorithm>
#include <set>

namespace drumlin::sim {
namespace {

/// How two rows stand to each other.
enum class Standing { first_beats, second_beats, neither };

Standing standing(std::span<const double> a, std::span<const double> b) noexcept {
  bool a_better = false;
  bool b_better = false;
  for (std::size_t k = 0; k < a.size(); ++k) {
    a_better = a_better || a[k] < b[k];
    b_better = b_better || b[k] < a[k];
  }
  if (a_better == b_better) return Standing::neither;
  return a_better ? Standing::first_beats : Standing::second_beats;
}

}  // namespace

bool beats(std::span<const double> a, std::span<const double> b) noexcept {
  return standing(a, b) == Standing::first_beats;
}

void FrontArchive::swap(std::size_t a, std::size_t b) {
  if (a == b) return;
  std::swap(rows_[a], rows_[b]);
  for (std::size_t k = 0; k < aims_; ++k)
    std::swap(numbers_[a * aims_ + k], numbers_[b * aims_ + k]);
}

void FrontArchive::remove_beaten(std::span<const double> aims, std::size_t from) {
  for (std::size_t i = from; i < rows_.size();) {
    if (!beats(aims, at(i))) {
      ++i;
      continue;
    }
    swap(i, rows_.size() - 1);
    rows_.pop_back();
    numbers_.resize(rows_.size() * aims_);
  }
}

void FrontArchive::offer(std::uint64_t row, std::span<const double> aims) {
  ++offered_;
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    const Standing to_point = standing(aims, at(i));
    if (to_point == Standing::second_beats) {
      // What beats one row is likely to beat the next: it comes one half nearer to the front.
      swap(i, i / 2);
      return;
    }
    // A row that beats a point of the archive is itself beaten by none of it.
    if (to_point == Standing::first_beats) {
      remove_beaten(aims, i);
      break;
    }
  }
  rows_.push_back(row);
  numbers_.insert(numbers_.end(), aims.begin(), aims.end());
  if (rows_.size() > most_) thin();
}

void FrontArchive::strike(std::span<const double> aims) {
  remove_beaten(aims, 0);
}

void FrontArchive::thin() {
  const std::vector<Point> sorted = points();
  rows_.clear();
  numbers_.clear();
  std::set<std::size_t> ends;  // the knee is told by them
  for (std::size_t k = 0; k < aims_; ++k)
    ends.insert(static_cast<std::size_t>(
        std::min_element(sorted.begin(), sorted.end(),
                         [k](const Point& a, const Point& b) { return a.aims[k] < b.aims[k]; }) -
        sorted.begin()));
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    if (i % 2 != 0 && !ends.contains(i)) continue;
    rows_.push_back(sorted[i].row);
    numbers_.insert(numbers_.end(), sorted[i].aims.begin(), sorted[i].aims.end());
  }
  thinned_ = true;
}

std::vector<FrontArchive::Point> FrontArchive::points() const {
  std::vector<Point> points;
  points.reserve(rows_.size());
  for (std::size_t i = 0; i < rows_.size(); ++i)
    points.push_back({rows_[i], {at(i).begin(), at(i).end()}});
  std::sort(points.begin(), points.end(), [](const Point& a, const Point& b) {
    return a.aims != b.aims ? a.aims < b.aims : a.row < b.row;
  });
  return points;
}

}  // namespace drumlin::sim
