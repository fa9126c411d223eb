#include "models/brush/brush.hpp"

#include <cmath>
#include <numbers>

#include "models/brush/disc.hpp"
#include "models/brush/dragged.hpp"

namespace drumlin::models {
namespace {
using std::numbers::pi;
}

double filaments_per_angle(const FilamentBrush& brush) noexcept {
  return brush.fill * brush.radius / section_area(brush.filament);
}

double fill_of_hub_density(const Filament& filament, double radius, double per_hub_area) noexcept {
  return per_hub_area * section_area(filament) * (radius - filament.free_length) / radius;
}

FilamentOnDrum filament_on(const FilamentBrush& brush, double penetration, double speed) noexcept {
  return {.filament = brush.filament,
          .hub_radius = brush.radius - brush.filament.free_length,
          .penetration = penetration,
          .angular_speed = speed / brush.radius};
}

BrushContact contact(const FilamentBrush& brush, double penetration, double speed) {
  BrushContact result;
  TipContact tips;
  const double turning = speed / brush.radius;
  const double passing = filaments_per_angle(brush) * turning;
  tips.strikes = passing;
  if (brush.rows > 0.0) tips.row_frequency = brush.rows * turning / (2.0 * pi);
  const FilamentOnDrum on = filament_on(brush, penetration, speed);
  const Sweep sweep = sweep_face(on);
  if (sweep.points.size() > 1) {
    const SweepPoint& first = sweep.points.front();
    const SweepPoint& last = sweep.points.back();
    const double turn = last.hub_angle - first.hub_angle;
    result.line_force = filaments_per_angle(brush) * sweep.normal_impulse;
    result.drag = filaments_per_angle(brush) * sweep.drag_impulse;
    result.power = passing * sweep.torque_work;
    result.contact_length = last.touch.x - first.touch.x;
    result.rub = passing * sweep.normal_path;
    tips.mean_force = sweep.normal_impulse / turn;
    tips.peak_force = sweep.peak_normal;
    tips.flank_length = sweep.peak_flank;
    if (turning > 0.0) {
      tips.swings =
          turn / turning * swing_frequency(brush.filament, on.hub_radius, turning) / (2.0 * pi);
    }
  }
  if (penetration > 0.0) result.tips = tips;
  return result;
}

BrushContact contact(const NonWovenBrush& brush, double penetration, double speed) {
  if (penetration <= 0.0) return {};
  const double h = brush.radius - penetration;
  const double half = std::sqrt(brush.radius * brush.radius - h * h);
  const double overlap = brush.radius * brush.radius * std::acos(h / brush.radius) - h * half;
  BrushContact result;
  result.line_force = brush.contact_modulus / brush.depth * overlap;
  result.drag = brush.friction * result.line_force;
  result.power = result.drag * speed;
  result.contact_length = 2.0 * half;
  result.rub = result.line_force * speed;
  return result;
}

BrushContact contact(const DiscBrush& brush, double penetration, double speed) {
  if (penetration <= 0.0) return {};
  const DraggedFilament one = dragged_over_face(brush.filament, penetration);
  const double ring = pi * (brush.radius * brush.radius - brush.inner_radius * brush.inner_radius);
  const double filaments = brush.heads * filaments_per_area(brush) * ring / row_width(brush);
  const double mean_speed = mean_tip_speed(brush, speed);
  BrushContact result;
  result.line_force = filaments * one.normal_force;
  result.rub = result.line_force * mean_speed;
  result.power = filaments * one.drag * mean_speed;
  result.contact_length = 2.0 * reach_of(brush);
  // Tips that run all ways cross a line across the feed with 2/pi of their speed.
  result.tips = TipContact{.mean_force = one.normal_force,
                           .peak_force = one.normal_force,
                           .flank_length = 0.0,
                           .strikes = filaments * mean_speed * 2.0 / pi / result.contact_length,
                           .row_frequency = {},
                           .swings = {}};
  return result;
}

BrushContact contact(const AnyBrush& brush, double penetration, double speed) {
  return std::visit([&](const auto& any) { return contact(any, penetration, speed); }, brush);
}

}  // namespace drumlin::models
