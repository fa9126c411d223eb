#pragma once

#include <optional>
#include <vector>

#include "cases/case.hpp"
#include "cases/library.hpp"
#include "cases/section.hpp"

/// The reader's halves that know what the keys mean, one function per section of the file.
namespace drumlin::cases {

/// What the parts of the reader share.
struct Reading {
  const Library& library;
  Findings& findings;
};

/// The library that a case file looks names up in.
[[nodiscard]] Library library_of(const std::filesystem::path& file);

/// Runs a look-up in the library; reports an unknown name at the value of `key`, and the problems
/// of a broken data file as they are.
template <class LookUp>
auto look_up(const Section& section, std::string_view key, const LookUp& find)
    -> std::optional<decltype(find())> {
  try {
    return find();
  } catch (const UnknownName& error) {
    section.problem_at_value(key, error.what());
  } catch (const CaseError& error) {
    auto& problems = section.findings().problems;
    problems.insert(problems.end(), error.problems().begin(), error.problems().end());
  }
  return std::nullopt;
}

/// Where the case is silent a value of the library is taken, and said so.
void from_library(const Section& section, std::string_view key, const Sourced& sourced,
                  std::string_view unit, double& value);
/// The library's band, or the case's own number without one.
[[nodiscard]] Sourced band(const Section& section, std::string_view key, const Sourced& sourced,
                           double value);

[[nodiscard]] Drum read_drum(const Section& station, const Reading& reading);
/// A relaxation as someone measured it, from a case or from a file of the library.
[[nodiscard]] models::PronySeries read_relaxation(const Section& section);

[[nodiscard]] Part read_part(const Section& top, const Reading& reading);
/// The layer on the faces, if there is one; the oxide on the flanks goes to the part.
[[nodiscard]] std::optional<Coating> read_coating(const Section& part_section,
                                                  const Reading& reading, Part& part);
/// What stands on an edge: a burr of any kind that models::AnyBurr knows.
void read_burr(const Section& owner, const Part& part, const Reading& reading, Feature& feature);
/// What a belt takes off: its law, the law's numbers and the coefficient. The choice of the law and
/// the threshold are read already.
void read_removal(const Section& section, Belt& belt);
[[nodiscard]] BeltStation read_belt_station(const Section& section, const Reading& reading,
                                            const Part& part);
/// An amount of work that a belt has seen or stands.
[[nodiscard]] std::optional<Amount> read_amount(const Section& section, std::string_view key,
                                                bool share_of_life);
/// How the station's belt wears, and what it has seen.
void read_belt_wear(const Section& station_section, const Reading& reading, BeltStation& station);
/// Ra that the name of a finish stands for; the limit's text says where it comes from.
void read_finish(const Section& accept_section, Limits& limits);
/// One brush, or the two rollers of a counter-rotating pair.
[[nodiscard]] std::vector<BrushStation> read_brushes(const Section& section,
                                                     const Reading& reading);
/// The discs of a brush, and their speed; what is missing or does not belong is reported.
[[nodiscard]] models::DiscBrush read_discs(const Section& section, BrushStation& station);
[[nodiscard]] std::vector<Station> read_stations(const Section& top, const Reading& reading,
                                                 const Part& part);
[[nodiscard]] Conveyor read_conveyor(const Section& top);
[[nodiscard]] Accept read_accept(const Section& top, const Part& part);
[[nodiscard]] Numerics read_numerics(const Section& top);
void read_environment(const Section& top, const Reading& reading, Case& scenario);
[[nodiscard]] Grip read_grip(const Section& conveyor);
/// @param scenario  with its stations read.
[[nodiscard]] std::optional<Cost> read_cost(const Section& top, const Case& scenario);
/// Reads [uncertainty], whose keys are those of the whole document.
void read_uncertainty(const Node& root, const Reading& reading, Case& scenario);
// Each refuses numbers of one section that are legal alone and not together; the reader has done so
// as it read them. For cases of which numbers are changed afterwards.
void check_drum(const Section& section, const Drum& drum);
void check_belt_stations(const Section& top, const Case& scenario);
void check_burr(const Section& owner, const Part& part, const Feature& feature);
void check_coating(const Section& section, const Coating& coating, double sheet);
void check_part(const Section& top, const Part& part);

/// Refuses belts that run with the feed and not faster.
void check_speeds(const Section& top, const Case& scenario);
/// All that the reader refuses once every section is read and right by itself.
void check_together(const Section& top, const Case& scenario);
/// Reads and checks a document whose problems and notes go to the findings; its text, the text's
/// hash and the notes are left to the caller.
[[nodiscard]] Case read_document(const Node& root, const Reading& reading);
/// The same without `check_together`.
[[nodiscard]] Case read_sections(const Section& top, const Reading& reading);
/// @throws CaseError, in the order of lines, if anything was found wrong.
void throw_problems(Findings& findings);

/// Refuses openings that overlap each other or run over the part's outline, and such that cannot
/// fit.
void check_openings(const Section& top, const Part& part);
/// Refuses burrs that no cover of the line can swallow.
void check_burrs(const Section& top, const Case& scenario);
/// Refuses limits that no process can meet since the sheet's geometry forbids them, and limits on
/// what the part does not have.
void check_limits(const Section& top, const Case& scenario);
/// Refuses belts and brushes that run faster than they are rated, belts that must stay dry on a wet
/// line, and more lanes than a belt is wide.
void check_ratings(const Section& top, const Case& scenario);
/// Says which keys of drums and belts have no effect under the case's own [numerics].
void note_idle_keys(const Section& top, const Case& scenario);

}  // namespace drumlin::cases
