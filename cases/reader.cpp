#include "cases/reader.hpp"

#include <algorithm>
#include <tuple>

#include <fmt/format.h>

#include "cases/file_text.hpp"
#include "cases/reader_parts.hpp"
#include "cases/schema_rest.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

void sort_by_place(std::vector<Problem>& problems, const std::string& case_file) {
  std::stable_sort(problems.begin(), problems.end(), [&](const Problem& a, const Problem& b) {
    const auto order = [&](const Problem& p) {
      return std::tuple(p.file != case_file, p.file, p.line, p.column);
    };
    return order(a) < order(b);
  });
  // A broken data file that two keys name is reported once.
  const auto same = [](const Problem& a, const Problem& b) { return to_string(a) == to_string(b); };
  problems.erase(std::unique(problems.begin(), problems.end(), same), problems.end());
}

}  // namespace

void check_speeds(const Section& top, const Case& scenario) {
  const auto stations = top.open_list("station");
  for (std::size_t i = 0; i < scenario.stations.size() && i < stations.size(); ++i) {
    const auto* belt = std::get_if<BeltStation>(&scenario.stations[i]);
    if (belt == nullptr || belt->direction != Direction::with_feed) continue;
    if (belt->speed > 0 && belt->speed <= scenario.conveyor.speed)
      stations[i].problem_at_value(
          "speed", fmt::format("the belt runs with the feed and is not faster than the part, {}",
                               units::format(scenario.conveyor.speed, "m/min", 6)));
  }
}

void check_together(const Section& top, const Case& scenario) {
  check_speeds(top, scenario);
  check_ratings(top, scenario);
  check_openings(top, scenario.part);
  check_burrs(top, scenario);
  check_limits(top, scenario);
}

Case read_sections(const Section& top, const Reading& reading) {
  Case scenario;
  scenario.file = reading.findings.file;
  scenario.title = std::filesystem::path(scenario.file).stem().string();
  read_fields<Case>(top, top_fields, scenario);
  scenario.part = read_part(top, reading);
  scenario.stations = read_stations(top, reading, scenario.part);
  scenario.conveyor = read_conveyor(top);
  read_environment(top, reading, scenario);
  scenario.cost = read_cost(top, scenario);
  scenario.accept = read_accept(top, scenario.part);
  scenario.numerics = read_numerics(top);
  return scenario;
}

Case read_document(const Node& root, const Reading& reading) {
  const Section top(root, "", reading.findings);
  Case scenario = read_sections(top, reading);
  if (reading.findings.problems.empty()) {
    check_together(top, scenario);
    note_idle_keys(top, scenario);
  }
  return scenario;
}

void throw_problems(Findings& findings) {
  if (findings.problems.empty()) return;
  sort_by_place(findings.problems, findings.file);
  throw CaseError(std::move(findings.problems));
}

Case parse(std::string_view text, const std::filesystem::path& file) {
  const Node root = parse_toml(text, file.string());
  Findings findings(file.string());
  const Library library = library_of(file);
  Case scenario = read_document(root, {library, findings});
  read_uncertainty(root, {library, findings}, scenario);
  throw_problems(findings);
  scenario.text = text;
  scenario.sha256 = sha256(scenario.text);
  std::stable_sort(findings.unused.begin(), findings.unused.end(),
                   [](const UnusedKey& a, const UnusedKey& b) { return a.line < b.line; });
  scenario.unused = std::move(findings.unused);
  scenario.defaults = std::move(findings.defaults);
  return scenario;
}

Library library_of(const std::filesystem::path& file) {
  const std::filesystem::path folder = file.parent_path();
  return Library(folder.empty() ? std::filesystem::path(".") : folder);
}

Case read(const std::filesystem::path& file) {
  return parse(file_text(file, "a case file"), file);
}

}  // namespace drumlin::cases
