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

bool shows_coating(const sim::Result& result) {
  const auto& causes = result.interference_study->disturbances;
  return result.part.face.coating_left &&
         std::any_of(causes.begin(), causes.end(),
                     [](const Disturbance& cause) { return coating(cause).has_value(); });
}

constexpr TextStyle name{.size = 24, .bold = true, .across = Across::right};
constexpr TextStyle quiet{
    .size = 22, .colour = palette::quiet, .across = Across::right, .along = Along::top};

/// One bar per cause: how far it moves face removal, and coating left.
class CausesDrawing {
 public:
  CausesDrawing(Canvas& canvas, const sim::Result& result)
      : canvas_(canvas), result_(result), study_(*result.interference_study) {}

  void draw(const Box& area);

 private:
  void draw_bars(const Box& box, SpanOf span, double as_set, const char* title, Colour colour);
  void draw_names(const Box& bars);
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
               {.size = 22, .across = Across::middle});
  canvas_.frame(box, {palette::ink, 2, 0});
}

/// Names of the causes to the left of their bars.
void CausesDrawing::draw_names(const Box& bars) {
  const double row = row_height(bars);
  for (std::size_t i = 0; i < study_.disturbances.size(); ++i) {
    const double middle = bars.top - row * (static_cast<double>(i) + 0.5);
    canvas_.text({bars.left - 16, middle + 1}, label(study_.disturbances[i]), name);
    canvas_.text({bars.left - 16, middle - 3}, amount(study_.disturbances[i]), quiet);
  }
}

void CausesDrawing::draw(const Box& area) {
  double names = 0;
  for (const Disturbance& cause : study_.disturbances)
    names = std::max(
        {names, canvas_.text_width(label(cause), name), canvas_.text_width(amount(cause), quiet)});
  const bool coated = shows_coating(result_);
  constexpr double below = 86;
  constexpr double above = 48;
  constexpr double between = 56;
  const bool stacked = coated && area.width() < narrow_drawing;
  const double left = area.left + names + 22;
  const double right = coated && !stacked ? 0.5 * (left + area.right - between) : area.right - 12;
  const double middle = area.bottom + 0.5 * area.height();
  const Box first{left, (stacked ? middle : area.bottom) + below, right, area.top - above};
  draw_bars(first, removal, mm_to_um(study_.removal), "face removal [µm]", palette::face);
  draw_names(first);
  if (!coated) return;
  const Box second = stacked ? Box{left, area.bottom + below, right, middle - above}
                             : Box{right + between, first.bottom, area.right - 12, first.top};
  draw_bars(second, coating, std::max(mm_to_um(result_.coating_thickness - study_.removal), 0.0),
            "coating left on the face [µm]", palette::coating);
  if (stacked) draw_names(second);
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

std::string shows(const sim::InterferenceStudy& study) {
  std::string text =
      fmt::format("Bars of face removal by cause; as set {:.3g} µm.", mm_to_um(study.removal));
  for (const Disturbance& cause : study.disturbances) {
    const auto [low, high] = std::minmax(cause.removal_low, cause.removal_high);
    text += fmt::format(" {}, {}: {:.3g} to {:.3g} µm.", label(cause), amount(cause), mm_to_um(low),
                        mm_to_um(high));
  }
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
           .paint = [&result](Canvas& canvas,
                              const Box& area) { CausesDrawing(canvas, result).draw(area); },
           .height =
               [&result, count = static_cast<double>(study.disturbances.size())](double width) {
                 const int plots = width < narrow_drawing && shows_coating(result) ? 2 : 1;
                 return std::max(least_drawing_height, plots * (134 + 62 * count));
               },
           .shows = shows(study)}};
}

}  // namespace drumlin::viz
