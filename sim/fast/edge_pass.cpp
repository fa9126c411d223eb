#include "sim/fast/edge_pass.hpp"

#include <algorithm>
#include <cmath>

#include "sim/fast/folding.hpp"
#include "sim/fast/hanging_lip.hpp"

namespace drumlin::sim::fast {
namespace {

/// A burr's loss that no stride is shortened for [mm]: less than any gauge reads.
constexpr double least_loss = 1e-3;
/// Demand from which on strides look after a burr: a step may hide a force several times as high.
constexpr double worth_watching = 0.1;
/// Strides go by the nip's half width, but by no less than this share of the drum's reach over a
/// burr: a tall one meets the drum far from a narrow nip.
constexpr double least_scale = 0.1;
/// Nor by less than the nip at this interference [mm]: cells beside an edge are no finer than for
/// it, and what a shallower nip takes off is far below what any gauge reads.
constexpr double shallowest = 1e-3;

/// Drum's axis to an edge [mm] from where on the edge is hardly felt, nor read.
double calm_distance(double half_width) {
  return 1.15 * half_width + 0.5;
}

/// Depth that a steady pass has taken at a place from the axis.
double depth_at(const WearingPass& plain, double place) {
  if (plain.place.empty() || place <= plain.place.front()) return 0.0;
  const auto above = std::upper_bound(plain.place.begin(), plain.place.end(), place);
  if (above == plain.place.end()) return plain.removal;
  const auto k = static_cast<std::size_t>(above - plain.place.begin());
  const double share = (place - plain.place[k - 1]) / (plain.place[k] - plain.place[k - 1]);
  return plain.depth[k - 1] + share * (plain.depth[k] - plain.depth[k - 1]);
}

/// Highest standing burr of a rim after the step [mm].
double metal_after(const Section& section, const SectionRim& rim, const Eigen::VectorXd& depth) {
  double most = 0.0;
  for (std::size_t i = 0; i < rim.reach; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    most = std::max(most, section.burr[cell] - depth(static_cast<Eigen::Index>(cell)));
  }
  return most;
}

}  // namespace

double edge_pass_reach(const DrumLaw& law, double interference, double tallest) {
  const double a = law.half_width(interference);
  const double touch = std::sqrt(2.0 * law.drum().radius * (interference + tallest));
  return std::max(calm_distance(a), touch) + 1.2 * a;
}

EdgePass::EdgePass(const Eigen::MatrixXd& pairs, const DrumLaw& law, const Abrasion& abrasion,
                   const Section& section, const Strides& strides)
    : law_(law),
      abrasion_(abrasion),
      strides_(strides),
      contact_(pairs, law, abrasion, section),
      asked_(section.rims.size()) {}

EdgePass::Course EdgePass::course_over(const Section& section, double interference) const {
  const double a = law_.half_width(interference);
  const double tallest = *std::max_element(section.height.begin(), section.height.end());
  // On a thin cover that keeps its volume the nip is wider than the undeformed drum's reach.
  const double touch = std::max(
      std::sqrt(2.0 * law_.drum().radius * std::max(interference + tallest, 0.0)), 1.05 * a);
  const double calm = std::max(calm_distance(a), touch);
  const auto into = [&](const SectionRim& rim) { return calm + section.covered(rim); };
  const SectionRim& first = section.rims.front();
  Course course{
      .from = 0,
      .to = 0,
      .scale = std::max(law_.half_width(std::max(interference, shallowest)), least_scale * touch)};
  course.from = first.x + (first.metal > 0 ? into(first) : touch);
  course.to = course.from;
  for (const auto& rim : section.rims) {
    if (!rim.name.empty()) course.to = rim.x - (rim.metal > 0 ? touch : into(rim));
  }
  return course;
}

/// What a burr would be asked for if this step had not worn it [-].
double EdgePass::may_ask(const Section& section, const SectionRim& rim) const {
  return demand(rim, burr_load(section, rim, contact_.pressure(), abrasion_.drag),
                burr_metal(section, rim), abrasion_);
}

/// The largest loss of height of a burr that may give way, over what a step may take of it [-].
double EdgePass::burr_loss(const Section& section, bool short_stride) const {
  double worst = 0.0;
  for (const SectionRim& rim : section.rims) {
    if (rim.reach == 0 || rim.lip || rim.broken_off) continue;
    const double before = burr_metal(section, rim);
    const double loss = before - metal_after(section, rim, contact_.depth());
    if (loss < least_loss) continue;
    if (may_ask(section, rim) > worth_watching)
      worst = std::max(worst, loss / (strides_.burr_loss * before));
    else if (!short_stride)
      worst = std::max(worst, loss / (strides_.idle_loss * before));
  }
  return worst;
}

void EdgePass::watch_rim(Section& section, SectionRim& rim, Asked& asked, const PlainFace& face) {
  const BurrLoad load = burr_load(section, rim, contact_.pressure(), abrasion_.drag);
  const double asks = demand(rim, load, metal_after(section, rim, contact_.depth()), abrasion_);
  double force = load.force;
  const bool gives = asks >= 1.0;
  if (gives) {
    // Demand and force are taken to rise evenly over the step, wear to go on until it gives way.
    const double share = asked.demand < 1.0 ? (1.0 - asked.demand) / (asks - asked.demand) : 0.0;
    force = asked.force + share * (load.force - asked.force);
    for (std::size_t i = 0; i < rim.reach; ++i)
      contact_.depth()(static_cast<Eigen::Index>(Section::inwards(rim, i))) *= share;
  }
  rim.peak_force = std::max(rim.peak_force, force);
  asked = {.demand = asks, .force = force};
  if (!gives) return;
  for (std::size_t i = 0; i < rim.reach; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    take_off(section, cell, contact_.depth()(static_cast<Eigen::Index>(cell)));
    contact_.depth()(static_cast<Eigen::Index>(cell)) = 0.0;
  }
  give_way(section, rim, abrasion_.drag, face.removed);
}

/// The belt lies on the two outermost columns, less what its grains give and the step wears.
void EdgePass::press(Section& section, SectionRim& rim, const PlainFace& face) {
  const double give = law_.drum().grain_compliance;
  const auto pressure = [&](std::size_t cell) {
    return contact_.pressure()(static_cast<Eigen::Index>(cell));
  };
  const auto worn = [&](std::size_t cell) {
    return contact_.depth()(static_cast<Eigen::Index>(cell));
  };
  const auto belt = [&](std::size_t cell) {
    return section.height[cell] - worn(cell) - give * pressure(cell);
  };
  const std::size_t edge = rim.cell;
  const std::size_t next = Section::inwards(rim, 1);
  double force = force_on_root(section, rim, contact_.pressure());
  if (pressure(edge) > 0.0) {
    const double apart = rim.across * std::abs(section.x(next) - section.x(edge));
    const double slope = pressure(next) > 0.0 ? (belt(next) - belt(edge)) / apart : 0.0;
    const int outwards = pushed_beyond(rim, abrasion_.drag) ? +1 : -1;
    const double to_line = 0.5 * rim.across * section.width(edge);
    force += press_lip(section, rim,
                       {.belt = belt(edge) + worn(edge) - slope * to_line,
                        .slope = slope,
                        .sinks = worn(edge),
                        .give = give,
                        .wear = worn(edge) / pressure(edge),
                        .friction = outwards * rim.across * abrasion_.friction,
                        .grain_spacing = abrasion_.grain_spacing},
                       face.removed);
  }
  // What a burr bears once it has folded is the edge's, not what folded it.
  if (!rim.folded_here) rim.peak_force = std::max(rim.peak_force, force);
}

void EdgePass::watch(Section& section, const PlainFace& face) {
  for (std::size_t r = 0; r < section.rims.size(); ++r) {
    SectionRim& rim = section.rims[r];
    for (std::size_t i = 0; i < std::max<std::size_t>(rim.reach, 1); ++i) {
      rim.peak_pressure =
          std::max(rim.peak_pressure,
                   contact_.pressure()(static_cast<Eigen::Index>(Section::inwards(rim, i))));
    }
    if (rim.lip && rim.beyond)
      press(section, rim, face);
    else if (rim.reach > 0 && !rim.lip && !rim.broken_off)
      watch_rim(section, rim, asked_[r], face);
  }
}

void EdgePass::take(Section& section) {
  for (const Eigen::Index i : contact_.pressed()) {
    if (contact_.depth()(i) > 0.0)
      take_off(section, static_cast<std::size_t>(i), contact_.depth()(i));
  }
}

void EdgePass::march(Section& section, double interference, const Course& course,
                     const WearingPass& plain, const PlainFace& face) {
  const double a = course.scale;
  const double longest = strides_.longest * a;
  const double shortest = strides_.shortest * a;
  const double allowed = strides_.face_error * plain.removal;
  double stride = strides_.usual * a;
  double last_stride = 0.0;
  for (double axis = course.from; axis - course.to > 1e-9 * a;) {
    stride = std::min(stride, axis - course.to);
    contact_.place(section, interference, axis - 0.5 * stride);
    contact_.guess(last_stride > 0.0 ? 0.5 * (1.0 + stride / last_stride) : 0.0);
    double loss = 0.0;
    for (;;) {
      contact_.solve(section, abrasion_.path_per_feed * stride);
      ++steps_;
      loss = burr_loss(section, stride < 1.01 * strides_.short_idle * a);
      if (stride <= 1.01 * shortest || loss <= 1.0) break;
      stride = std::max(0.5 * stride, shortest);
      contact_.place(section, interference, axis - 0.5 * stride);
    }
    const double error = allowed > 0.0 ? contact_.change() / allowed : 0.0;
    watch(section, face);
    take(section);
    axis -= stride;
    last_stride = stride;
    if (loss < 0.4 && error < 0.4)
      stride = std::min(2.0 * stride, longest);
    else if (error > 1.0 && stride > 1.01 * strides_.usual * a)
      stride = 0.5 * stride;
  }
}

void EdgePass::run(Section& section, double interference, const WearingPass& plain,
                   const PlainFace& face) {
  const double highest = *std::max_element(section.height.begin(), section.height.end());
  if (interference + highest <= 0.0 && plain.removal <= 0.0) return;  // clear of all of it
  const Course course = course_over(section, interference);
  if (course.from <= course.to) return;
  // What stands behind the drum at the start has been worn as a plain face is.
  for (std::size_t i = 0; i < section.size(); ++i)
    take_off(section, i, depth_at(plain, section.x(i) - course.from));
  contact_.clear(section, interference);
  march(section, interference, course, plain, face);
  // What it has not fully passed at the end will be worn so.
  const double passed = course.to + law_.half_width(interference);
  for (std::size_t i = 0; i < section.size(); ++i) {
    if (section.x(i) > passed || section.burr[i] > 0.0) continue;
    section.height[i] = -face.removed - plain.removal;
    section.coating[i] = plain.coating;
    section.top[i] = plain.top;
  }
}

const Eigen::VectorXd& EdgePass::press(const Section& section, double interference, double axis) {
  contact_.clear(section, interference);
  contact_.place(section, interference, axis);
  contact_.solve(section, 0.0);
  return contact_.pressure();
}

}  // namespace drumlin::sim::fast
