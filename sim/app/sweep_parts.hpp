#pragma once

#include <cstdint>
#include <stop_token>
#include <string>

#include "cases/study.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/text.hpp"
#include "sim/study_analysis_result.hpp"
#include "sim/sweep/row_runner.hpp"
#include "viz/study/study_file.hpp"
#include "viz/study/study_store.hpp"

/// The parts of `drumlin sweep`.
namespace drumlin::app {

/// Share of the progress line that rows take; the rest is packing.
inline constexpr double rows_share = 0.95;

/// Whether the command computes a study, and not one row or none.
[[nodiscard]] bool is_whole_study(const SweepCommand& command);

/// The header of a study whose wishes fit its columns; warns on stderr of aims without numbers,
/// unless the command is quiet.
/// @throws cases::CaseError where an aim names no column.
[[nodiscard]] sim::StudyHeader checked_header(const SweepCommand& command,
                                              const cases::Study& study,
                                              const sim::RowRunner& runner);

/// Makes the command's folder, or opens it to go on. @throws InputError.
[[nodiscard]] viz::StudyStore open_store(const SweepCommand& command,
                                         const sim::StudyHeader& header);

/// Packs what is done and says what it is; a shard is left for drumlin merge.
/// @throws InputError if it cannot be written; sim::Stopped.
void pack_and_tell(const SweepCommand& command, viz::StudyStore& store, ProgressLine& line,
                   const std::stop_token& stop);

/// "0/4" to "3/4", or "1/4" to "4/4": 0 and 4 of 4 are the same part.
/// @throws InputError.
[[nodiscard]] viz::Shard parse_shard(const std::string& text);

/// What became of the rows of a packed study, and what it took, for a person to read.
[[nodiscard]] std::string study_text(const sim::StudyAnalysis& analysis, const std::string& folder,
                                     const Style& style);

/// What a study would take, from some rows that are computed on the spot.
/// @param shard  of it that the command asks for.
[[nodiscard]] std::string forecast_text(const cases::Study& study, sim::RowRunner& runner,
                                        const viz::Shard& shard, const std::string& said_of,
                                        const Style& style);

/// One row of a study: its values and all that the model says.
/// @throws InputError if the study has no such row.
[[nodiscard]] std::string row_text(const cases::Study& study, sim::RowRunner& runner,
                                   std::uint64_t number, const Style& style);

}  // namespace drumlin::app
