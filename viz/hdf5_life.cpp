#include "viz/hdf5_life.hpp"

#include <limits>

#include <fmt/format.h>

#include "viz/quantities.hpp"

namespace drumlin::viz {
namespace {

void write_belt(const H5Group& group, const sim::BeltLife& belt) {
  const auto scalar = [&](const char* key, const sim::Quantity& quantity, const Scale& scale,
                          const char* unit, const char* meaning) {
    if (!quantity) return;
    const auto scaled = [&](std::optional<double> inner) {
      return inner ? std::optional<double>(scale(*inner)) : std::nullopt;
    };
    group.scalar(key, scale(quantity->value), {unit, meaning}, scaled(quantity->low),
                 scaled(quantity->high));
  };
  group.attribute("station", belt.station);
  group.attribute("origin", belt.origin);
  scalar("parts", belt.parts, as_is, "1", "parts until the belt's end of life");
  scalar("running_h", belt.time, s_to_h, "h", "running until then");
  scalar("sheet_m", belt.length, mm_to_m, "m", "sheet past each place of the belt until then");
  group.scalar("worn_share", belt.worn_share,
               {"1", "removal coefficient at the end over the fresh one"});
}

/// A value of every point; not a number where a point has none.
template <class Get>
std::vector<double> over_points(const sim::LifeStudy& study, const Scale& scale, const Get& get) {
  std::vector<double> values;
  for (const sim::LifePoint& point : study.points) {
    const sim::Quantity quantity = get(point);
    values.push_back(quantity ? scale(quantity->value) : std::numeric_limits<double>::quiet_NaN());
  }
  return values;
}

}  // namespace

void write_life(const H5Group& group, const sim::LifeStudy& study) {
  group.attribute("model", study.model);
  const H5Group belts = group.group("belts");
  for (std::size_t i = 0; i < study.belts.size(); ++i)
    write_belt(belts.group(fmt::format("{}", i)), study.belts[i]);
  const H5Group points = group.group("points");
  const auto plain = [](double value) { return sim::Quantity(sim::Banded{value, {}, {}}); };
  points.array("parts", over_points(study, as_is, [&](const auto& p) { return plain(p.parts); }),
               {"1", "parts that have gone through"});
  points.array("power_W_per_mm",
               over_points(study, mw_to_w, [&](const auto& p) { return plain(p.power); }),
               {"W/mm", "power of all stations per width"});
  points.array("accepted",
               over_points(study, as_is,
                           [&](const auto& p) { return plain(p.verdict.accepted ? 1.0 : 0.0); }),
               {"1", "1: accepted; 0: not"});
  for (const auto& key : face_quantities) {
    const auto values =
        over_points(study, key.scale, [&](const auto& p) { return p.part.face.*key.member; });
    points.array(std::string(key.key), values, {key.unit, key.meaning});
  }
  if (study.lost_after) {
    group.scalar("limit_lost_after_parts", study.lost_after->value,
                 {"1", "parts after which the first limit is lost"}, study.lost_after->low,
                 study.lost_after->high);
    group.attribute("limit_lost", study.lost);
  }
  if (study.feed_for_equal_removal)
    group.scalar("feed_for_equal_removal_m_per_min",
                 mm_per_s_to_m_per_min(*study.feed_for_equal_removal),
                 {"m/min", "feed at which worn belts take off the face what fresh ones do"});
}

}  // namespace drumlin::viz
