#include "sim/fast/part.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <string>
#include <utility>
#include <variant>

#include "sim/answer.hpp"
#include "sim/fast/burr_columns.hpp"
#include "sim/turned.hpp"

namespace drumlin::sim::fast {
namespace {

using cases::Side;

/// An edge of a feature by its name, as it is fed.
struct NamedEdge {
  std::string name;
  FedEdge fed;
};

std::vector<NamedEdge> edges_as_fed(const cases::Feature& feature, double angle) {
  std::vector<NamedEdge> edges;
  for (const Side drawn : sides_of(feature)) {
    for (const FedEdge& fed : fed_edges(angle, drawn)) {
      if (fed.side != Side::side) edges.push_back({edge_name(feature, drawn), fed});
    }
  }
  return edges;
}

/// The drum travels towards -x: metal lies towards +x of a trailing edge.
SectionSide side_of(const NamedEdge& edge, double x, const models::AnyBurr& burr) {
  return {.name = edge.name,
          .x = x,
          .metal = edge.fed.side == Side::trailing ? +1 : -1,
          .burr = burr,
          .across = std::cos(edge.fed.skew)};
}

/// The two rims of an opening stand in one section; a rim nobody asked for has no name.
std::vector<SectionSide> opening(const std::vector<NamedEdge>& edges, double size,
                                 const models::AnyBurr& burr) {
  std::vector<SectionSide> sides;
  for (const Side side : {Side::trailing, Side::leading}) {
    const double x = side == Side::trailing ? 0.5 * size : -0.5 * size;
    const auto asked = std::find_if(edges.begin(), edges.end(),
                                    [&](const NamedEdge& edge) { return edge.fed.side == side; });
    if (asked != edges.end())
      sides.push_back(side_of(*asked, x, burr));
    else
      sides.push_back(side_of({"", {.side = side, .skew = 0.0}}, x, models::NoBurr{}));
  }
  return sides;
}

void cut_feature(Face& face, const cases::Feature& feature, double angle, const SectionCut& cut,
                 const models::AnyBurr& burr) {
  const std::vector<NamedEdge> edges = edges_as_fed(feature, angle);
  if (edges.empty()) return;
  const bool open =
      feature.kind == cases::FeatureKind::hole || feature.kind == cases::FeatureKind::slot;
  if (open) {
    face.sections.push_back(
        unworn_section(feature.name, opening(edges, feature.size.value_or(0.0), burr), cut));
    return;
  }
  for (const NamedEdge& edge : edges)
    face.sections.push_back(unworn_section(feature.name, {side_of(edge, 0.0, burr)}, cut));
}

bool same_burr(const models::NoBurr& /*a*/, const models::NoBurr& /*b*/) {
  return true;
}
template <class Burr>
bool same_burr(const Burr& a, const Burr& b) {
  using Numbers = std::array<double, sizeof(Burr) / sizeof(double)>;
  return std::bit_cast<Numbers>(a) == std::bit_cast<Numbers>(b);
}

bool cut_alike(const SectionRim& a, const SectionRim& b) {
  return a.name.empty() == b.name.empty() && a.x == b.x && a.metal == b.metal &&
         a.across == b.across && a.burr.index() == b.burr.index() &&
         std::visit(
             [&]<class Burr>(const Burr& burr) { return same_burr(burr, std::get<Burr>(b.burr)); },
             a.burr);
}

bool cut_alike(const Section& a, const Section& b) {
  return a.from == b.from && a.to == b.to &&
         std::equal(a.rims.begin(), a.rims.end(), b.rims.begin(), b.rims.end(),
                    [](const SectionRim& x, const SectionRim& y) { return cut_alike(x, y); });
}

}  // namespace

void follow(const Section& worn, Section& alike) {
  alike.height = worn.height;
  alike.burr = worn.burr;
  alike.top = worn.top;
  alike.coating = worn.coating;
  for (std::size_t r = 0; r < worn.rims.size(); ++r) {
    std::string name = std::move(alike.rims[r].name);
    alike.rims[r] = worn.rims[r];
    alike.rims[r].name = std::move(name);
  }
}

Face unworn_part_face(const cases::Part& part, SectionCut cut, FaceSide side) {
  Face face{.plain = unworn_face(part, side), .sections = {}, .alike = {}};
  cut.coating = face.plain.coating;
  cut.top = face.plain.top;
  for (const auto& feature : part.features)
    cut_feature(face, feature, part.angle, cut,
                side == FaceSide::burrs ? feature.burr : models::on_reverse(feature.burr));
  for (const Section& section : face.sections) {
    const auto first =
        std::find_if(face.sections.begin(), face.sections.end(),
                     [&](const Section& other) { return cut_alike(other, section); });
    face.alike.push_back(static_cast<std::size_t>(first - face.sections.begin()));
  }
  return face;
}

double widest_footprint(const cases::Part& part) {
  double widest = 0.0;
  for (const auto& feature : part.features)
    widest = std::max(widest, footprint(feature.burr));
  return widest;
}

}  // namespace drumlin::sim::fast
