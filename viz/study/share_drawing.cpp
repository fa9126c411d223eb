#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "viz/plot.hpp"
#include "viz/study/analysis_words.hpp"
#include "viz/study/study_drawings.hpp"

namespace drumlin::viz {
namespace {

constexpr double factor_height = 92;  // [pixel]
constexpr double bar_height = 22;     // [pixel]
constexpr double head_height = 44;    // [pixel]
constexpr double axis_height = 84;    // [pixel]
/// Factors drawn: those with the greatest shares; the table has all.
constexpr std::size_t most_bars = 12;

std::optional<sim::Estimate> leading(const sim::FactorShare& share) {
  return share.total ? share.total : share.first;
}

/// Factors that have shares, the greatest first.
std::vector<std::size_t> order_of(const sim::OutputShares& shares) {
  std::vector<std::size_t> order;
  for (std::size_t k = 0; k < shares.factors.size(); ++k)
    if (leading(shares.factors[k])) order.push_back(k);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return leading(shares.factors[a])->value > leading(shares.factors[b])->value;
  });
  if (order.size() > most_bars) order.resize(most_bars);
  return order;
}

void bar(Canvas& canvas, const Plot& plot, double top, const sim::Estimate& share, Colour colour) {
  const double middle = top - bar_height / 2;
  const Point from = plot.at(0, 0);
  const double end = plot.at(std::clamp(share.value, 0.0, plot.x().high), 0).x;
  canvas.fill({from.x, top - bar_height, std::max(end, from.x + 1), top}, colour);
  const auto x = [&](double value) { return plot.at(std::clamp(value, 0.0, plot.x().high), 0).x; };
  const double low = x(share.value - 2 * share.error);
  const double high = x(share.value + 2 * share.error);
  canvas.line({low, middle}, {high, middle}, {palette::ink, 3, 0});
  for (const double at : {low, high})
    canvas.line({at, middle - 7}, {at, middle + 7}, {palette::ink, 3, 0});
}

void draw_shares(Canvas& canvas, const Box& area, const sim::StudyAnalysis& study,
                 const sim::OutputShares& shares) {
  const std::vector<std::size_t> order = order_of(shares);
  const bool totals = shares.factors[order.front()].total.has_value();
  const TextStyle letters{.size = 22, .along = Along::middle};
  const double key = area.top - 20;
  canvas.fill({area.left, key - 10, area.left + 30, key + 10}, palette::coating);
  canvas.text({area.left + 40, key}, "alone", letters);
  if (totals) {
    canvas.fill({area.left + 140, key - 10, area.left + 170, key + 10}, palette::metal);
    canvas.text({area.left + 180, key}, "alone and with others", letters);
  }
  canvas.text({area.left + (totals ? 440 : 140), key}, "whisker: two errors", letters);
  const double top = area.top - head_height;
  // On a tall sheet bars stand farther apart, up to half as far again.
  const double rows = 1.5 * factor_height * static_cast<double>(order.size());
  const Box box{area.left + 8, std::max(area.bottom + axis_height, top - rows), area.right - 30,
                top};
  const double step = box.height() / static_cast<double>(order.size());
  double most = 1;
  for (const std::size_t k : order)
    most = std::max(most, leading(shares.factors[k])->value);
  const Plot plot(box, {0, std::min(1.05 * most, 2.0)}, {0, 1});
  plot.axis_below(canvas, "share of the variance", 5);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const sim::FactorShare& share = shares.factors[order[i]];
    const double from = box.top - static_cast<double>(i) * step;
    canvas.text({box.left + 8, from - 17},
                shortened(canvas, study.header.columns[study.factors[order[i]]].name,
                          box.width() - 20, letters),
                {.size = 22, .along = Along::middle, .halo = true});
    if (share.first) bar(canvas, plot, from - 32, *share.first, palette::coating);
    if (share.total) bar(canvas, plot, from - 32 - bar_height - 4, *share.total, palette::metal);
  }
  canvas.line({box.left, box.bottom}, {box.left, box.top}, {palette::ink, 3, 0});
}

}  // namespace

std::vector<Drawing> share_drawings(const sim::StudyAnalysis& study) {
  std::vector<Drawing> drawings;
  std::vector<std::string> sentences = share_sentences(study);
  for (std::size_t i = 0; i < study.shares.size(); ++i) {
    const sim::OutputShares& shares = study.shares[i];
    const std::size_t bars = order_of(shares).size();
    if (bars == 0) continue;
    const std::string name = column_text(study.header.columns[shares.column]);
    const auto sentence = std::find_if(sentences.begin(), sentences.end(), [&](const auto& text) {
      return text.starts_with(name + ":");
    });
    drawings.push_back(
        {.file = fmt::format("shares-{}", i + 1),
         .what = "What moves " + name,
         .setup = fmt::format("from {} {}", shares.points,
                              study.design == "pick-freeze" ? "points of the design" : "rows"),
         .why = sentence == sentences.end() ? "" : *sentence,
         .paint = [&study, &shares](Canvas& canvas,
                                    const Box& area) { draw_shares(canvas, area, study, shares); },
         .height =
             [bars](double) {
               return head_height + axis_height + factor_height * static_cast<double>(bars);
             },
         .shows = "Bars, one pair per factor, the greatest first."});
  }
  return drawings;
}

}  // namespace drumlin::viz
