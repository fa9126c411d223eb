#include "sim/app/study_analysis.hpp"

#include <vector>

#include <fmt/format.h>

#include "cases/study_reader.hpp"
#include "sim/app/sweep_parts.hpp"
#include "sim/study_analysis/analyse.hpp"
#include "viz/study/analysis_words.hpp"
#include "viz/study/study_report.hpp"

namespace drumlin::app {
namespace {

std::string analysis_text(const sim::StudyAnalysis& analysis, const Style& style) {
  std::string text;
  if (!analysis.failed.empty())
    text += list("Failures", viz::corner_sentences(analysis, analysis.failed, "failed"),
                 Paint::plain, style);
  if (!analysis.aims.empty())
    text +=
        list("What is given up for what",
             viz::front_sentences(analysis, analysis.front, "accepted rows"), Paint::plain, style);
  text += list("What matters most", viz::share_sentences(analysis), Paint::plain, style);
  if (!analysis.odd_rows.empty()) {
    std::string rows;
    for (const sim::OddRow& odd : analysis.odd_rows)
      rows += (rows.empty() ? "" : ", ") + std::to_string(odd.row);
    text += list("Odd rows",
                 {"Farthest from what the rows around them say: " + rows +
                  ". Rerun these at the finer model: drumlin sweep " + analysis.study_file +
                  " --row " + std::to_string(analysis.odd_rows.front().row) + " --out case.toml"},
                 Paint::plain, style);
  }
  return text;
}

}  // namespace

cases::StudyWishes wishes_for(const sim::StudyHeader& header, const std::string& file) {
  cases::StudyWishes wishes = cases::read_wishes(header.study_text, file);
  std::vector<cases::NamedColumn> columns;
  for (const std::size_t index : sim::columns_to_aim_at(header))
    columns.push_back({header.columns[index].name, header.columns[index].unit});
  wishes.aims = cases::aims_over(wishes, columns);
  return wishes;
}

std::string aims_without_numbers(const cases::StudyWishes& wishes, const sim::RowRunner& runner) {
  std::string text;
  for (const cases::Aim& aim : wishes.aims)
    for (std::size_t i = 0; i < runner.columns().size(); ++i)
      if (runner.columns()[i].name == aim.column && !runner.first_outputs()[i])
        text += fmt::format(
            "{}:{}:{}: warning: the case that was tried first gives no number for \"{}\": where no "
            "row has one there is no front\n",
            wishes.file, aim.place.line, aim.place.column, aim.column);
  return text;
}

std::string write_analysis(const viz::StudyFile& study, const std::string& file,
                           const std::filesystem::path& folder, const std::string& called,
                           const Style& style) {
  const sim::StudyTable table{
      .header = &study.header(),
      .each = [&](const std::vector<std::size_t>& columns, const sim::TakeRows& take) {
        study.each(columns, take);
      }};
  const sim::StudyAnalysis analysis = sim::analyse(table, wishes_for(study.header(), file));
  const std::string no_pictures = viz::write_study_report(analysis, study, folder);
  std::string text = study_text(analysis, called, style) + analysis_text(analysis, style);
  if (!no_pictures.empty()) text += wrapped("No PNG pictures: " + no_pictures, "", style);
  return text;
}

}  // namespace drumlin::app
