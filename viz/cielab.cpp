#include "viz/cielab.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace drumlin::viz {
namespace {

// Rows X, Y, Z of the primaries of sRGB under D65. Source: IEC 61966-2-1, with more digits.
constexpr std::array<std::array<double, 3>, 3> to_xyz{{{0.4123907993, 0.3575843394, 0.1804807884},
                                                       {0.2126390059, 0.7151686788, 0.0721923154},
                                                       {0.0193308187, 0.1191947798, 0.9505321522}}};
constexpr std::array<std::array<double, 3>, 3> from_xyz{
    {{3.2409699419, -1.5373831776, -0.4986107603},
     {-0.9692436363, 1.8759675015, 0.0415550574},
     {0.0556300797, -0.2039769589, 1.0569715142}}};

std::array<double, 3> times(const std::array<std::array<double, 3>, 3>& rows, double x, double y,
                            double z) {
  std::array<double, 3> out{};
  for (std::size_t i = 0; i < 3; ++i)
    out.at(i) = rows.at(i)[0] * x + rows.at(i)[1] * y + rows.at(i)[2] * z;
  return out;
}

constexpr double knee = 6.0 / 29.0;

double compressed(double t) {
  return t > knee * knee * knee ? std::cbrt(t) : t / (3 * knee * knee) + 4.0 / 29.0;
}

double stretched(double f) {
  return f > knee ? f * f * f : 3 * knee * knee * (f - 4.0 / 29.0);
}

double linear(unsigned char part) {
  const double value = part / 255.0;
  return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

double encoded(double light) {
  return light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055;
}

unsigned char part(double light) {
  return static_cast<unsigned char>(std::lround(255 * encoded(std::clamp(light, 0.0, 1.0))));
}

Light light_of_lab(const Lab& lab) {
  const std::array white = times(to_xyz, 1, 1, 1);
  const double y = (lab.lightness + 16) / 116;
  const std::array rgb = times(from_xyz, white[0] * stretched(y + lab.a / 500),
                               white[1] * stretched(y), white[2] * stretched(y - lab.b / 200));
  return {rgb[0], rgb[1], rgb[2]};
}

double degrees(double radians) {
  const double angle = radians * 180 / std::numbers::pi;
  return angle < 0 ? angle + 360 : angle;
}

double radians(double degrees) {
  return degrees * std::numbers::pi / 180;
}

}  // namespace

Light light_of(Colour colour) {
  return {linear(colour.red), linear(colour.green), linear(colour.blue)};
}

Lab lab_of(const Light& light) {
  const std::array white = times(to_xyz, 1, 1, 1);
  const std::array xyz = times(to_xyz, light.red, light.green, light.blue);
  const double x = compressed(xyz[0] / white[0]);
  const double y = compressed(xyz[1] / white[1]);
  const double z = compressed(xyz[2] / white[2]);
  return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

Colour colour_of(const Lab& lab) {
  const Light light = light_of_lab(lab);
  return {part(light.red), part(light.green), part(light.blue)};
}

bool is_shown(const Lab& lab) {
  const Light light = light_of_lab(lab);
  constexpr double slack = 1e-4;  // far below a step of 1/255
  return std::min({light.red, light.green, light.blue}) >= -slack &&
         std::max({light.red, light.green, light.blue}) <= 1 + slack;
}

double difference(const Lab& one, const Lab& other) {
  const double mean_chroma = (std::hypot(one.a, one.b) + std::hypot(other.a, other.b)) / 2;
  const auto seventh = [](double c) {
    const double power = std::pow(c, 7);
    return std::sqrt(power / (power + std::pow(25.0, 7)));
  };
  const double g = 0.5 * (1 - seventh(mean_chroma));
  const double a1 = (1 + g) * one.a;
  const double a2 = (1 + g) * other.a;
  const double c1 = std::hypot(a1, one.b);
  const double c2 = std::hypot(a2, other.b);
  const bool grey = c1 * c2 == 0;
  const double h1 = c1 == 0 ? 0 : degrees(std::atan2(one.b, a1));
  const double h2 = c2 == 0 ? 0 : degrees(std::atan2(other.b, a2));
  double turn = grey ? 0 : h2 - h1;
  if (turn > 180) turn -= 360;
  if (turn < -180) turn += 360;
  const double d_lightness = other.lightness - one.lightness;
  const double d_chroma = c2 - c1;
  const double d_hue = 2 * std::sqrt(c1 * c2) * std::sin(radians(turn / 2));
  const double lightness = (one.lightness + other.lightness) / 2;
  const double chroma = (c1 + c2) / 2;
  double hue = h1 + h2;
  if (!grey && std::abs(h1 - h2) > 180) hue += hue < 360 ? 360 : -360;
  if (!grey) hue /= 2;
  const double t = 1 - 0.17 * std::cos(radians(hue - 30)) + 0.24 * std::cos(radians(2 * hue)) +
                   0.32 * std::cos(radians(3 * hue + 6)) - 0.20 * std::cos(radians(4 * hue - 63));
  const double from_middle = (lightness - 50) * (lightness - 50);
  const double s_lightness = 1 + 0.015 * from_middle / std::sqrt(20 + from_middle);
  const double s_chroma = 1 + 0.045 * chroma;
  const double s_hue = 1 + 0.015 * chroma * t;
  const double blue = std::exp(-std::pow((hue - 275) / 25, 2));
  const double rotation = -2 * seventh(chroma) * std::sin(radians(60 * blue));
  const double l = d_lightness / s_lightness;
  const double c = d_chroma / s_chroma;
  const double h = d_hue / s_hue;
  return std::sqrt(l * l + c * c + h * h + rotation * c * h);
}

double contrast(Colour one, Colour other) {
  const auto luminance = [](Colour colour) {
    const Light light = light_of(colour);
    return 0.2126 * light.red + 0.7152 * light.green + 0.0722 * light.blue;
  };
  const auto [low, high] = std::minmax({luminance(one), luminance(other)});
  return (high + 0.05) / (low + 0.05);
}

}  // namespace drumlin::viz
