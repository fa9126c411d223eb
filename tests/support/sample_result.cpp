#include "tests/support/sample_result.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

namespace drumlin::support {
namespace {

constexpr double no_metal = std::numeric_limits<double>::quiet_NaN();
constexpr double zero_celsius = 273.15;

sim::Quantity banded(double value, double low_factor, double high_factor) {
  return sim::Banded{value, value * low_factor, value * high_factor};
}

/// The section through the hole, with all that depends on how far the pass has come.
class HoleSection {
 public:
  explicit HoleSection(const Sample& sample)
      : s_(sample), x_(sample_points(sample)), rim_(sample.hole / 2) {}

  [[nodiscard]] sim::SectionRecord record() const {
    sim::SectionRecord section;
    section.name = "hole-6";
    section.part_thickness = 1.5;
    section.edges = {{"hole-6:leading", -rim_, -1, 0, 0, "none"},
                     {"hole-6:trailing", rim_, 1, s_.burr_root, s_.burr_height, "wall"}};
    section.x = x_;
    section.face_removal = s_.removal;
    for (const double x : x_) {
      section.before.push_back(surface(x, 1e9));
      section.before_coating.push_back(coating(x, 1e9));
      section.after.push_back(surface(x, -1e9));
      section.after_coating.push_back(coating(x, -1e9));
    }
    double highest = 0;
    for (int k = 0; k < s_.frames; ++k) {
      const double travel = (rim_ + 14) * 2 * k / (s_.frames - 1);
      const double drum = rim_ + 14 - travel;
      section.frames.push_back(frame(k, drum));
      section.history.push_back(step(drum));
      if (section.history.back().edge_pressure > highest) {
        highest = section.history.back().edge_pressure;
        section.telling_frame = k;
      }
    }
    return section;
  }

 private:
  /// Share of the pass that is over at x when the drum's axis is at `drum` [0..1].
  [[nodiscard]] double progress(double x, double drum) const {
    return std::clamp((x + s_.half_width - drum) / (2 * s_.half_width), 0.0, 1.0);
  }
  [[nodiscard]] bool is_metal(double x) const { return std::abs(x) >= rim_; }
  [[nodiscard]] double burr(double x, double drum) const {
    if (x < rim_ || x > rim_ + s_.burr_root) return 0;
    const double p = progress(x, drum);
    return s_.burr_height * std::max(0.0, 1 - 1.6 * p);
  }
  [[nodiscard]] double loss(double x, double drum) const {
    const double from_edge = std::abs(x) - rim_;
    const double p = progress(x, drum);
    const double late = std::max(0.0, (p - 0.3) / 0.7);
    return s_.removal * p + s_.edge_drop * late * std::exp(-from_edge / s_.drop_reach);
  }
  [[nodiscard]] double surface(double x, double drum) const {
    return is_metal(x) ? burr(x, drum) - loss(x, drum) : no_metal;
  }
  [[nodiscard]] double coating(double x, double drum) const {
    if (!is_metal(x)) return no_metal;
    if (x <= rim_ + s_.burr_root && x > 0) return 0;
    return std::max(0.0, s_.coating - loss(x, drum));
  }
  [[nodiscard]] double nip(double u) const {
    return std::abs(u) < s_.half_width ? 1 - u * u / (s_.half_width * s_.half_width) : 0;
  }
  [[nodiscard]] double pressure(double x, double drum) const {
    if (!is_metal(x)) return 0;
    const double base = s_.face_pressure * nip(x - drum);
    if (x > 0 && x <= rim_ + s_.burr_root)
      return base + s_.burr_pressure * nip(x - drum) * burr(x, drum) / s_.burr_height;
    // Beside the burr the belt is lifted off the face.
    const double shadow = x > 0 ? std::min(1.0, lift(x, drum) / 0.01) : 0;
    return base * (1 - shadow) * (1 + 0.8 * std::exp(-(std::abs(x) - rim_) / 0.3));
  }
  [[nodiscard]] double lift(double x, double drum) const {
    return burr(rim_, drum) * std::exp(-std::abs(x - rim_) / 0.6);
  }
  [[nodiscard]] double belt(double x, double drum) const {
    const double u = x - drum;
    const double free = u * u / (2 * s_.radius) - s_.interference;
    if (std::abs(u) > 1.6 * s_.half_width) return no_metal;
    if (is_metal(x)) return std::max({surface(x, drum), lift(x, drum), free});
    const double sag = 0.25 * (1 - x * x / (rim_ * rim_)) * nip(u);
    return std::max(free, lift(x, drum) - sag);
  }
  [[nodiscard]] sim::Frame frame(int k, double drum) const {
    sim::Frame f;
    f.step = k * 6;
    f.drum_x = drum;
    f.line_load = s_.line_load * (1 - 0.3 * nip(drum));
    for (const double x : x_) {
      f.surface.push_back(surface(x, drum));
      f.coating.push_back(coating(x, drum));
      f.burr.push_back(is_metal(x) ? burr(x, drum) : no_metal);
      f.pressure.push_back(pressure(x, drum));
      f.belt.push_back(belt(x, drum));
    }
    return f;
  }
  [[nodiscard]] sim::StepRecord step(double drum) const {
    sim::StepRecord r;
    r.drum_x = drum;
    r.line_load = s_.line_load * (1 - 0.3 * nip(drum));
    for (const double x : x_) {
      double& highest = std::abs(std::abs(x) - rim_) < 1 ? r.edge_pressure : r.face_pressure;
      highest = std::max(highest, pressure(x, drum));
    }
    r.iterations = 12;
    r.applications = 31;
    r.residual = 1e-8;
    return r;
  }

  Sample s_;
  std::vector<double> x_;
  double rim_;
};

/// Coating beside the burr's root, least [mm].
double coating_near_edge(const Sample& s) {
  return s.coating - s.removal - s.edge_drop * std::exp(-s.burr_root / s.drop_reach);
}

double highest_edge_pressure(const Sample& s) {
  double highest = 0;
  for (const sim::StepRecord& step : HoleSection(s).record().history)
    highest = std::max(highest, step.edge_pressure);
  return highest;
}

/// Coating from the edge inwards: none on the burr's root, then more and more.
sim::CoatingProfile coating_profile(const Sample& s) {
  sim::CoatingProfile profile;
  for (int i = 0; i < 200; ++i) {
    const double arc = 0.025 + 0.05 * i;
    profile.arc.push_back(arc);
    const double lost = s.removal + s.edge_drop * std::exp(-arc / s.drop_reach);
    profile.left.push_back(arc < s.burr_root ? 0.0 : std::max(s.coating - lost, 0.0));
  }
  return profile;
}

sim::PartState part_after(const Sample& s) {
  sim::PartState part;
  part.face.removal = banded(s.removal, 0.5, 1.8);
  part.face.coating_left = banded(s.coating - s.removal, 0.1, 1.7);
  part.face.coating_left_fraction = banded((s.coating - s.removal) / s.coating, 0.1, 1.7);
  sim::FeatureResult trailing;
  trailing.name = "hole-6:trailing";
  trailing.feature = "hole-6";
  trailing.kind = "hole";
  trailing.side = "trailing";
  trailing.burr = "wall";
  trailing.section = "hole-6";
  trailing.burr_height = banded(-s.edge_drop * std::exp(-s.burr_root / s.drop_reach), 1.4, 0.6);
  trailing.edge_radius = banded(0.12, 0.7, 1.4);
  trailing.edge_radius_fit = sim::Banded{0.004, {}, {}};
  trailing.edge_drop = banded(s.edge_drop, 0.6, 1.5);
  trailing.peak_pressure = banded(highest_edge_pressure(s), 0.6, 1.6);
  trailing.peak_line_force = banded(highest_edge_pressure(s) * s.burr_root, 0.6, 1.6);
  trailing.coating_left = banded(coating_near_edge(s), 0.1, 3);
  trailing.bare_length = banded(s.burr_root, 1, 1.5);
  trailing.coating = coating_profile(s);
  trailing.coating_beyond = {{2.0, banded(s.coating - s.removal, 0.1, 1.7)}};
  trailing.outcome = "ground off";
  trailing.fed_as = "trailing";
  sim::FeatureResult leading = trailing;
  leading.name = "hole-6:leading";
  leading.side = "leading";
  leading.burr = "none";
  leading.outcome.clear();
  leading.fed_as = "leading";
  leading.burr_height.reset();
  leading.peak_line_force.reset();
  leading.peak_pressure = banded(0.18, 0.6, 1.6);
  leading.note = "no burr given on this rim";
  part.features = {leading, trailing};
  return part;
}

sim::StationResult station_of(const Sample& s) {
  sim::StationResult station;
  station.kind = "belt";
  station.description = "20 Shore A cover of 15 mm on a 100 mm drum, P120, 0.5 mm in, 8 m/s";
  station.line_load = banded(s.line_load, 0.7, 1.3);
  station.interference = sim::Banded{s.interference, {}, {}};
  station.half_width = banded(s.half_width, 0.95, 1.05);
  station.peak_pressure = banded(s.face_pressure, 0.7, 1.4);
  station.line_load_slope = banded(3.0, 0.7, 1.3);
  station.working_line_load = banded(0.98, 0.7, 1.3);
  station.power = banded(3200, 0.5, 2);
  station.speed_ratio = banded(0.53, 0.9, 1.1);
  station.critical_speed = banded(15100, 0.85, 1.4);
  station.dynamic_stiffening = banded(1.5, 0.8, 1.2);
  station.effective_interference = banded(0.52, 0.9, 1.2);
  station.cover_growth = banded(0.02, 0.5, 6);
  station.belt_tension_at_speed = banded(1.94, 0.97, 1.01);
  station.lean = banded(0.31, 0.5, 2);
  station.rolling_loss = banded(410, 0.5, 2);
  station.cover_heating_rate = banded(0.0225, 0.5, 2);
  station.cover_heating = banded(13, 0.5, 2.5);
  station.ripple_pitch = sim::Banded{2.09, {}, {}};
  station.after = part_after(s);
  return station;
}

/// Pressure that rises a little with the rate and falls towards the critical speed.
sim::SpeedCurve speed_curve(const char* cover, double face, double burr, double critical) {
  sim::SpeedCurve curve{cover, {}, {}, {}, critical};
  for (int k = 0; k <= 60; ++k) {
    const double speed = 1000 + 300 * k;
    if (speed > 0.95 * critical) break;
    const double share = speed / critical;
    const double change = std::pow(speed / 1000, 0.09) * std::sqrt(1 - share * share);
    curve.speed.push_back(speed);
    curve.face_pressure.push_back(face * change);
    curve.burr_pressure.push_back(burr * std::sqrt(change));
  }
  return curve;
}

sim::SpeedStudy speed_study() {
  sim::SpeedStudy study{"0.5 mm interference", "hole-6:trailing, 0.15 mm high", "fast", 8000, {}};
  study.curves = {speed_curve("20 Shore A", 0.11, 2.2, 15100),
                  speed_curve("40 Shore A", 0.22, 2.9, 23000),
                  speed_curve("60 Shore A", 0.42, 3.7, 34000)};
  return study;
}

/// A map on which thin roots fold, thick ones stand, and what lies between is cut.
sim::FoldMap fold_map() {
  sim::FoldMap map;
  map.station = "20 Shore A cover";
  map.edge = "hole-6:trailing";
  map.model = "fast";
  map.height = {0.05, 0.1, 0.2};
  map.root = {0.01, 0.02, 0.04, 0.08, 0.16};
  map.case_height = 0.1;
  map.case_root = 0.08;
  for (const double height : map.height) {
    for (const double root : map.root) {
      const bool folds = root < 0.3 * height;
      const bool stands = !folds && root * height > 0.01;
      map.outcome.push_back(folds    ? sim::FoldMap::Outcome::folds
                            : stands ? sim::FoldMap::Outcome::stands
                                     : sim::FoldMap::Outcome::ground_off);
      map.burr_left.push_back(stands ? 0.5 * height : -0.02);
      map.secondary_burr.push_back(folds ? height - 0.5 * root : 0.0);
    }
  }
  return map;
}

sim::InterferenceStudy interference_study(const Sample& s) {
  sim::InterferenceStudy study;
  study.model = "fast";
  study.removal = s.removal;
  study.removal_per_mm = 0.03;
  study.disturbances = {
      {"sheet thickness", "part.thickness_tolerance", true, -0.07, 0.07, s.removal - 0.002,
       s.removal + 0.003, s.coating - s.removal + 0.002, s.coating - s.removal - 0.003, true},
      {"cover wear",
       "station[0].drum.wear",
       false,
       -0.2,
       0.0,
       s.removal - 0.006,
       s.removal,
       s.coating - s.removal + 0.006,
       s.coating - s.removal,
       {}}};
  study.most_less = -0.1;
  study.most_more = 0.15;
  study.limited_less = "hole-6:trailing burr_height";
  study.limited_more = "face coating_left";
  return study;
}

sim::Verdict verdict_of(const Sample& s) {
  sim::Verdict verdict;
  verdict.accepted = false;
  verdict.state = "not accepted";
  verdict.decided_by = "face coating_left";
  const double left = (s.coating - s.removal) * 1e3;
  verdict.items = {{"hole-6:trailing burr_height",
                    "burr_height",
                    "mm",
                    sim::Banded{-0.0247, -0.035, -0.015},
                    {},
                    0.03,
                    "<= 0.03 mm",
                    0.0547,
                    true},
                   {"face coating_left",
                    "coating_left",
                    "um",
                    sim::Banded{left, left * 0.1, left * 1.7},
                    12,
                    {},
                    ">= 12 um",
                    left - 12,
                    false},
                   {"face temperature", "temperature", "degC", {}, {}, 120, "<= 120 degC", {}, {}}};
  return verdict;
}

}  // namespace

std::vector<double> sample_points(const Sample& sample) {
  const double rim = sample.hole / 2;
  std::vector<double> points;
  const auto add_with_mirror = [&points](double x) {
    points.push_back(x);
    points.push_back(-x);
  };
  for (double step = 0.004, x = rim; x < 40; x += step, step = std::min(0.25, step * 1.013))
    add_with_mirror(x);
  for (double step = 0.004, x = rim - step; x > 0; x -= step, step = std::min(0.1, step * 1.03))
    add_with_mirror(x);
  std::sort(points.begin(), points.end());
  return points;
}

namespace {

sim::LineEconomy line_economy() {
  sim::StationEconomy station;
  station.kind = "belt";
  station.direction = "with-feed";
  station.covered_width = 900;
  station.belt_area = 2.6e6;
  station.power = sim::Banded{4.5e6, 3.1e6, 6.2e6};
  station.grip_margin = sim::Banded{1.4, 0.8, 2.0};
  station.smallest_length = sim::Banded{0, 0, {}};
  sim::LineEconomy line;
  line.lanes = 3;
  line.throughput = 1600.0 / 3600;
  line.part_speed = 400 * line.throughput;
  line.grip_friction = 0.6;
  line.bed_pressure = 1.2e-4;
  line.part_length = 400;
  line.power = station.power;
  line.mean_power = sim::Banded{4e6, 2.8e6, 5.5e6};
  line.energy = sim::Banded{9e6, 6.3e6, 12e6};
  line.stations = {station};
  line.cost = sim::CostPerPart{.currency = "EUR",
                               .items = {{"time", sim::Banded{0.05625, {}, {}}, "90 EUR an hour"}},
                               .sum = sim::Banded{0.05625, {}, {}},
                               .per_length = sim::Banded{0.05625 / 400, {}, {}},
                               .savings = {{"20 % more parts per hour", 0.009375}}};
  line.missing = {"power: give cost.power"};
  line.notes = {"a rigid flat part"};
  return line;
}

sim::WetDryStudy wet_dry() {
  sim::CoolingColumn dry;
  dry.cooling = "dry";
  dry.friction = 0.4;
  dry.grip_friction = 0.6;
  dry.removal = 0.004;
  dry.power = 4.5e6;
  dry.cost = 0.05625;
  dry.accepted = true;
  sim::CoolingColumn wet = dry;
  wet.cooling = "wet";
  wet.removal = 0.003;
  return {"fast", "EUR", {dry, wet}, {"drying is not in these numbers"}};
}

}  // namespace

sim::Result sample_result(const Sample& sample) {
  sim::Result result;
  result.title = "Bracket B-117, one soft drum";
  result.model = "line";
  result.options = {"cover_geometry = drum", "cover_motion = moving"};
  result.stations = {station_of(sample)};
  result.part = part_after(sample);
  result.part.face.temperature = sim::Banded{zero_celsius + 48, {}, {}};
  result.verdict = verdict_of(sample);
  result.influences = {{"station[0].drum.hardness", "hardness of the cover", 17, 23, "Shore A",
                        "face removal", 0.0101, 0.0134}};
  result.warnings = {"the thinnest blank loses its coating"};
  result.notes = {"the belt's inertia is left out"};
  result.cautions = {"A process estimate, not a safety assessment."};
  result.samples = {"two blanks of the thickest and two of the thinnest coil"};
  result.unused_keys = {"cost.line_rate: cost is not computed yet"};
  result.defaults = {"conveyor.passes = 1: not given"};
  result.coating = "zinc";
  result.coating_thickness = sample.coating;
  result.part_material = "DX51D";
  result.drums = {{sample.radius, 15, sample.interference, 8000}};
  result.feed = 50;
  result.sections = {HoleSection(sample).record()};
  result.speed_study = speed_study();
  result.interference_study = interference_study(sample);
  result.fold_map = fold_map();
  result.line_economy = line_economy();
  result.wet_dry = wet_dry();
  result.provenance = {"0.1.0",
                       "5f0c1d2e3b4a59687786958493a2b1c0d9e8f7a6b5c4d3e2f1a0b9c8d7e6f504",
                       "bracket.toml",
                       "title = \"Bracket B-117, one soft drum\"\n",
                       7,
                       0.25};
  return result;
}

}  // namespace drumlin::support
