#include "models/brush/table.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include <boost/math/interpolators/cardinal_cubic_b_spline.hpp>

namespace drumlin::models {
namespace {

using Spline = boost::math::interpolators::cardinal_cubic_b_spline<double>;

constexpr int columns = 8;

/// Every number that depends on the penetration, in one order for taking apart and putting back.
template <class Contact, class Tips>
auto parts(Contact& contact, Tips& tips) {
  return std::array{&contact.line_force,     &contact.drag,     &contact.power,
                    &contact.contact_length, &contact.rub,      &tips.mean_force,
                    &tips.peak_force,        &tips.flank_length};
}

}  // namespace

struct BrushTable::Splines {
  double deepest = 0;
  BrushContact like;  ///< what does not depend on the penetration
  std::vector<Spline> columns;
  std::optional<Spline> swings;
};

BrushTable::BrushTable(const AnyBrush& brush, double speed, double deepest, int nodes) {
  std::array<std::vector<double>, columns> values;
  std::vector<double> swings;
  BrushContact node;
  for (int i = 0; i <= nodes; ++i) {
    const double u = static_cast<double>(i) / nodes;
    node = models::contact(brush, deepest * u * u, speed);
    TipContact tips = node.tips.value_or(TipContact{});
    const auto all = parts(node, tips);
    for (std::size_t k = 0; k < all.size(); ++k)
      values[k].push_back(*all[k]);
    swings.push_back(tips.swings.value_or(0.0));
  }
  auto splines = std::make_shared<Splines>();
  splines->deepest = deepest;
  splines->like = node;
  for (const auto& column : values) {
    splines->columns.emplace_back(column.begin(), column.end(), 0.0, 1.0 / nodes);
  }
  if (node.tips && node.tips->swings) {
    splines->swings.emplace(swings.begin(), swings.end(), 0.0, 1.0 / nodes);
  }
  splines_ = std::move(splines);
}

BrushContact BrushTable::contact(double penetration) const {
  if (penetration <= 0.0) return {};
  const double u = std::sqrt(std::min(1.0, penetration / splines_->deepest));
  BrushContact result = splines_->like;
  TipContact tips = result.tips.value_or(TipContact{});
  const auto all = parts(result, tips);
  for (std::size_t k = 0; k < all.size(); ++k)
    *all[k] = std::max(0.0, splines_->columns[k](u));
  if (splines_->swings) tips.swings = std::max(0.0, (*splines_->swings)(u));
  if (result.tips) result.tips = tips;
  return result;
}

}  // namespace drumlin::models
