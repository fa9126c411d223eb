#include "models/brush/passage.hpp"

#include <cmath>
#include <optional>

namespace drumlin::models {
namespace {

/// The tip in one mode: where it is when it stands w behind the straight filament's tip.
class OneMode {
 public:
  explicit OneMode(const FilamentOnDrum& on)
      : radius_(tip_radius(on)),
        height_(radius_ - on.penetration),
        bow_(0.6 / on.filament.free_length),
        friction_(on.filament.friction) {}

  void turn_to(double hub_angle) {
    s_ = std::sin(hub_angle);
    c_ = std::cos(hub_angle);
  }
  /// Least w that keeps a trailing tip out of the face; none where any does.
  [[nodiscard]] std::optional<double> least() const {
    const double inside = s_ * s_ + 4.0 * bow_ * c_ * (radius_ * c_ - height_);
    if (inside < 0.0) return std::nullopt;
    return (s_ + std::sqrt(inside)) / (2.0 * bow_ * c_);
  }
  [[nodiscard]] double x(double w) const { return (radius_ - bow_ * w * w) * s_ - w * c_; }
  /// Work of a unit of normal force, with its drag, per unit of w.
  [[nodiscard]] double grip(double w) const {
    const double z_w = 2.0 * bow_ * w * c_ - s_;
    const double x_w = -2.0 * bow_ * w * s_ - c_;
    return z_w - friction_ * x_w;
  }
  /// Moment of a unit of normal force, with its drag, against the drum.
  [[nodiscard]] double moment(double w) const { return friction_ * height_ - x(w); }

 private:
  double radius_;
  double height_;
  double bow_;
  double friction_;
  double s_ = 0;
  double c_ = 1;
};

void add(PassageSums& sums, double impulse, double path, double moment) {
  sums.normal_impulse += impulse;
  sums.normal_path += impulse * path;
  sums.torque_work += impulse * moment;
}

}  // namespace

Passage passage(const FilamentOnDrum& on, int steps) {
  Passage result;
  if (on.penetration <= 0.0 || on.angular_speed <= 0.0) return result;
  const Filament& filament = on.filament;
  const double mass =
      33.0 / 140.0 * filament.density * section_area(filament) * filament.free_length;
  const double swing = swing_frequency(filament, on.hub_radius, on.angular_speed);
  const double first = -std::acos(1.0 - on.penetration / tip_radius(on));
  const double turn = -2.0 * first / steps;
  const double h = turn / on.angular_speed;
  OneMode tip(on);
  tip.turn_to(first);
  double w = 0.0;  // of the swinging filament
  double u = 0.0;  // its speed
  double x = tip.x(w);
  double rest = 0.0;  // of the balanced filament
  double rest_x = x;
  double speed_x = tip_radius(on) * on.angular_speed;  // of the tip along the face, before the step
  int touching = 0;
  // A trailing tip comes off within half as much again as the arc of entry.
  for (int i = 1; i <= 2 * steps; ++i) {
    tip.turn_to(first + i * turn);
    const auto least = tip.least();
    if (!least) break;
    const double balanced = mass * swing * swing * *least / tip.grip(*least);
    const double now_x = tip.x(*least);
    add(result.balanced, balanced * turn, (now_x - rest_x) / turn, tip.moment(*least));
    rest = *least;
    rest_x = now_x;
    double free_speed = u - swing * swing * w * h;
    double free = w + free_speed * h;
    if (free < rest) {
      const double stopped = (rest - w) / h;
      const double impulse = mass * (stopped - free_speed) / tip.grip(rest);
      const double after = (now_x - x) / h;
      // A blow acts while the tip slows down from what it was to what it is.
      const double path = 0.5 * (speed_x + after) / on.angular_speed;
      add(result.swinging, impulse * on.angular_speed, path, tip.moment(rest));
      if (i == 1) result.strike = impulse;
      ++touching;
      free = rest;
      free_speed = stopped;
    }
    w = free;
    u = free_speed;
    speed_x = (tip.x(w) - x) / h;
    x = tip.x(w);
  }
  result.touching = static_cast<double>(touching) / steps;
  return result;
}

}  // namespace drumlin::models
