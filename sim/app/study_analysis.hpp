#pragma once

#include <filesystem>
#include <string>

#include "cases/study.hpp"
#include "sim/app/text.hpp"
#include "sim/study_analysis_result.hpp"
#include "sim/sweep/row_runner.hpp"
#include "viz/study/study_file.hpp"

/// What a finished study says: the end of `drumlin sweep` and `drumlin merge`.
namespace drumlin::app {

/// The wishes of a study's text, with its aims found among the table's columns and their bounds in
/// the columns' units.
/// @param file  that messages and commands name.
/// @throws cases::CaseError.
[[nodiscard]] cases::StudyWishes wishes_for(const sim::StudyHeader& header,
                                            const std::string& file);

/// Warns of aims for which the case that was tried first has no number: the model may never give
/// it. Empty where all have one.
[[nodiscard]] std::string aims_without_numbers(const cases::StudyWishes& wishes,
                                               const sim::RowRunner& runner);

/// Analyses a packed study and writes what it says into a folder.
/// @param called  what messages call the folder.
/// @return what became of the rows and what they say, in a few lines.
[[nodiscard]] std::string write_analysis(const viz::StudyFile& study, const std::string& file,
                                         const std::filesystem::path& folder,
                                         const std::string& called, const Style& style);

}  // namespace drumlin::app
