#include "models/brush/face_work.hpp"

#include <algorithm>

namespace drumlin::models {

FaceWork face_work(const BrushContact& contact, double feed, double coating, double coating_removal,
                   double base_removal) noexcept {
  const double rubbed = contact.rub / feed;
  const double lost = std::min(coating, coating_removal * rubbed);
  if (lost < coating) return {lost, 0.0};
  const double spent = coating > 0.0 ? coating / coating_removal : 0.0;
  return {lost, base_removal * (rubbed - spent)};
}

}  // namespace drumlin::models
