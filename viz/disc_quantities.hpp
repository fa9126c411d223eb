#pragma once

#include <array>
#include <string_view>

#include "sim/disc_result.hpp"

/// How the motion of discs leaves the program: "disc" of a station in summary.json and results.h5.
namespace drumlin::viz {

struct DiscKey {
  std::string_view key;
  std::string_view unit;
  std::string_view meaning;
  double sim::DiscResult::*member;
  double factor;
};

inline constexpr auto disc_quantities = std::to_array<DiscKey>({
    {"tip_speed_m_per_s", "m/s", "mean speed of the tips over the part",
     &sim::DiscResult::tip_speed, 1e-3},
    {"rubbed_path_m", "m", "tip way that passes a place in a pass, mean over the part's width",
     &sim::DiscResult::rubbed_path, 1e-3},
    {"rubbed_path_least_m", "m", "the same where it is least across the part",
     &sim::DiscResult::rubbed_least, 1e-3},
    {"rubbed_path_most_m", "m", "the same where it is most", &sim::DiscResult::rubbed_most, 1e-3},
    {"evenness", "1", "least rubbing over most across the part", &sim::DiscResult::evenness, 1},
    {"along_share", "1", "share of the tips' way that runs along the feed; 2/pi if all ways alike",
     &sim::DiscResult::along_share, 1},
    {"across_share", "1", "share of it that runs across the feed", &sim::DiscResult::across_share,
     1},
    {"reversed_on_ends", "1",
     "share of strikes on edges across the feed that have one from the other side to go with",
     &sim::DiscResult::reversed_on_ends, 1},
    {"reversed_on_sides", "1", "the same on the part's sides", &sim::DiscResult::reversed_on_sides,
     1},
    {"strikes_on_ends_per_mm", "1/mm", "filaments that cross an edge across the feed in a pass",
     &sim::DiscResult::strikes_on_ends, 1},
    {"strikes_on_sides_per_mm", "1/mm", "filaments that cross a side of the part in a pass",
     &sim::DiscResult::strikes_on_sides, 1},
});

}  // namespace drumlin::viz
