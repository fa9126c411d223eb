#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace drumlin::sim {

/// Whether one row beats another: at least as good in all aims and better in one. Smaller is
/// better.
[[nodiscard]] bool beats(std::span<const double> a, std::span<const double> b) noexcept;

/// The rows that no other row beats, as they come one by one.
///
/// Up to `most` points the archive is exactly the non-dominated set of what was offered, rows with
/// equal aims included. When it is full, every second point along the first aim is dropped but for
/// the best in each aim, and `thinned` tells so; a point that one of the dropped ones beats may
/// then come in, so the caller offers all rows to `strike` once more: what is left after that is
/// beaten by no row, but is only a part of the front.
///
/// Takes O(points) per row; a row beaten by one that has beaten others lately is found quickly.
class FrontArchive {
 public:
  static constexpr std::size_t most = 20000;

  explicit FrontArchive(std::size_t aims, std::size_t most_points = most)
      : aims_(aims), most_(most_points) {}

  struct Point {
    std::uint64_t row = 0;
    std::vector<double> aims;  ///< smaller is better
  };

  void offer(std::uint64_t row, std::span<const double> aims);
  /// Removes the points that a row beats.
  void strike(std::span<const double> aims);

  [[nodiscard]] bool thinned() const noexcept { return thinned_; }
  [[nodiscard]] std::uint64_t offered() const noexcept { return offered_; }
  /// Best in the first aim first, then in the second, ...; equal ones by row.
  [[nodiscard]] std::vector<Point> points() const;

 private:
  [[nodiscard]] std::span<const double> at(std::size_t i) const {
    return {numbers_.data() + i * aims_, aims_};
  }
  void swap(std::size_t a, std::size_t b);
  void remove_beaten(std::span<const double> aims, std::size_t from);
  void thin();

  std::size_t aims_;
  std::size_t most_;
  std::vector<double> numbers_;  // point by point
  std::vector<std::uint64_t> rows_;
  std::uint64_t offered_ = 0;
  bool thinned_ = false;
};

}  // namespace drumlin::sim
