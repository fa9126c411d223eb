#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// What a lesson page is made from: one belt over one burr and the face beside it, worked out by
/// the fast model at every step of a few sliders.
namespace drumlin::sim {

/// One slider: its steps, rising, and the one at which the case stands.
struct LessonAxis {
  std::string name;
  std::string unit;
  std::vector<double> level;  ///< in `unit`
  std::vector<std::string> label;
  std::size_t own = 0;
  /// Whether the case itself stands at `own`; else that is the step nearest to it.
  bool exact = true;
};

/// What is known at each step, in the units in which it is shown.
enum class LessonValue : std::uint8_t {
  line_load,      ///< [N/mm] static, plain unworn face
  working_load,   ///< [N/mm] while the face wears
  load_slope,     ///< [N/mm] line load per 0.1 mm, static
  half_width,     ///< [mm] static
  depth,          ///< [mm] interference that the nip has, growth and give counted
  face_pressure,  ///< [MPa] highest on the plain face, static
  burr_pressure,  ///< [MPa] highest at the edge, over the pass
  removal,        ///< [um] from the face
  coating_left,   ///< [um] on the face
  burr_left,      ///< [mm] above the worn face; negative: worn below it
  lip,            ///< [um] folded burr beyond the edge
  edge_drop,      ///< [um] below the worn face at the edge line
  power,          ///< [W/mm]
  face_heat,      ///< [degC] hottest place of the face
};
inline constexpr std::size_t lesson_values = 14;

/// Why a step is not to be trusted, or not there; `lesson_warnings` says it in words.
namespace lesson_flag {
inline constexpr unsigned refused = 1;          ///< faster than waves run in the cover
inline constexpr unsigned over_rating = 2;      ///< above the speed marked on belt or drum
inline constexpr unsigned capped = 4;           ///< above 0.9 of the critical speed
inline constexpr unsigned clear = 8;            ///< the drum does not reach the face
inline constexpr unsigned too_deep = 16;        ///< deeper than a fifth of the cover
inline constexpr unsigned unsolved = 32;        ///< no answer, such as a load no cover carries
inline constexpr unsigned too_much = 64;        ///< half of the sheet or more is gone
inline constexpr unsigned near_critical = 128;  ///< above 0.7 of the critical speed
inline constexpr unsigned slack = 256;          ///< more than half of the belt's tension is gone
inline constexpr unsigned wearing = 512;        ///< wear takes over a third of the interference
/// With one of these no number is shown.
inline constexpr unsigned hides = 127;
}  // namespace lesson_flag

struct LessonWarning {
  unsigned flag = 0;
  std::string text;
};

/// What became of the burr, by index into `lesson_outcomes`; 0: no burr.
inline constexpr std::array<const char*, 7> lesson_outcomes{
    "",           "ground off", "stands", "folded beyond the edge", "folded onto the face",
    "broken off", "untouched"};

struct LessonStep {
  std::array<std::optional<double>, lesson_values> value;
  unsigned flags = 0;
  unsigned outcome = 0;

  [[nodiscard]] const std::optional<double>& of(LessonValue which) const {
    return value[static_cast<std::size_t>(which)];
  }
  [[nodiscard]] bool shown() const { return (flags & lesson_flag::hides) == 0; }
};

/// Places of a step among the sliders.
struct LessonPlace {
  std::size_t cover = 0, speed = 0, tension = 0, feed = 0;
  bool by_load = false;       ///< set by line load instead of by interference
  std::size_t setting = 0;    ///< on the slider in use
  std::size_t thickness = 0;  ///< of the sheet
};

/// Pressure over the nip from its middle to its end, over its highest [-].
inline constexpr std::size_t lesson_shape_points = 16;
using LessonShape = std::array<double, lesson_shape_points>;

struct Lesson {
  LessonAxis cover;      ///< hardness; its last figure is the stiffest
  LessonAxis speed;      ///< [m/s]
  LessonAxis tension;    ///< [N/mm]
  LessonAxis feed;       ///< [m/min]
  LessonAxis depth;      ///< [mm] interference as set
  LessonAxis load;       ///< [N/mm] working line load as set
  LessonAxis thickness;  ///< [mm] of the sheet over its nominal; arrives as interference
  bool by_load = false;  ///< how the case is set

  /// First those set by interference: covers, speeds, tensions, feeds, and of each every
  /// interference that setting and thickness add up to. Then those set by line load, at the case's
  /// own tension alone: covers, speeds, feeds, line loads, thicknesses.
  std::vector<LessonStep> steps;
  /// Per cover, speed, tension and interference.
  std::vector<LessonShape> shapes;

  std::string station;  ///< description of the belt station
  std::size_t station_index = 0;
  std::size_t stations_left_out = 0;
  bool one_pass_of_several = false;
  double drum_radius = 0;      ///< [mm]
  double cover_thickness = 0;  ///< [mm]
  double part_thickness = 0;   ///< [mm]
  std::string material;
  std::string coating;           ///< name; empty: none
  double coating_thickness = 0;  ///< [um]
  std::string burr;              ///< name and kind of the burr watched; empty: none
  double burr_height = 0;        ///< [mm]
  double burr_root = 0;          ///< [mm]
  std::string removal_law;       ///< in words
  /// Whether removal goes with pressure in a straight line from zero, so that hardness cancels at a
  /// line load.
  bool straight_law = false;
  std::vector<LessonWarning> warnings;
  std::size_t computed = 0;  ///< steps that were solved
  std::size_t hidden = 0;    ///< steps that show a warning in place of numbers

  /// Interferences per thickness step: setting + thickness on one grid.
  [[nodiscard]] std::size_t depths() const {
    return depth.level.size() + thickness.level.size() - 1;
  }
  /// Steps set by interference.
  [[nodiscard]] std::size_t by_depth() const {
    return cover.level.size() * speed.level.size() * tension.level.size() * feed.level.size() *
           depths();
  }
  /// Steps in all.
  [[nodiscard]] std::size_t size() const {
    return by_depth() + cover.level.size() * speed.level.size() * feed.level.size() *
                            load.level.size() * thickness.level.size();
  }
  /// Place among `steps`; a step set by line load takes no notice of the tension.
  [[nodiscard]] std::size_t index(const LessonPlace& at) const {
    const std::size_t drum = at.cover * speed.level.size() + at.speed;
    if (!at.by_load)
      return ((drum * tension.level.size() + at.tension) * feed.level.size() + at.feed) * depths() +
             at.setting + at.thickness;
    return by_depth() +
           ((drum * feed.level.size() + at.feed) * load.level.size() + at.setting) *
               thickness.level.size() +
           at.thickness;
  }
  /// Place among `shapes`.
  [[nodiscard]] std::size_t shape_index(const LessonPlace& at, std::size_t deep) const {
    return ((at.cover * speed.level.size() + at.speed) * tension.level.size() + at.tension) *
               depths() +
           deep;
  }
  [[nodiscard]] const LessonStep& at(const LessonPlace& place) const { return steps[index(place)]; }
  /// Where the case stands.
  [[nodiscard]] LessonPlace own() const {
    return {cover.own,    speed.own, tension.own, feed.own, by_load, by_load ? load.own : depth.own,
            thickness.own};
  }
};

}  // namespace drumlin::sim
