#include "viz/compare_drawings.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "viz/layers.hpp"
#include "viz/moment_drawing.hpp"
#include "viz/moment_facts.hpp"
#include "viz/pens.hpp"
#include "viz/plot.hpp"
#include "viz/section_view.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

std::string file_of(const char* kind, std::size_t i) {
  return fmt::format("{}-{}", kind, static_cast<char>('a' + static_cast<int>(i)));
}

std::string heading(const sim::CaseFacts& facts) {
  return facts.cover.empty() ? fmt::format("{}: {}", facts.letter, facts.title)
                             : fmt::format("{}: {} cover", facts.letter, facts.cover);
}

std::vector<Moment> telling_moments(const std::vector<sim::Result>& results,
                                    const std::string& name) {
  std::vector<Moment> moments;
  for (const sim::Result& result : results)
    if (const sim::SectionRecord* section = section_named(result, name))
      if (const auto moment = telling_moment(result, *section)) moments.push_back(*moment);
  return moments;
}

std::vector<Drawing> moments_on(const std::vector<Moment>& moments, const MomentView& view,
                                const sim::Comparison& comparison, const char* kind) {
  std::vector<Drawing> drawings;
  for (std::size_t i = 0; i < moments.size(); ++i) {
    const Moment& moment = moments[i];
    drawings.push_back({.file = file_of(kind, i),
                        .what = heading(comparison.cases[i]),
                        .setup = setup_text(moment.result, moment.frame.station),
                        .why = moment_why(moment.result, moment.section, moment.frame),
                        .paint = [moment, view](Canvas& canvas, const Box& area) {
                          draw_moment(canvas, area, moment, view);
                        }});
  }
  return drawings;
}

/// Section beside an edge on given scales: metal, coating, what was worn off, and the profile that
/// was there before.
struct EdgeView {
  Range depth;  ///< [mm] from the edge line into the metal
  Range z;      ///< [mm]
};

EdgeView edge_view(const std::vector<const sim::SectionRecord*>& sections,
                   const std::vector<const sim::SectionEdge*>& edges) {
  double root = 0;
  Range z{-0.05, 0.05};
  for (const sim::SectionEdge* edge : edges)
    root = std::max(root, edge->burr_root);
  const Range depth{-0.25 * std::clamp(7 * root, 0.8, 3.0), std::clamp(7 * root, 0.8, 3.0)};
  for (std::size_t i = 0; i < sections.size(); ++i) {
    const double a = edges[i]->x + edges[i]->metal * depth.low;
    const double b = edges[i]->x + edges[i]->metal * depth.high;
    const Range x{std::min(a, b), std::max(a, b)};
    for (const auto* heights : {&sections[i]->before, &sections[i]->after})
      if (const auto own = extent(sections[i]->x, *heights, x))
        z = {std::min(z.low, own->low - 0.03), std::max(z.high, 1.15 * own->high)};
  }
  return {depth, z};
}

void draw_edge(Canvas& canvas, const Box& area, const sim::SectionRecord& section,
               const sim::SectionEdge& edge, const EdgeView& view) {
  const Box box{area.left + 118, area.bottom + 84, area.right - 8, area.top - 8};
  // Drawn the same way round in all cases: metal to the right.
  const double sign = edge.metal > 0 ? 1 : -1;
  std::vector<double> x;
  const auto turned = [&](const std::vector<double>& values) {
    std::vector<double> out = values;
    if (sign < 0) std::reverse(out.begin(), out.end());
    return out;
  };
  for (const double at : turned(section.x))
    x.push_back(sign * (at - edge.x));
  const Plot plot(box, view.depth, view.z);
  const auto before = turned(section.before);
  const auto after = turned(section.after);
  canvas.clip(box);
  fill_worn(canvas, plot, x, before, turned(section.before_underside), after, palette::worn);
  fill_layers(canvas, plot, x, after, turned(section.after_coating),
              turned(section.after_underside));
  for (const Piece& piece : metal_pieces(x, before, view.depth)) {
    std::vector<Point> line;
    for (std::size_t i = piece.first; i <= piece.last; ++i)
      line.push_back(plot.at(x[i], before[i]));
    canvas.line(line, {palette::burr, 4, 12});
  }
  canvas.clip({});
  canvas.frame(box, {palette::ink, 2, 0});
  plot.axis_below(canvas, "from the edge line into the metal [mm]", 5);
  plot.axis_left(canvas, "height over the nominal face [mm]", 4);
  canvas.text(
      {box.left + 12, box.top - 10}, "dashed: before",
      {.size = 24, .colour = palette::burr, .bold = true, .along = Along::top, .halo = true});
  canvas.text({box.right - 12, box.bottom + 10},
              fmt::format("heights drawn {:.2g} times", plot.pixels_per_y() / plot.pixels_per_x()),
              {.size = 24, .across = Across::right, .halo = true});
}

std::string edge_sentence(const sim::FeatureResult& feature, const sim::Result& result) {
  std::string text;
  if (feature.edge_drop)
    text += fmt::format("Edge drop {}. ", length_text(feature.edge_drop->value));
  if (feature.burr_height && feature.burr != "none")
    text += feature.burr_height->value > 0 ? fmt::format("{} of the burr still stand. ",
                                                         length_text(feature.burr_height->value))
                                           : std::string("No burr stands over the face. ");
  if (feature.bare_length && result.coating)
    text += fmt::format("Bare of {} over {}.", *result.coating,
                        length_text(feature.bare_length->value));
  else if (result.coating && feature.coating_left && feature.coating_left->value <= 0)
    text += fmt::format("Bare of {} as far as the section reaches.", *result.coating);
  return text;
}

/// Lines with a key below the plot.
struct Curve {
  std::string name;
  std::vector<double> x, y;
};

void draw_curves(Canvas& canvas, const Box& area, const std::vector<Curve>& curves,
                 const char* x_title, const char* y_title) {
  constexpr double row = 36;
  Range x{curves.front().x.front(), curves.front().x.front()};
  double high = 0;
  for (const Curve& curve : curves)
    for (std::size_t i = 0; i < curve.x.size(); ++i) {
      x = {std::min(x.low, curve.x[i]), std::max(x.high, curve.x[i])};
      high = std::max(high, curve.y[i]);
    }
  const double key = row * static_cast<double>(curves.size()) + 16;
  const Plot plot({area.left + 118, area.bottom + 84 + key, area.right - 16, area.top - 8}, x,
                  {0, 1.12 * std::max(high, 1e-9)});
  plot.axis_below(canvas, x_title, 5);
  plot.axis_left(canvas, y_title, 4);
  canvas.clip(plot.area());
  for (std::size_t i = 0; i < curves.size(); ++i) {
    std::vector<Point> line;
    for (std::size_t k = 0; k < curves[i].x.size(); ++k)
      line.push_back(plot.at(curves[i].x[k], curves[i].y[k]));
    canvas.line(line, {pen(i).colour, 5, pen(i).dash});
  }
  canvas.clip({});
  canvas.frame(plot.area(), {palette::ink, 2, 0});
  for (std::size_t i = 0; i < curves.size(); ++i) {
    const double y = area.bottom + key - row * (static_cast<double>(i) + 0.5);
    canvas.line({area.left + 118, y}, {area.left + 200, y}, {pen(i).colour, 5, pen(i).dash});
    canvas.text({area.left + 216, y}, curves[i].name, {.size = 25, .along = Along::middle});
  }
}

}  // namespace

std::optional<SharedEdge> shared_edge(const std::vector<sim::Result>& results) {
  std::optional<SharedEdge> busiest;
  double highest = -1;
  for (const sim::SectionRecord& section : results.front().sections)
    for (const sim::SectionEdge& edge : section.edges) {
      double pressure = 0;
      const bool everywhere =
          std::all_of(results.begin(), results.end(), [&](const sim::Result& result) {
            const sim::SectionRecord* there = section_named(result, section.name);
            const sim::FeatureResult* feature = feature_named(result, edge.feature);
            if (there == nullptr || feature == nullptr ||
                edge_named(*there, edge.feature) == nullptr)
              return false;
            if (feature->peak_pressure)
              pressure = std::max(pressure, feature->peak_pressure->value);
            return true;
          });
      if (!everywhere || pressure <= highest) continue;
      highest = pressure;
      busiest = SharedEdge{section.name, edge.feature};
    }
  return busiest;
}

std::vector<Drawing> contact_drawings(const std::vector<sim::Result>& results,
                                      const sim::Comparison& comparison, const SharedEdge& edge) {
  const std::vector<Moment> moments = telling_moments(results, edge.section);
  if (moments.size() != results.size()) return {};
  return moments_on(moments, shared_view(moments), comparison, "contact");
}

std::vector<Drawing> close_drawings(const std::vector<sim::Result>& results,
                                    const sim::Comparison& comparison, const SharedEdge& edge) {
  const std::vector<Moment> moments = telling_moments(results, edge.section);
  if (moments.size() != results.size()) return {};
  const auto view = shared_close_view(moments, edge.edge);
  if (!view) return {};
  return moments_on(moments, *view, comparison, "close");
}

std::vector<Drawing> edge_drawings(const std::vector<sim::Result>& results,
                                   const sim::Comparison& comparison, const SharedEdge& edge) {
  std::vector<const sim::SectionRecord*> sections;
  std::vector<const sim::SectionEdge*> edges;
  for (const sim::Result& result : results) {
    sections.push_back(section_named(result, edge.section));
    edges.push_back(edge_named(*sections.back(), edge.edge));
  }
  const EdgeView view = edge_view(sections, edges);
  std::vector<Drawing> drawings;
  for (std::size_t i = 0; i < results.size(); ++i) {
    const sim::FeatureResult* feature = feature_named(results[i], edge.edge);
    if (feature == nullptr) continue;
    drawings.push_back(
        {.file = file_of("edge", i),
         .what = heading(comparison.cases[i]),
         .setup = edge.edge + ", after the last station",
         .why = edge_sentence(*feature, results[i]),
         .paint = [section = sections[i], at = edges[i], view](Canvas& canvas, const Box& area) {
           draw_edge(canvas, area, *section, *at, view);
         }});
  }
  return drawings;
}

std::vector<Drawing> coating_drawings(const std::vector<sim::Result>& results,
                                      const sim::Comparison& comparison, const SharedEdge& edge) {
  constexpr double shown = 5;  // [mm]
  std::vector<Curve> curves;
  for (std::size_t i = 0; i < results.size(); ++i) {
    const sim::FeatureResult* feature = feature_named(results[i], edge.edge);
    if (feature == nullptr || !feature->coating || feature->coating->arc.size() < 2) return {};
    Curve curve{heading(comparison.cases[i]), {}, {}};
    for (std::size_t k = 0; k < feature->coating->arc.size(); ++k) {
      if (feature->coating->arc[k] > shown) break;
      curve.x.push_back(feature->coating->arc[k]);
      curve.y.push_back(1e3 * feature->coating->left[k]);
    }
    if (curve.x.size() < 2) return {};
    curves.push_back(std::move(curve));
  }
  std::string why = "Beside the edge the coating goes first";
  for (std::size_t i = 0; i < results.size(); ++i)
    if (const auto& left = results[i].part.face.coating_left)
      why += fmt::format("{} {} keeps {} on the face", i == 0 ? ":" : ",",
                         comparison.cases[i].letter, length_text(left->value));
  return {{.file = "coating",
           .what = fmt::format("{} left beside {}", results.front().coating.value_or("coating"),
                               edge.edge),
           .setup = "all cases in one plot, along the surface that is left",
           .why = why + ".",
           .paint = [curves = std::move(curves)](Canvas& canvas, const Box& area) {
             draw_curves(canvas, area, curves, "from the edge along the surface [mm]",
                         "coating left [µm]");
           }}};
}

std::vector<Drawing> thickness_drawings(const std::vector<sim::Result>& results,
                                        const sim::Comparison& comparison) {
  constexpr double most = 0.2;  // [mm] thicker or thinner
  std::vector<Curve> curves;
  std::string why = "0.1 mm of sheet moves the face's loss";
  for (std::size_t i = 0; i < results.size(); ++i) {
    const auto& study = results[i].interference_study;
    if (!study || !(study->removal_per_mm > 0)) return {};
    Curve curve{heading(comparison.cases[i]), {}, {}};
    for (int k = -20; k <= 20; ++k) {
      const double thicker = most * k / 20;
      curve.x.push_back(thicker);
      curve.y.push_back(1e3 * std::max(0.0, study->removal + thicker * study->removal_per_mm));
    }
    curves.push_back(std::move(curve));
    why += fmt::format("{} by {} in {}", i == 0 ? "" : ",",
                       length_text(0.1 * study->removal_per_mm), comparison.cases[i].letter);
  }
  return {{.file = "thickness",
           .what = "what a thicker or thinner sheet does",
           .setup = "straight lines through the setting, by the fast model; bow, cover wear and a "
                    "thicker belt act the same way",
           .why = why + ".",
           .paint = [curves = std::move(curves)](Canvas& canvas, const Box& area) {
             draw_curves(canvas, area, curves, "sheet thicker than nominal [mm]",
                         "loss of the face [µm]");
           }}};
}

}  // namespace drumlin::viz
