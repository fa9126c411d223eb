#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_station.hpp"

namespace drumlin::cases {
namespace {

/// More terms than any measurement resolves; keeps hostile files from costing time.
constexpr std::size_t most_terms = 200;
constexpr std::string_view such_as =
    R"(expected terms = [ { time = "0.3 ms", modulus = "0.94 MPa" }, ... ])";

}  // namespace

models::PronySeries read_relaxation(const Section& section) {
  models::PronySeries series;
  read_fields<models::PronySeries>(section, relaxation_fields, series);
  const Node* terms = section.find("terms");
  if (terms == nullptr) {
    if (section.lacks("terms"))
      section.problem_at_value("terms", fmt::format("missing; {}", such_as));
    return series;
  }
  if (terms->kind == Node::Kind::list && terms->items.empty())
    section.problem_at_value("terms", fmt::format("no terms; {}", such_as));
  if (terms->items.size() > most_terms) {
    section.problem_at_value(
        "terms", fmt::format("{} terms; at most {} are taken", terms->items.size(), most_terms));
    return series;
  }
  for (const Section& item : section.open_list("terms")) {
    models::PronyTerm term;
    read_fields<models::PronyTerm>(item, relaxation_term_fields, term);
    series.terms.push_back(term);
  }
  return series;
}

}  // namespace drumlin::cases
