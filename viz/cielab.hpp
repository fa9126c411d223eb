#pragma once

#include "viz/canvas.hpp"

/// Colours as an eye measures them.
namespace drumlin::viz {

/// CIE 1976 L*a*b* under the white of sRGB (D65).
struct Lab {
  double lightness = 0;  ///< L*, 0 black to 100 white
  double a = 0;          ///< green to red
  double b = 0;          ///< blue to yellow
};

/// Share of light of each primary, 0 to 1, as a screen sends it out. Source: IEC 61966-2-1 (1999).
struct Light {
  double red = 0, green = 0, blue = 0;
};

[[nodiscard]] Light light_of(Colour colour);
[[nodiscard]] Lab lab_of(const Light& light);
[[nodiscard]] inline Lab lab_of(Colour colour) {
  return lab_of(light_of(colour));
}

/// Nearest colour that a screen can show, part by part.
[[nodiscard]] Colour colour_of(const Lab& lab);

/// Whether a screen can show it.
[[nodiscard]] bool is_shown(const Lab& lab);

/// How different two colours look; 1 is about what a trained eye just tells.
/// Source: CIEDE2000, as written by Sharma, Wu and Dalal (2005), eqs. (2) to (22).
[[nodiscard]] double difference(const Lab& one, const Lab& other);

/// Contrast between two colours, 1 to 21. Source: W3C, WCAG 2.1 (2018), "contrast ratio".
[[nodiscard]] double contrast(Colour one, Colour other);

}  // namespace drumlin::viz
