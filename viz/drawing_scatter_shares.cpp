#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/drawings.hpp"
#include "viz/plot.hpp"
#include "viz/scatter_pieces.hpp"

namespace drumlin::viz {
namespace {

using sim::ScatterOutput;
using sim::ScatterShare;

constexpr std::size_t most_shares = 4;  ///< limits of which shares are drawn
constexpr std::size_t most_keys = 5;    ///< of each, the largest first
constexpr double least_told = 0.005;    ///< a smaller share is no bar
constexpr double key_height = 66;       ///< of one key's line and bar [pixel]
constexpr double thickest = 72;         ///< bar [pixel]
constexpr double shares_around = 134;

/// Numbers whose shares are drawn: of the limits met least, or where there is none of the others.
std::vector<const ScatterOutput*> shared(const sim::ScatterStudy& scatter) {
  std::vector<const ScatterOutput*> list = weakest_first(scatter);
  for (const ScatterOutput& other : scatter.others)
    list.push_back(&other);
  std::erase_if(list, [](const ScatterOutput* output) { return output->shares.empty(); });
  // One number of each quantity: those of other edges mostly say the same.
  std::vector<std::string> seen;
  std::erase_if(list, [&](const ScatterOutput* output) {
    const bool again = std::find(seen.begin(), seen.end(), output->quantity) != seen.end();
    seen.push_back(output->quantity);
    return again;
  });
  list.resize(std::min(list.size(), most_shares));
  return list;
}

std::vector<std::size_t> largest_first(const ScatterOutput& output) {
  std::vector<std::size_t> order = by_total_share(output);
  const auto told = std::find_if(order.begin() + 1, order.end(), [&](std::size_t i) {
    return output.shares[i].total < least_told;
  });
  order.erase(told, order.end());
  order.resize(std::min(order.size(), most_keys));
  return order;
}

/// End of the axis that all numbers share: one, or as far as estimates reach.
double axis_end(const std::vector<const ScatterOutput*>& outputs) {
  double most = 1;
  for (const ScatterOutput* output : outputs)
    for (const ScatterShare& share : output->shares)
      most = std::max(most, share.total + 1.96 * share.total_error);
  return most;
}

/// One bar per key: its total share, darker what it makes alone, a line for how sure that is.
void draw_shares(Canvas& canvas, const Box& box, const sim::ScatterStudy& scatter,
                 const ScatterOutput& output, double most) {
  canvas.text({box.left, box.top},
              shortened(canvas, spoken(output.name), box.width(), scatter_title), scatter_title);
  const auto order = largest_first(output);
  const Plot plot({box.left + 28, box.bottom + 88, box.right - 28, box.top - 40}, {0, most},
                  {0, 1});
  plot.axis_below(canvas, "share of the variance", 5);
  const double step =
      std::min(plot.area().height() / static_cast<double>(order.size()), 3 * key_height);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const ScatterShare& share = output.shares[order[i]];
    const double top = plot.area().top - step * static_cast<double>(i);
    const std::string number =
        fmt::format("{:.2f} ± {:.2f}", share.total, 1.96 * share.total_error);
    TextStyle name = scatter_note;
    name.colour = palette::ink;
    name.halo = true;
    TextStyle right = name;
    right.across = Across::right;
    const double used = canvas.text_width(number, right) + 24;
    canvas.text({plot.area().left + 6, top - 4},
                shortened(canvas, scatter.inputs[order[i]].key, plot.area().width() - used, name),
                name);
    canvas.text({plot.area().right - 4, top - 4}, number, right);
    const double high = top - 32;
    const double low = std::max(top - step + 8, high - thickest);
    const auto at = [&](double value) { return plot.at(std::clamp(value, 0.0, most), 0).x; };
    canvas.fill({at(0), low, at(share.total), high}, palette::cover);
    canvas.fill({at(0), low, at(std::min(share.first, share.total)), high}, palette::face);
    const double middle = 0.5 * (low + high);
    canvas.line({at(share.total - 1.96 * share.total_error), middle},
                {at(share.total + 1.96 * share.total_error), middle}, {palette::ink, 4, 0});
  }
  canvas.line({plot.area().left, plot.area().bottom}, {plot.area().left, plot.area().top},
              {palette::ink, 2, 0});
}

double shares_height(const std::vector<const ScatterOutput*>& outputs) {
  std::size_t keys = 1;
  for (const ScatterOutput* output : outputs)
    keys = std::max(keys, largest_first(*output).size());
  return shares_around + key_height * static_cast<double>(keys);
}

std::string shows_shares(const sim::ScatterStudy& scatter,
                         const std::vector<const ScatterOutput*>& outputs) {
  std::string text = "Shares of the variance by key.";
  for (const ScatterOutput* output : outputs) {
    text += fmt::format(" {}:", spoken(output->name));
    std::string keys;
    for (const std::size_t i : largest_first(*output))
      keys += fmt::format("{} {} {:.2f}", keys.empty() ? "" : ",", scatter.inputs[i].key,
                          output->shares[i].total);
    text += keys + ".";
  }
  return text;
}

}  // namespace

std::vector<Drawing> scatter_shares_drawings(const sim::Result& result) {
  if (!result.scatter) return {};
  const sim::ScatterStudy& scatter = *result.scatter;
  const auto outputs = shared(scatter);
  if (outputs.empty()) return {};
  Drawing drawing = drawing_of_pieces(
      scatter, shares_height(outputs), outputs.size(),
      [&scatter, outputs, most = axis_end(outputs)](Canvas& canvas, const Box& box, std::size_t i) {
        draw_shares(canvas, box, scatter, *outputs[i], most);
      });
  drawing.file = "scatter-shares";
  drawing.what = "which scatter decides";
  drawing.why =
      "Blue: what a key's scatter makes of the variance alone; light: together with other keys; "
      "line: 95 % of the estimate.";
  drawing.shows = shows_shares(scatter, outputs);
  return {drawing};
}

}  // namespace drumlin::viz
