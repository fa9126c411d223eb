#include "sim/fast/folding.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <variant>

#include "models/burr/fold.hpp"
#include "sim/fast/hanging_lip.hpp"

namespace drumlin::sim::fast {
namespace {

/// Metal of the burr in the section [mm^2].
double burr_area(const Section& section, const SectionRim& rim) {
  double area = 0.0;
  for (std::size_t i = 0; i < rim.reach; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    area += section.burr[cell] * section.width(cell);
  }
  return area;
}

/// Lays burr metal of an even height on a stretch inwards of the edge line; the cells it ends at.
std::size_t lay(Section& section, const SectionRim& rim, double from, double to, double height) {
  const std::size_t depth = section.depth(rim);
  double in = 0.0;
  std::size_t i = 0;
  for (; i < depth && in < to; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    const double width = section.width(cell);
    const double covered = std::max(std::min(to, in + width) - std::max(from, in), 0.0);
    section.burr[cell] += height * covered / width;
    section.height[cell] += height * covered / width;
    in += width;
  }
  return i;
}

void lay_on_face(Section& section, SectionRim& rim) {
  const models::Lip& lip = *rim.lip;
  double root = 0.0;
  for (std::size_t i = 0; i < rim.reach; ++i)
    root += section.width(Section::inwards(rim, i));
  const std::size_t end = lay(section, rim, root, root + lip.length / rim.across, lip.thickness);
  rim.laid = std::max(end, rim.reach) - rim.reach;
  rim.fold_stop = lip.thickness;
}

}  // namespace

BurrLoad burr_load(const Section& section, const SectionRim& rim, const Eigen::VectorXd& pressure,
                   int drag) {
  double force = 0.0;
  double moment = 0.0;
  double width = 0.0;
  double root = 0.0;
  for (std::size_t i = 0; i < rim.reach; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    const double across = section.width(cell);
    const double p = pressure(static_cast<Eigen::Index>(cell));
    root += across;
    if (p <= 0.0) continue;
    force += p * across;
    moment += p * across * section.x(cell);
    width += across;
  }
  if (force <= 0.0) return {};
  const double hinge = rim.x + 0.5 * rim.metal * root;
  return {.force = rim.across * force,
          .eccentricity = rim.across * drag * (moment / force - hinge),
          .width = rim.across * width};
}

double demand(const SectionRim& rim, const BurrLoad& load, double height,
              const Abrasion& abrasion) {
  if (rim.lip || rim.broken_off || load.force <= 0.0 || height <= 0.0) return 0.0;
  const double drag = abrasion.friction * rim.across * load.force;
  if (const auto* wall = std::get_if<models::WallBurr>(&rim.burr)) {
    if (height <= 0.5 * wall->root) return 0.0;
    const models::WeakestSection weakest = models::weakest_section(*wall, height);
    const double arm = height - weakest.height;
    const double moment =
        models::grain_concentration(abrasion.grain_spacing, arm, load.width, weakest.thickness) *
        (drag * arm + load.force * load.eccentricity);
    return moment / models::plastic_moment(wall->flow_stress, weakest.thickness);
  }
  if (const auto* bead = std::get_if<models::Bead>(&rim.burr)) {
    return load.force / models::breaking_force(*bead, height, abrasion.friction * rim.across);
  }
  return 0.0;
}

double force_on_root(const Section& section, const SectionRim& rim,
                     const Eigen::VectorXd& pressure) {
  double force = 0.0;
  for (std::size_t i = 0; i < rim.reach; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    if (section.burr[cell] > 0.0)
      force += pressure(static_cast<Eigen::Index>(cell)) * section.width(cell);
  }
  return rim.across * force;
}

void strike_off(Section& section, SectionRim& rim) {
  for (std::size_t i = 0; i < rim.reach; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    section.height[cell] -= section.burr[cell];
    section.burr[cell] = 0.0;
  }
}

models::Lip standing_plate(const Section& section, const SectionRim& rim) {
  const double length = burr_metal(section, rim);
  return {.length = length,
          .thickness = length > 0.0 ? rim.across * burr_area(section, rim) / length : 0.0};
}

void give_way(Section& section, SectionRim& rim, int drag, double removed) {
  if (!std::holds_alternative<models::WallBurr>(rim.burr)) {
    strike_off(section, rim);
    rim.broken_off = true;
    return;
  }
  models::Lip lip = standing_plate(section, rim);
  lip.turn = 0.5 * std::numbers::pi;
  lip.hinge = models::weakest_section(std::get<models::WallBurr>(rim.burr), lip.length).thickness;
  rim.fold_start = burr_height(section, rim, {.removed = removed});
  rim.folded_here = true;
  strike_off(section, rim);
  rim.lip = lip;
  rim.beyond = pushed_beyond(rim, drag);
  const double base = section.height[rim.cell] + removed;
  if (rim.beyond) {
    rim.fold_stop = 0.5 * lip.thickness;
    lay(section, rim, 0.0, 0.5 * lip.thickness / rim.across, rim.fold_stop);
    rim.lip_worn.assign(lip_bounds(*rim.lip).size() - 1, 0.0);
  } else {
    lay_on_face(section, rim);
  }
  rim.fold_stop += base;
}

void knock_off(Section& section, double clearance, double line_force, double removed) {
  for (SectionRim& rim : section.rims) {
    const auto* bead = std::get_if<models::Bead>(&rim.burr);
    if (bead == nullptr || rim.broken_off) continue;
    if (burr_height(section, rim, {.removed = removed}) <= clearance) continue;
    rim.struck = true;
    const double foot = section.height[rim.cell] - section.burr[rim.cell] + removed;
    if (line_force < models::breaking_strike(*bead, clearance - foot)) continue;
    strike_off(section, rim);
    rim.broken_off = true;
  }
}

}  // namespace drumlin::sim::fast
