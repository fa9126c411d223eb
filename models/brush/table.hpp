#pragma once

#include <memory>

#include "models/brush/brush.hpp"

namespace drumlin::models {

/// A brush at one speed over a range of penetrations: solved at some, splined between. For sweeps,
/// for wear that eats into the penetration and for scatter of thickness.
///
/// Values are those of contact() over the root of the penetration, in which they are smooth.
class BrushTable {
 public:
  /// @param deepest  largest penetration asked for [mm], > 0; legal for contact().
  /// @param nodes    penetrations that are solved, a millisecond each; 24 keep forces within some
  ///                 parts in a thousand of contact() from a hundredth of the deepest on.
  BrushTable(const AnyBrush& brush, double speed, double deepest, int nodes = 24);

  /// Penetrations beyond the deepest are answered as the deepest.
  [[nodiscard]] BrushContact contact(double penetration) const;

 private:
  struct Splines;
  std::shared_ptr<const Splines> splines_;
};

}  // namespace drumlin::models
