#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "cases/study.hpp"

/// The checked study of a process window: two settings that are moved over their ranges, and what
/// scatters meanwhile. Plain structs, like the case.
namespace drumlin::cases {

/// A setting that the window is drawn over.
struct WindowAxis {
  std::string key;      ///< path, such as "station[0].setting.interference"
  std::string meaning;  ///< of the key, as its declaration says; empty where it has none
  std::string unit;     ///< that it is shown in, as the study writes it; empty for pure numbers
  double factor = 1;    ///< inner value = (shown value + offset) * factor
  double offset = 0;
  double from = 0;            ///< [inner unit]
  double to = 1;              ///< [inner unit], > from
  std::optional<double> own;  ///< the case's own value [inner unit]; none where it is silent

  [[nodiscard]] double shown(double inner) const noexcept { return inner / factor - offset; }
};

/// How the window is drawn, `[window]` of the study.
struct WindowSettings {
  int cells = 16;          ///< of the first grid, each way
  int levels = 3;          ///< times that a cell may be cut into four
  int evaluations = 2000;  ///< of the map at most
  int draws = 128;         ///< of what scatters, at each node
  int seed = 0;            ///< of the draws
};

struct WindowStudy {
  std::string title;
  std::string file;    ///< as given
  std::string text;    ///< the file's bytes
  std::string sha256;  ///< of the text
  Case base;           ///< the case as its file has it, with the study's model
  std::array<WindowAxis, 2> axes;
  std::vector<Factor> scatter;             ///< keys with a distribution
  std::vector<std::string> scatter_words;  ///< their distributions as a person reads them
  WindowSettings settings;
  std::vector<std::string> unused;  ///< keys of the study that a window has no use for
  /// The case under a value of each axis [inner unit]; what scatters is as the case has it. Pure;
  /// may be asked by several threads. Throws CaseError with what the reader of cases would say.
  std::function<Case(std::span<const double>)> with;
  /// The same under a value of each axis and then of each key that scatters.
  std::function<Case(std::span<const double>)> with_scatter;
};

}  // namespace drumlin::cases
