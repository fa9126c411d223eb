#pragma once

#include <string>

#include "sim/result.hpp"
#include "viz/canvas.hpp"

namespace drumlin::viz {

inline constexpr int sheet_width = 1600;   ///< of a picture [pixel]
inline constexpr int sheet_height = 1000;  ///< of a picture [pixel]

/// What stands around a drawing.
struct SheetWords {
  std::string title;   ///< of the case or study; may be empty
  std::string what;    ///< what is shown
  std::string setup;   ///< under which set-up
  std::string why;     ///< what to read off it
  std::string origin;  ///< where the picture comes from
};

/// Draws what every sheet has around its drawing: title and what is shown, the set-up, one sentence
/// of "why" below, and where the picture comes from.
/// @return the area that is left for the drawing.
Box draw_sheet(Canvas& canvas, const SheetWords& words);

/// The same of a single result.
Box draw_sheet(Canvas& canvas, const sim::Result& result, const std::string& what,
               const std::string& setup, const std::string& why);

/// Description of the station that made a pass, shortened to what a sheet can show.
[[nodiscard]] std::string setup_text(const sim::Result& result, int station);

/// A depth or height in the unit a shop reads it in: "12 µm", "0.15 mm".
[[nodiscard]] std::string length_text(double mm);

/// A pressure with two or three digits: "2.16 MPa", "0.10 MPa".
[[nodiscard]] std::string pressure_text(double mpa);

/// How many times larger: "4.2 times", "21 times".
[[nodiscard]] std::string times_text(double ratio);

}  // namespace drumlin::viz
