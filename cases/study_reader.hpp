#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

#include "cases/study.hpp"

namespace drumlin::cases {

/// Reads and checks a study and the case that it varies.
///
/// Every factor's values are tried on the case's own keys: a key that the case does not know, a
/// unit that does not fit, an end outside the legal range are refused here, at their place in the
/// study. What only does not go together with other values is left to the rows.
///
/// @throws CaseError with every problem of the study; with the case's, where that is wrong.
[[nodiscard]] Study read_study(const std::filesystem::path& file);

/// The same from text; `file` names it in messages and says where its case lies.
[[nodiscard]] Study parse_study(std::string_view text, const std::filesystem::path& file);

/// What the text of a study says about itself, read without its case.
/// @throws CaseError if its aims are wrong.
[[nodiscard]] StudyWishes read_wishes(std::string_view text, const std::string& file);

/// A column of the table that a study gives.
struct NamedColumn {
  std::string name;
  std::string unit;
};

/// The aims over the columns that there are, bounds in the columns' units.
/// @param columns  those that hold numbers to be wanted.
/// @throws CaseError naming the nearest column for one that there is not, and a bound whose unit
/// does not fit.
[[nodiscard]] std::vector<Aim> aims_over(const StudyWishes& wishes,
                                         std::span<const NamedColumn> columns);

}  // namespace drumlin::cases
