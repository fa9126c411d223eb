#include "models/brush/wear.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drumlin::models {
namespace {
double radius_of(const AnyBrush& brush) {
  return std::visit([](const auto& any) { return any.radius; }, brush);
}
}  // namespace

FilamentBrush worn(const FilamentBrush& brush, const BrushWear& wear) noexcept {
  FilamentBrush left = brush;
  left.radius -= wear.radius_loss;
  left.filament.free_length -= wear.radius_loss;
  left.fill *= brush.radius / left.radius;
  return left;
}

NonWovenBrush worn(const NonWovenBrush& brush, const BrushWear& wear) noexcept {
  NonWovenBrush left = brush;
  left.radius -= wear.radius_loss;
  left.depth -= wear.radius_loss;
  return left;
}

AnyBrush worn(const AnyBrush& brush, const BrushWear& wear) {
  return std::visit([&](const auto& any) -> AnyBrush { return worn(any, wear); }, brush);
}

double penetration_left(double penetration, const BrushWear& wear) noexcept {
  const double drawn_in = wear.set * wear.set * penetration;
  return std::max(0.0, penetration - wear.radius_loss - drawn_in + wear.make_up);
}

double speed_left(const AnyBrush& brush, const BrushWear& wear, double speed) {
  const double radius = radius_of(brush);
  return speed * (radius - wear.radius_loss) / radius;
}

double wear_rate(const AnyBrush& brush, const BrushContact& contact) {
  const auto rate = [&](const BrushAbrasion& abrasion, double radius, double fill) {
    return abrasion.wear_coefficient * contact.rub / (2.0 * std::numbers::pi * radius * fill);
  };
  if (const auto* web = std::get_if<NonWovenBrush>(&brush)) {
    return rate(web->abrasion, web->radius, 1.0);
  }
  const auto& filaments = std::get<FilamentBrush>(brush);
  if (!contact.tips) return 0.0;
  const double harshness = contact.tips->mean_force / buckling_load(filaments.filament);
  return rate(filaments.abrasion, filaments.radius, filaments.fill) *
         std::pow(harshness, filaments.abrasion.wear_exponent - 1.0);
}

std::optional<double> removal_per_trim(const AnyBrush& brush, const BrushContact& contact) {
  const double lost = wear_rate(brush, contact);
  if (lost <= 0.0) return std::nullopt;
  const double removal =
      std::visit([](const auto& any) { return any.abrasion.removal_coefficient; }, brush);
  return removal * contact.rub / lost;
}

}  // namespace drumlin::models
