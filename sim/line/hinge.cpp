#include "sim/line/hinge.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "sim/line/surface.hpp"

namespace drumlin::sim::line {
namespace {

/// A lip thinner than this at its hinge, over its first thickness, no longer holds [-].
constexpr double holds_from = 0.05;
/// Metal thinner than this is gone [mm]: a tenth of a micrometre is less than any grain leaves.
constexpr double gone_below = 1e-4;

/// Highest burr metal over the footprint, above what it stands on [mm].
double standing_height(const Strip& strip, const StripEdge& edge) {
  double highest = 0.0;
  for (std::size_t i = 0; i < edge.reach; ++i)
    highest = std::max(highest, strip.burr[Strip::inward(edge, i)]);
  return highest;
}

/// Height of the plain face before a pass [mm]: of the column farthest from the edge that is fully
/// worn.
double face_level(const Strip& strip, const StripEdge& edge) {
  std::size_t in = 0;
  while (true) {
    if (edge.metal < 0 && edge.cell <= in) break;
    const std::size_t next = Strip::inward(edge, in + 1);
    if (next >= strip.size() || strip.metal[next] == 0) break;
    if (std::abs(strip.x(next) - strip.line(edge)) > readable) break;
    ++in;
  }
  return strip.height[Strip::inward(edge, in)];
}

/// Makes a cell over an opening one of a lip: burr metal and nothing else.
void hang(Strip& strip, std::size_t cell) {
  strip.metal[cell] = strip.lip[cell] = 1;
  strip.top[cell] = strip.coating[cell] = 0.0;
}

/// Share of the lip's thickness that wear has left, along the lip from its hinge to its tip: told
/// by the cells over the opening.
class WornLip {
 public:
  WornLip(const Strip& strip, const StripEdge& edge, const models::Lip& lip, std::size_t cells)
      : sine_(std::sin(lip.turn)) {
    for (std::size_t i = 0; i < cells; ++i) {
      const std::size_t cell = Strip::beyond(edge, i);
      const double out =
          std::abs(strip.x(cell) - strip.line(edge)) / edge.stretch + 0.5 * lip.thickness;
      const double whole = edge.lip_share * models::upright_thickness(lip, out);
      along_.push_back(out / std::max(sine_, 1e-3));
      left_.push_back(whole > 0.0 ? std::min(strip.burr[cell] / whole, 1.0) : 1.0);
    }
  }
  /// Share left at a distance along the lip [-].
  [[nodiscard]] double left(double along) const noexcept {
    if (left_.empty() || sine_ < 0.3) return 1.0;
    const auto next = std::lower_bound(along_.begin(), along_.end(), along);
    if (next == along_.begin()) return left_.front();
    if (next == along_.end()) return left_.back();
    const auto k = static_cast<std::size_t>(next - along_.begin());
    const double share = (along - along_[k - 1]) / (along_[k] - along_[k - 1]);
    return left_[k - 1] + share * (left_[k] - left_[k - 1]);
  }

 private:
  double sine_;
  std::vector<double> along_, left_;
};

}  // namespace

Hinge::Hinge(const BeltSetup& station, Strip& strip, std::size_t edge)
    : Hinge(station.with_feed ? +1 : -1, strip, edge) {
  friction_ = station.friction / strip.edges[edge].stretch;
  grain_spacing_ = station.grain_spacing;
}

Hinge::Hinge(int drag, Strip& strip, std::size_t edge)
    : strip_(&strip), edge_(edge), drag_(drag), face_(face_level(strip, strip.edges[edge])) {}

bool Hinge::bends() const noexcept {
  const StripEdge& e = edge();
  if (models::flow_stress_of(e.burr) <= 0.0 || e.laid > 0) return false;
  return e.lip.has_value() || (!e.fold_start && e.reach > 0);
}

bool Hinge::falls_outward() const noexcept {
  return edge().lip.has_value() || drag_ == -edge().metal;
}

double Hinge::turn() const noexcept {
  return edge().lip ? edge().lip->turn : 0.0;
}

std::size_t Hinge::lip_cells() const noexcept {
  return line::lip_cells(*strip_, edge());
}

/// Distance of a cell's middle from the hinge, away from the metal and across the edge [mm].
double Hinge::out(std::size_t cell) const noexcept {
  const StripEdge& e = edge();
  const double from_line = -e.metal * (strip_->x(cell) - strip_->line(e)) / e.stretch;
  const double thickness = e.lip ? e.lip->thickness : std::get<models::WallBurr>(e.burr).root;
  return from_line + 0.5 * thickness;
}

/// Where the burr bends first; a lip at its hinge, as far as wear has left that.
models::WeakestSection Hinge::section() const noexcept {
  const StripEdge& e = edge();
  if (!e.lip)
    return models::weakest_section(std::get<models::WallBurr>(e.burr), standing_height(*strip_, e));
  return {.height = 0.0, .thickness = foot_share() * models::hinge_thickness(*e.lip)};
}

/// Share of a lip's thickness that wear has left at its foot [-].
double Hinge::foot_share() const noexcept {
  const StripEdge& e = edge();
  const std::size_t foot = Strip::beyond(e, 0);
  if (!e.lip || strip_->lip[foot] == 0) return 1.0;
  const double whole = e.lip_share * models::upright_thickness(*e.lip, out(foot));
  return whole > 0.0 ? std::min(strip_->burr[foot] / whole, 1.0) : 1.0;
}

BurrLoad Hinge::load(std::size_t first, std::span<const double> pressure) const {
  const StripEdge& e = edge();
  const double base = strip_->height[e.cell] - strip_->burr[e.cell];
  const int away = falls_outward() ? +1 : -1;  // of the fall, from the metal
  const models::WeakestSection weakest = section();
  // What stands is held by its root, what lies over the opening by the edge of the sheet: on the
  // way down the fulcrum moves from the one to the other, and the sheet takes over what presses on
  // its own side of it.
  const double lies = e.lip ? std::sin(std::min(e.lip->turn, 0.5 * std::numbers::pi)) : 0.0;
  const double fulcrum = e.lip ? 0.5 * e.lip->thickness * lies : 0.0;
  const double upright = std::sqrt(std::max(1.0 - lies * lies, 0.0));
  // A lip is dragged outwards only while the belt runs that way.
  const double friction = drag_ * -e.metal == away ? friction_ : -friction_;
  BurrLoad load;
  double even = 0.0;  // moment of the force spread evenly
  double arm = 0.0;
  double width = 0.0;
  const auto add = [&](std::size_t cell) {
    if (cell < first || cell >= first + pressure.size() || strip_->burr[cell] <= 0.0) return;
    const double up = std::max(strip_->height[cell] - base - weakest.height, 0.0);
    const double over = away * out(cell) - fulcrum;
    const double carried = over < 0.0 ? upright : 1.0;
    const double across = carried * strip_->width(cell) / e.stretch;
    const double force = pressure[cell - first] * across;
    if (force <= 0.0) return;
    load.normal += force;
    even += force * (friction * up + over);
    arm += force * std::hypot(up, over);
    width += across;
  };
  for (std::size_t i = 0; i < e.reach; ++i)
    add(Strip::inward(e, i));
  for (std::size_t i = 0; i < lip_cells(); ++i)
    add(Strip::beyond(e, i));
  load.limit = models::plastic_moment(models::flow_stress_of(e.burr), weakest.thickness);
  if (load.normal <= 0.0) return load;
  load.moment = even * models::grain_concentration(grain_spacing_, arm / load.normal, width,
                                                   weakest.thickness);
  return load;
}

double Hinge::burr_area() const noexcept {
  const StripEdge& e = edge();
  double area = 0.0;
  for (std::size_t i = 0; i < e.reach; ++i) {
    const std::size_t cell = Strip::inward(e, i);
    area += strip_->burr[cell] * strip_->width(cell) / e.stretch;
  }
  for (std::size_t i = 0; i < lip_cells(); ++i) {
    const std::size_t cell = Strip::beyond(e, i);
    area += strip_->burr[cell] * strip_->width(cell) / e.stretch;
  }
  return area;
}

void Hinge::lay_on_face() {
  StripEdge& e = edge();
  const double length = standing_height(*strip_, e);
  const double area = burr_area();
  if (length <= 0.0 || area <= 0.0) return;
  const double thickness = area / length;
  const double base = strip_->height[e.cell] - strip_->burr[e.cell];
  e.fold_start = base + length - face_;
  e.fold_stop = base + thickness - face_;
  for (std::size_t i = 0; i < e.reach; ++i) {
    const std::size_t cell = Strip::inward(e, i);
    strip_->height[cell] -= strip_->burr[cell];
    strip_->burr[cell] = 0.0;
  }
  // From the edge line inwards, until the metal is used up.
  double left = area * e.stretch;
  e.laid = 0;
  while (left > 0.0) {
    const std::size_t cell = Strip::inward(e, e.laid++);
    const double depth = std::min(thickness, left / strip_->width(cell));
    strip_->burr[cell] = depth;
    strip_->height[cell] += depth;
    left -= depth * strip_->width(cell);
    if (depth < thickness) break;
  }
}

void Hinge::stand_up_as_lip() {
  StripEdge& e = edge();
  models::Lip lip = standing_plate(*strip_, e);
  e.fold_start = strip_->height[e.cell] - strip_->burr[e.cell] + lip.length - face_;
  lip.hinge = section().thickness;
  e.lip = lip;
}

void Hinge::turn_to(double angle) {
  StripEdge& e = edge();
  const double area = burr_area();
  if (!e.lip) stand_up_as_lip();
  models::Lip& lip = *e.lip;
  const std::size_t before = lip_cells();
  const WornLip worn(*strip_, e, lip, before);
  const models::Lip old = lip;
  lip.turn = angle;
  const double sine = std::sin(angle);
  double inside = 0.0;
  double highest = 0.0;
  for (std::size_t i = 0; i < e.reach; ++i) {
    const std::size_t cell = Strip::inward(e, i);
    const double base = strip_->height[cell] - strip_->burr[cell];
    // What wear took off the part over the metal stays off.
    const double ground = before == 0 && old.turn == 0.0
                              ? 0.0
                              : std::max(models::top(old, out(cell)), 0.0) - strip_->burr[cell];
    const double burr = std::max(models::top(lip, out(cell)) - std::max(ground, 0.0), 0.0);
    strip_->burr[cell] = burr;
    strip_->height[cell] = base + burr;
    inside += burr * strip_->width(cell) / e.stretch;
    highest = std::max(highest, burr);
  }
  const double base = strip_->height[e.cell] - strip_->burr[e.cell];
  for (std::size_t i = 0; i < before; ++i)
    clear_cell(*strip_, Strip::beyond(e, i));
  double outside = 0.0;
  std::size_t count = 0;
  for (;; ++count) {
    const std::size_t cell = Strip::beyond(e, count);
    // The last cell may be covered in part: its middle must be.
    if (strip_->metal[cell] != 0 || out(cell) > models::reach(lip)) break;
    const double whole = models::upright_thickness(lip, out(cell));
    const double left = worn.left(out(cell) / std::max(sine, 1e-3));
    hang(*strip_, cell);
    strip_->burr[cell] = left * whole;
    strip_->height[cell] = base + models::top(lip, out(cell)) - (1.0 - left) * whole;
    outside += strip_->burr[cell] * strip_->width(cell) / e.stretch;
    highest = std::max(highest, strip_->height[cell] - base);
  }
  // No metal comes or goes by bending.
  const double share = outside > 0.0 ? std::max(area - inside, 0.0) / outside : 0.0;
  for (std::size_t i = 0; i < count; ++i)
    strip_->burr[Strip::beyond(e, i)] *= share;
  e.lip_share = share > 0.0 ? share : 1.0;
  e.fold_stop = base + highest - face_;
}

void Hinge::clean_up() {
  StripEdge& e = edge();
  if (!e.lip) return;
  const std::size_t count = lip_cells();
  if (count == 0) return;
  const bool holds = foot_share() > holds_from;
  // Ground through somewhere, the rest of it falls.
  bool whole = holds;
  std::size_t left = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t cell = Strip::beyond(e, i);
    whole = whole && strip_->burr[cell] > gone_below;
    if (whole)
      ++left;
    else
      clear_cell(*strip_, cell);
  }
  if (left == 0) e.lip.reset();
}

models::Lip standing_plate(const Strip& strip, const StripEdge& edge) {
  const double length = standing_height(strip, edge);
  double area = 0.0;
  for (std::size_t i = 0; i < edge.reach; ++i) {
    const std::size_t cell = Strip::inward(edge, i);
    area += strip.burr[cell] * strip.width(cell) / edge.stretch;
  }
  return {.length = length, .thickness = length > 0.0 ? area / length : 0.0};
}

void lay_rolled_burr(Strip& strip, StripEdge& edge, const models::RolledBurr& burr) {
  edge.lip = models::flat_lip(burr.overhang, burr.thickness);
  double left = burr.overhang * edge.stretch;
  for (std::size_t i = 0; left > 0.0; ++i) {
    const std::size_t cell = Strip::beyond(edge, i);
    if (strip.metal[cell] != 0) break;
    hang(strip, cell);
    strip.burr[cell] = burr.thickness * std::min(left / strip.width(cell), 1.0);
    strip.height[cell] = 0.5 * burr.thickness;
    left -= strip.width(cell);
  }
}

}  // namespace drumlin::sim::line
