#pragma once

#include <filesystem>
#include <optional>
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

/// A distribution over the numbers of a key; its ends must be legal.
[[nodiscard]] std::optional<models::AnyDistribution> read_distribution(const Section& table,
                                                                       const std::string& path,
                                                                       const KeyInfo& key,
                                                                       std::string& unit);

/// Numbers of the factor's range at which its key is tried.
[[nodiscard]] std::vector<double> probes_of(const Factor& factor);

/// A list of comma-separated values: keys in the first line, one row of the study in every other.
struct StudyList {
  std::vector<FactorKey> columns;
  std::vector<std::vector<double>> rows;
};
/// Problems go to `findings`, which name the list's own file.
[[nodiscard]] StudyList read_list(std::string_view text, const OpenCase& base, Findings& findings);

}  // namespace drumlin::cases
