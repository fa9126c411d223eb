#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/drawings.hpp"

namespace drumlin::viz {
namespace {

constexpr TextStyle name{.size = 24, .bold = true};
constexpr TextStyle quiet{.size = 22, .colour = palette::quiet};

/// One row: a knob with what is said of it.
struct Row {
  const sim::RemedyKnob* knob = nullptr;
  int index = 0;
  const sim::Remedy* remedy = nullptr;  ///< the nearest of its own; null: none
};

/// The limit that the picture is of: the first that fails and was sought.
const sim::SoughtLimit* shown_limit(const sim::RemedyStudy& study) {
  for (const sim::SoughtLimit& sought : study.limits)
    if (sought.failed && !sought.looked.empty()) return &sought;
  return nullptr;
}

constexpr std::size_t most_rows = 9;

std::vector<Row> rows_of(const sim::RemedyStudy& study, const sim::SoughtLimit& sought) {
  std::vector<Row> rows;
  for (std::size_t i = 0; i < study.knobs.size(); ++i) {
    const int index = static_cast<int>(i);
    const bool looked = std::any_of(sought.looked.begin(), sought.looked.end(),
                                    [&](const sim::Looked& l) { return l.knob == index; });
    if (!looked) continue;
    Row row{&study.knobs[i], index, nullptr};
    for (const sim::Remedy& remedy : sought.remedies)
      if (remedy.changes.front().knob == index &&
          (row.remedy == nullptr || remedy.relative_change < row.remedy->relative_change))
        row.remedy = &remedy;
    rows.push_back(row);
  }
  // Those that meet the limit are what one looks for; of the others as many as there is room for.
  for (std::size_t i = rows.size(); i-- > 0 && rows.size() > most_rows;)
    if (rows[i].remedy == nullptr) rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(i));
  if (rows.size() > most_rows) rows.resize(most_rows);
  return rows;
}

constexpr double row_height = 128;
/// Where words stand beside the bars.
constexpr double wide_row_height = 66;
constexpr double key_height = 92;

/// A bar per knob over its range: from the case's own value to where the limit is met.
class RemediesDrawing {
 public:
  RemediesDrawing(Canvas& canvas, const sim::RemedyStudy& study, const sim::SoughtLimit& sought)
      : canvas_(canvas), study_(study), rows_(rows_of(study, sought)) {}

  void draw(const Box& area);

 private:
  void draw_row(const Row& row, const Box& box);
  void draw_key(const Box& box);
  void mark(Point at);
  [[nodiscard]] std::string said(const Row& row) const;

  Canvas& canvas_;
  const sim::RemedyStudy& study_;
  std::vector<Row> rows_;
};

/// Where another limit is lost: a cross that no colour is needed for.
void RemediesDrawing::mark(Point at) {
  constexpr double arm = 11;
  for (const Stroke& stroke : {Stroke{palette::paper, 10, 0}, Stroke{palette::burr, 5, 0}}) {
    canvas_.line({at.x - arm, at.y - arm}, {at.x + arm, at.y + arm}, stroke);
    canvas_.line({at.x - arm, at.y + arm}, {at.x + arm, at.y - arm}, stroke);
  }
}

std::string RemediesDrawing::said(const Row& row) const {
  std::string text = row.remedy != nullptr ? fmt::format("{} to {}", row.knob->now_text,
                                                         row.remedy->changes.front().text)
                                           : row.knob->now_text + ": not met by it alone";
  if (!row.knob->setting) text += "; no setting of this line";
  for (const sim::Break& lost : study_.breaks)
    if (lost.knob == row.index) text += fmt::format("; × {}: {}", lost.text, spoken(lost.limit));
  return text;
}

void RemediesDrawing::draw_row(const Row& row, const Box& box) {
  const bool wide = box.width() >= narrow_drawing;
  const double words = wide ? 0.44 * box.width() : box.width();
  const double left = wide ? box.left + words + 40 : box.left;
  canvas_.text({box.left, box.top - 28}, shortened(canvas_, row.knob->name, words, name), name);
  const double y = wide ? box.top - 33 : box.top - 56;
  const auto x = [&](double share) { return left + share * (box.right - left); };
  canvas_.fill({left, y - 7, box.right, y + 7}, palette::grid);
  const double now = x(row.knob->now_share);
  if (row.remedy != nullptr) {
    const double to = x(row.remedy->changes.front().share);
    const Colour colour = row.knob->setting ? palette::face : palette::metal;
    canvas_.fill({std::min(now, to), y - 12, std::max(now, to), y + 12}, colour);
    canvas_.line({to, y - 20}, {to, y + 20}, {palette::ink, 5, 0});
  }
  for (const sim::Break& lost : study_.breaks)
    if (lost.knob == row.index) mark({x(lost.share), y});
  canvas_.line({now, y - 20}, {now, y + 20}, {palette::quiet, 5, 9});
  canvas_.text({box.left, wide ? box.top - 54 : y - 48},
               shortened(canvas_, said(row), words, quiet), quiet);
}

void RemediesDrawing::draw_key(const Box& box) {
  const double half = 0.5 * box.width();
  const double upper = box.top - 24;
  const double lower = box.top - 62;
  const auto word = [&](double x, double y, const char* text) {
    canvas_.text({x + 52, y - 8}, text, quiet);
  };
  canvas_.line({box.left + 20, upper - 16}, {box.left + 20, upper + 16}, {palette::quiet, 5, 9});
  word(box.left, upper, "as set");
  canvas_.fill({box.left, lower - 10, box.left + 36, lower + 10}, palette::face);
  canvas_.line({box.left + 36, lower - 16}, {box.left + 36, lower + 16}, {palette::ink, 5, 0});
  word(box.left, lower, "how far to go");
  mark({box.left + half + 20, upper});
  word(box.left + half, upper, "another limit is lost");
  canvas_.fill({box.left + half, lower - 7, box.left + half + 40, lower + 7}, palette::grid);
  word(box.left + half, lower, "range looked at");
}

void RemediesDrawing::draw(const Box& area) {
  const double step = std::min(
      area.width() >= narrow_drawing + 28 ? wide_row_height : row_height,
      (area.height() - key_height) / static_cast<double>(std::max<std::size_t>(rows_.size(), 1)));
  double top = area.top - 4;
  for (const Row& row : rows_) {
    draw_row(row, {area.left + 14, top - step, area.right - 14, top});
    top -= step;
  }
  draw_key({area.left + 14, area.bottom, area.right - 14, top - 4});
}

std::string shows(const sim::RemedyStudy& study, const sim::SoughtLimit& sought) {
  std::string text = "A bar per knob over the range looked at.";
  for (const Row& row : rows_of(study, sought))
    text += row.remedy != nullptr
                ? fmt::format(" {}: {} to {}.", row.knob->name, row.knob->now_text,
                              row.remedy->changes.front().text)
                : fmt::format(" {}: not met by it alone.", row.knob->name);
  return text;
}

std::string why(const sim::RemedyStudy& study, const sim::SoughtLimit& sought) {
  const bool any = !sought.remedies.empty();
  return fmt::format(
      "{} By this model, uncalibrated: run these as samples.",
      any ? fmt::format(
                "Least side effect: {} {}.",
                study.knobs[static_cast<std::size_t>(sought.remedies.front().changes.front().knob)]
                    .name,
                sought.remedies.front().changes.front().text)
          : std::string("No knob meets it alone within the ranges looked at."));
}

}  // namespace

std::vector<Drawing> remedies_drawings(const sim::Result& result) {
  if (!result.remedies) return {};
  const sim::RemedyStudy& study = *result.remedies;
  const sim::SoughtLimit* sought = shown_limit(study);
  if (sought == nullptr) return {};
  const auto rows = static_cast<double>(rows_of(study, *sought).size());
  return {{.file = "what-to-change",
           .what = "what would have to change: " + spoken(sought->name),
           .setup = fmt::format("each knob turned alone, by the {} model; numbers by the logarithm",
                                study.model),
           .why = why(study, *sought),
           .paint = [&study, sought](
                        Canvas& canvas,
                        const Box& area) { RemediesDrawing(canvas, study, *sought).draw(area); },
           .height =
               [rows](double width) {
                 const double step = width < narrow_drawing + 28 ? row_height : wide_row_height;
                 return std::max(least_drawing_height, rows * step + key_height);
               },
           .shows = shows(study, *sought)}};
}

}  // namespace drumlin::viz
