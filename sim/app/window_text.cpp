#include "sim/app/window_text.hpp"

#include <fmt/format.h>

namespace drumlin::app {

std::string window_text(const sim::Window& window, const Style& style) {
  std::string out = pressing_text(window.pressing_cautions, style);
  out +=
      wrapped(fmt::format("{}: {} over {}", window.title, window.axes[1].name, window.axes[0].name),
              "", style);
  out += list("What the map says", window.words, Paint::plain, style);
  out += list("How sure", window.notes, Paint::plain, style);
  if (!window.unused_keys.empty()) out += list("Not used", window.unused_keys, Paint::quiet, style);
  out += list("Cautions", window.cautions, Paint::caution, style);
  out += '\n' + wrapped(fmt::format("{} evaluations of the map, {} checks, {} for the probability.",
                                    window.evaluations.map, window.evaluations.checks,
                                    window.evaluations.probability),
                        "", style);
  return out;
}

}  // namespace drumlin::app
