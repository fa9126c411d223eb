#include "sim/scatter/words.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace drumlin::sim {
namespace {

/// Standard deviations either way that hold 95 % of a normal estimate.
constexpr double two_sided = 1.96;
/// Share of variance below which an input is not worth a word.
constexpr double least_share = 0.05;

double low_of(const ScatterShare& share) {
  return std::max(share.total - two_sided * share.total_error, 0.0);
}
double high_of(const ScatterShare& share) {
  return share.total + two_sided * share.total_error;
}

std::string share_text(const ScatterShare& share) {
  return fmt::format("{:.2f} ({:.2f}..{:.2f})", share.total, low_of(share), high_of(share));
}

std::string spoken(std::string text) {
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

bool is_removal_coefficient(const std::string& key) {
  return key.find("removal_coefficient") != std::string::npos;
}

/// Keys whose scatter has no part in any number.
std::string without_effect(const ScatterStudy& scatter) {
  std::string names;
  for (std::size_t i = 0; i < scatter.inputs.size(); ++i) {
    const auto moves = [i](const ScatterOutput& output) {
      return !output.shares.empty() && output.shares[i].total > 1e-12;
    };
    const bool any = std::any_of(scatter.limits.begin(), scatter.limits.end(), moves) ||
                     std::any_of(scatter.others.begin(), scatter.others.end(), moves);
    if (!any) names += (names.empty() ? "" : ", ") + scatter.inputs[i].key;
  }
  return names;
}

}  // namespace

std::string decides_text(const ScatterOutput& output, const std::vector<ScatterInput>& inputs) {
  const std::string name = spoken(output.name);
  if (!output.value) return {};
  if (output.shares.empty()) return fmt::format("{} does not vary over the draws", name);
  const std::vector<std::size_t> order = by_total_share(output);
  const ScatterShare& first = output.shares[order[0]];
  std::string text;
  if (order.size() == 1) {
    text = fmt::format("scatter of {} is all there is of the variance of {}", inputs[order[0]].key,
                       name);
  } else if (low_of(first) > high_of(output.shares[order[1]])) {
    text = fmt::format("scatter of {} decides: {} of the variance of {}", inputs[order[0]].key,
                       share_text(first), name);
  } else {
    text = fmt::format("no scatter decides alone: {} has {} of the variance of {}",
                       inputs[order[0]].key, share_text(first), name);
  }
  for (std::size_t i = 1; i < std::min<std::size_t>(order.size(), 3); ++i) {
    const ScatterShare& share = output.shares[order[i]];
    if (share.total < least_share) break;
    text += fmt::format("; {} {}", inputs[order[i]].key, share_text(share));
  }
  double alone = 0;
  for (const ScatterShare& share : output.shares)
    alone += share.first;
  if (inputs.size() > 1 && alone < 0.7)
    text += fmt::format("; keys alone make {:.2f}, the rest is how they act together",
                        std::max(alone, 0.0));
  return text;
}

std::vector<std::string> scatter_notes(const ScatterStudy& scatter, const cases::Study& study) {
  std::vector<std::string> notes;
  notes.push_back(fmt::format(
      "{} draws by the {} model: two sets of {} points of a Sobol sequence, seed {}; {} runs with "
      "those for the shares of variance",
      scatter.draws, scatter.model, scatter.size, scatter.seed, scatter.runs));
  std::string stated;
  for (const ScatterInput& input : scatter.inputs)
    stated += (stated.empty() ? "" : ", ") + input.key;
  notes.push_back(
      "The scatter is what the case states, measured or invented by whoever wrote it (" + stated +
      "); probabilities are worth no more than it is");
  notes.emplace_back(
      "Keys are drawn independently of each other: correlations, such as thickness with hardness "
      "of "
      "one coil, are not modelled");
  const bool coefficient =
      std::any_of(scatter.inputs.begin(), scatter.inputs.end(),
                  [](const ScatterInput& input) { return is_removal_coefficient(input.key); });
  notes.emplace_back(
      coefficient
          ? "The case scatters a removal coefficient; all other bands of the model (other "
            "coefficients, stiffness of belt and cover, the model's own error) are not in the "
            "probabilities"
          : "The model's own bands, first of all that of the removal coefficient, are not in the "
            "probabilities: they tell what scatters from part to part once the line is calibrated");
  notes.emplace_back(
      "Intervals hold 95 %; they are those of independent draws, and on the wide side for points "
      "that are spread evenly. Shares of variance stand with 1.96 standard deviations of their "
      "bootstrap");
  for (const ScatterInput& input : scatter.inputs)
    if (input.key == "part.thickness")
      notes.push_back(
          fmt::format("Drums and brushes stay as they are set for {:.4g} mm: scatter of "
                      "part.thickness comes to "
                      "them as interference",
                      study.base.part.thickness));
  const std::string idle = without_effect(scatter);
  if (!idle.empty())
    notes.push_back(fmt::format("{}: scatter of it moves none of the numbers here", idle));
  if (study.points < 64 || (study.points & (study.points - 1)) != 0)
    notes.push_back(fmt::format("{} points per set: {} serve better", study.points,
                                study.points < 64 ? "64 or more" : "powers of two"));
  for (const ScatterFailure& failure : scatter.failures)
    notes.push_back(fmt::format(
        "{} of {} draws count as not met, since they could not be computed ({}; {} of {} runs); "
        "the "
        "first: {}",
        failure.draws, scatter.draws, failure.what, failure.runs, scatter.runs, failure.reason));
  return notes;
}

}  // namespace drumlin::sim
