#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "viz/drawings.hpp"
#include "viz/plot.hpp"
#include "viz/quantities.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

using sim::Disturbance;

/// Between which two values a cause moves an output.
struct Span {
  double low = 0, high = 0;
};
using SpanOf = std::optional<Span> (*)(const Disturbance&);

std::optional<Span> removal(const Disturbance& cause) {
  return Span{mm_to_um(cause.removal_low), mm_to_um(cause.removal_high)};
}
std::optional<Span> coating(const Disturbance& cause) {
  if (!cause.coating_low || !cause.coating_high) return std::nullopt;
  return Span{mm_to_um(*cause.coating_low), mm_to_um(*cause.coating_high)};
}

std::string signed_mm(double value) {
  return value == 0.0 ? "0" : fmt::format("{:+.2g}", value);
}

std::string amount(const Disturbance& cause) {
  const std::string many = cause.low == -cause.high
                               ? fmt::format("±{:.2g} mm", cause.high)
                               : signed_mm(cause.low) + " to " + signed_mm(cause.high) + " mm";
  return many + (cause.given ? "" : ", usual");
}

/// Names of causes, with the station where several have the same.
std::string label(const Disturbance& cause) {
  const std::size_t at = cause.key.find("station[");
  if (at == std::string::npos) return cause.name;
  const std::size_t end = cause.key.find(']', at);
  const int index = std::stoi(cause.key.substr(at + 8, end - at - 8));
  return fmt::format("{}, station {}", cause.name, index + 1);
}

/// One bar per cause: how far it moves face removal, and coating left.
class CausesDrawing {
 public:
  CausesDrawing(Canvas& canvas, const sim::Result& result)
      : canvas_(canvas), result_(result), study_(*result.interference_study) {}

  void draw(const Box& area);

 private:
  void draw_bars(const Box& box, SpanOf span, double as_set, const char* title, Colour colour);
  [[nodiscard]] double row_height(const Box& box) const {
    return box.height() / static_cast<double>(study_.disturbances.size());
  }

  Canvas& canvas_;
  const sim::Result& result_;
  const sim::InterferenceStudy& study_;
};

void CausesDrawing::draw_bars(const Box& box, SpanOf span, double as_set, const char* title,
                              Colour colour) {
  double most = as_set;
  for (const Disturbance& cause : study_.disturbances)
    if (const auto ends = span(cause)) most = std::max({most, ends->low, ends->high});
  const Plot plot(box, {0.0, most > 0 ? 1.08 * most : 1.0}, {0.0, 1.0});
  plot.axis_below(canvas_, title, 4);
  const double row = row_height(box);
  for (std::size_t i = 0; i < study_.disturbances.size(); ++i) {
    const Disturbance& cause = study_.disturbances[i];
    const auto ends = span(cause);
    if (!ends) continue;
    const double top = box.top - row * static_cast<double>(i) - 0.2 * row;
    const Box bar{plot.at(std::min(ends->low, ends->high), 0).x, top - 0.6 * row,
                  plot.at(std::max(ends->low, ends->high), 0).x, top};
    // A cause that the case does not give is shown by what is usual: lighter.
    canvas_.fill(bar, cause.given ? colour : colour.faded(90));
    canvas_.frame(bar, {colour, 3, 0});
  }
  const double x = plot.at(as_set, 0).x;
  canvas_.line({x, box.bottom}, {x, box.top}, {palette::ink, 3, 0});
  canvas_.text({x, box.top + 8}, fmt::format("as set {:.3g}", as_set),
               {.size = 21, .across = Across::middle});
  canvas_.frame(box, {palette::ink, 2, 0});
}

void CausesDrawing::draw(const Box& area) {
  const TextStyle name{.size = 24, .bold = true, .across = Across::right};
  const TextStyle quiet{
      .size = 20, .colour = palette::quiet, .across = Across::right, .along = Along::top};
  double names = 0;
  for (const Disturbance& cause : study_.disturbances)
    names = std::max(
        {names, canvas_.text_width(label(cause), name), canvas_.text_width(amount(cause), quiet)});
  const bool coated = std::any_of(study_.disturbances.begin(), study_.disturbances.end(),
                                  [](const Disturbance& cause) { return coating(cause); });
  const double left = area.left + names + 22;
  const double bottom = area.bottom + 86;
  const double top = area.top - 48;
  constexpr double between = 56;
  const double right = coated ? 0.5 * (left + area.right - between) : area.right;
  const Box first{left, bottom, right, top};
  draw_bars(first, removal, mm_to_um(study_.removal), "face removal [µm]", palette::face);
  if (coated && result_.part.face.coating_left)
    draw_bars({right + between, bottom, area.right, top}, coating,
              std::max(mm_to_um(result_.coating_thickness - study_.removal), 0.0),
              "coating left on the face [µm]", palette::coating);
  const double row = row_height(first);
  for (std::size_t i = 0; i < study_.disturbances.size(); ++i) {
    const double middle = top - row * (static_cast<double>(i) + 0.5);
    canvas_.text({left - 16, middle + 1}, label(study_.disturbances[i]), name);
    canvas_.text({left - 16, middle - 3}, amount(study_.disturbances[i]), quiet);
  }
}

std::string why(const sim::InterferenceStudy& study) {
  std::string text = fmt::format(
      "Thickness, bow, wear and warmth all come to the drum as interference: {:.1f} µm of face for "
      "every 0.1 mm here.",
      100 * study.removal_per_mm);
  if (study.most_less && study.most_more)
    text += fmt::format(" The limits leave room for {:+.2f} to {:+.2f} mm (less: {}; more: {}).",
                        *study.most_less, *study.most_more, study.limited_less, study.limited_more);
  else
    text += " A softer cover answers less to each of them.";
  return text;
}

}  // namespace

std::vector<Drawing> part_as_it_is_drawings(const sim::Result& result) {
  if (!result.interference_study || result.interference_study->disturbances.empty()) return {};
  const sim::InterferenceStudy& study = *result.interference_study;
  return {{.file = "part-as-it-is",
           .what = "the part and the machine as they are",
           .setup = fmt::format("the whole line, by the {} model; full bars: as the case gives it, "
                                "light bars: what is usual",
                                study.model),
           .why = why(study),
           .paint = [&result](Canvas& canvas, const Box& area) {
             CausesDrawing(canvas, result).draw(area);
           }}};
}

}  // namespace drumlin::viz
