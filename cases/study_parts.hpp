#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "cases/case_family.hpp"
#include "cases/section.hpp"
#include "cases/study.hpp"

/// The study reader's halves, one per kind of thing that a study holds.
namespace drumlin::cases {

/// A factor with what the case needs to know of it.
struct FactorKey {
  Factor factor;
  VariedKey varied;
  std::optional<KeyInfo> info;  ///< none for a key with rules of its own
};

/// Opens the case that a study names, under the study's model; none if there is no such file, which
/// is reported, as is a model that the case cannot have.
/// @throws CaseError with the case's problems.
[[nodiscard]] std::optional<OpenCase> open_study_case(const Section& top,
                                                      const std::filesystem::path& folder);

/// Whether a key holds a number.
[[nodiscard]] bool holds_number(const std::optional<KeyInfo>& info);

/// Finds the key of a factor in the case.
/// @param at  where the study names it.
/// @return    none if the case has no such key, which is reported.
[[nodiscard]] std::optional<FactorKey> find_key(const OpenCase& base, const std::string& path,
                                                Place at, const std::string& named_by,
                                                Findings& findings);

/// Takes a value for a factor: a number is checked against the key's range, a word is tried on the
/// case. What is wrong is reported at the value.
void add_value(const OpenCase& base, const Node& value, FactorKey& key, Findings& findings);

/// One entry of [[factor]].
/// @param design  that says what a factor needs.
[[nodiscard]] std::optional<FactorKey> read_factor(const Section& item, const OpenCase& base,
                                                   DesignKind design);

/// One entry of [[filter]].
/// @param keys  the study's factors, which it compares.
[[nodiscard]] std::optional<Filter> read_filter(const Section& item, const OpenCase& base,
                                                const std::vector<FactorKey>& keys);

/// All entries of [[aim]]; which columns there are is not known yet.
[[nodiscard]] std::vector<Aim> read_aims(const Section& top);

/// A distribution over the numbers of a key; its ends must be legal.
[[nodiscard]] std::optional<models::AnyDistribution> read_distribution(const Section& table,
                                                                       const std::string& path,
                                                                       const KeyInfo& key,
                                                                       std::string& unit);

/// A normal distribution around a value, of which a section gives the bare deviation.
/// @param name  of the section's key that holds it.
/// @param unit  that the value is shown in.
[[nodiscard]] std::optional<models::AnyDistribution> read_deviation(const Section& section,
                                                                    const std::string& name,
                                                                    const KeyInfo& key, double mean,
                                                                    std::string& unit);

/// A value as it would be written in a file.
[[nodiscard]] std::string written(const Node& value);
/// Unit as a value has it; empty for what has none.
[[nodiscard]] std::string unit_in(const Node& value);

/// What follows of a factor once its values are known: numbers of its range at which its key is
/// tried, and how its numbers are shown.
void settle(FactorKey& key);

/// A key that scatters, as a factor.
[[nodiscard]] FactorKey scattered_factor(const ScatteredKey& key);
/// Where the thickness is drawn, sets the line for the case's own sheet, unless the case says for
/// which: a drawn sheet is one that comes, not one that the line is set for.
void keep_setting(OpenCase& base, std::span<const FactorKey> keys);

/// Puts a fidelity into a case for good. @throws CaseError
void set_model(OpenCase& base, const std::string& model);

/// The scatter of a study's rows: the case's own, on top of the factors.
/// @param base  with the case's [uncertainty]. @param keys  the study's factors.
/// @param top   of the study, whose key `scatter` asks for it; what does not go together is
///              reported there.
[[nodiscard]] std::optional<RowScatter> row_scatter(const OpenCase& base,
                                                    const std::vector<FactorKey>& keys,
                                                    const Section& top);

/// A list of comma-separated values: keys in the first line, one row of the study in every other.
struct StudyList {
  std::vector<FactorKey> columns;
  std::vector<std::vector<double>> rows;
};
/// Problems go to `findings`, which name the list's own file.
[[nodiscard]] StudyList read_list(std::string_view text, const OpenCase& base, Findings& findings);

}  // namespace drumlin::cases
