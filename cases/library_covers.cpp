#include <algorithm>

#include "cases/file_text.hpp"
#include "cases/library_known.hpp"
#include "cases/reader_parts.hpp"
#include "cases/schema_material.hpp"

namespace drumlin::cases {
namespace {

/// The shifts of a file, by rising temperature.
std::vector<ShiftPoint> read_shifts(const Section& section) {
  std::vector<ShiftPoint> shifts;
  const Node* list = section.find("shift");
  if (list == nullptr || (list->kind == Node::Kind::list && list->items.empty()))
    section.problem_at_value("shift",
                             "missing; expected shift = [ { temperature = \"25 degC\", log10 = 0 "
                             "}, ... ]");
  for (const Section& item : section.open_list("shift")) {
    ShiftPoint point;
    read_fields<ShiftPoint>(item, shift_fields, point);
    if (!shifts.empty() && point.temperature <= shifts.back().temperature)
      item.problem_at_value("temperature", "is not above the one before it");
    shifts.push_back(point);
  }
  return shifts;
}

}  // namespace

CoverMaterial Library::cover(const std::string& name) const {
  return known_->covers.of(name, [&] {
    const std::filesystem::path file = find(EntryKind::cover, name);
    const Node root = parse_toml(file_text(file, "a data file"), file.string());
    Findings findings(file.string());
    const Section section(root, "", findings);
    CoverMaterial cover;
    read_fields<CoverMaterial>(section, cover_fields, cover);
    if (const auto relaxation = section.open("relaxation"))
      cover.relaxation = read_relaxation(*relaxation);
    else if (section.lacks("relaxation"))
      section.problem_at_value("relaxation",
                               "missing; expected [relaxation] with relaxed and terms");
    cover.shifts = read_shifts(section);
    if (!findings.problems.empty()) throw CaseError(std::move(findings.problems));
    cover.name = name;
    cover.relaxation.name = name;
    return cover;
  });
}

}  // namespace drumlin::cases
