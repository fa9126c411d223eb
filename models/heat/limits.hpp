#pragma once

/// Temperatures at which something gives way [K].
namespace drumlin::models {

/// A temperature with the spread between lists or makes.
struct HeatLimit {
  double value = 0;
  double low = 0;
  double high = 0;
};

/// From here on zinc smears over the face and loads the belt: 150 to 250 degC (common practice, no
/// source).
inline constexpr HeatLimit zinc_smears{.value = 473.15, .low = 423.15, .high = 523.15};
/// Boiling point of zinc, 907 degC (handbook value, from memory): far below it melted zinc fumes
/// already.
inline constexpr double zinc_boils = 1180.15;
/// Paint over the coating: powder paint 200 degC, polyethylene film 80 degC (from memory).
inline constexpr HeatLimit paint_softens{.value = 473.15, .low = 353.15, .high = 473.15};
/// Surface of a rubber cover over long times: 80 degC, 70 to 120 by compound (common practice, no
/// source).
inline constexpr HeatLimit cover_ages{.value = 353.15, .low = 343.15, .high = 393.15};

}  // namespace drumlin::models
