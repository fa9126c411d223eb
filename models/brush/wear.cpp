#include "models/brush/wear.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "models/brush/disc.hpp"

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

DiscBrush worn(const DiscBrush& brush, const BrushWear& wear) noexcept {
  DiscBrush left = brush;
  left.filament.free_length -= wear.radius_loss;
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
  if (std::holds_alternative<DiscBrush>(brush)) return speed;
  const double radius = radius_of(brush);
  return speed * (radius - wear.radius_loss) / radius;
}

double wear_rate(const AnyBrush& brush, const BrushContact& contact) {
  /// @param tips  length along the feed, per width, on which filaments stand [mm].
  const auto rate = [&](const BrushAbrasion& abrasion, double tips, double fill) {
    return abrasion.wear_coefficient * contact.rub / (tips * fill);
  };
  const auto harshness = [&](const Filament& filament, const BrushAbrasion& abrasion) {
    return std::pow(contact.tips->mean_force / buckling_load(filament),
                    abrasion.wear_exponent - 1.0);
  };
  constexpr double pi = std::numbers::pi;
  if (const auto* web = std::get_if<NonWovenBrush>(&brush))
    return rate(web->abrasion, 2.0 * pi * web->radius, 1.0);
  if (!contact.tips) return 0.0;
  if (const auto* disc = std::get_if<DiscBrush>(&brush)) {
    const double ring =
        pi * (disc->radius * disc->radius - disc->inner_radius * disc->inner_radius);
    const double tips = disc->heads * disc->discs * ring / row_width(*disc);
    return rate(disc->abrasion, tips, disc->fill) * harshness(disc->filament, disc->abrasion);
  }
  const auto& roller = std::get<FilamentBrush>(brush);
  return rate(roller.abrasion, 2.0 * pi * roller.radius, roller.fill) *
         harshness(roller.filament, roller.abrasion);
}

std::optional<double> removal_per_trim(const AnyBrush& brush, const BrushContact& contact) {
  const double lost = wear_rate(brush, contact);
  if (lost <= 0.0) return std::nullopt;
  const double removal =
      std::visit([](const auto& any) { return any.abrasion.removal_coefficient; }, brush);
  return removal * contact.rub / lost;
}

}  // namespace drumlin::models
