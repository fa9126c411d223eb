#include "viz/study/analysis_words.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "viz/cells.hpp"

namespace drumlin::viz {
namespace {

const sim::StudyColumn& column(const sim::StudyAnalysis& study, std::size_t index) {
  return study.header.columns[index];
}

std::string per_cent(double share) {
  return fmt::format("{:.3g}", 100 * share);
}

/// "65.1 ± 9.5 %", two errors.
std::string estimate_text(const sim::Estimate& share) {
  return fmt::format("{:.1f} ± {:.2g} %", 100 * share.value, 200 * share.error);
}

/// "3.2 µm of front edge drop".
std::string amount(const sim::StudyAnalysis& study, std::size_t aim, double change) {
  const std::size_t at = study.aims[aim].column;
  return fmt::format("{} of {}", value_text(study, at, std::abs(change)),
                     column_text(column(study, at)));
}

std::string per_unit(const sim::StudyAnalysis& study, std::size_t given, double up,
                     std::size_t gained, double by) {
  const auto unit = [&](std::size_t aim) {
    return shown_unit(column(study, study.aims[aim].column).unit);
  };
  return fmt::format("{} {} per {}", number_text(std::abs(up / by)), unit(given),
                     unit(gained).empty() ? "1" : unit(gained));
}

std::string side_sentence(const sim::StudyAnalysis& study, const sim::Front& front,
                          const sim::FrontSide& side) {
  const sim::FrontPoint& end = front.points[side.end];
  const std::string name = column_text(column(study, study.aims[side.aim].column));
  const double gained = side.change[side.aim];
  if (gained == 0) return fmt::format("The knee has itself the best {} of the front.", name);
  std::string text = fmt::format("From the knee to the best {} (row {}) one gains {} and gives up ",
                                 name, end.row, amount(study, side.aim, gained));
  std::string given;
  std::string also;
  for (std::size_t k = 0; k < side.change.size(); ++k) {
    if (k == side.aim || side.change[k] == 0) continue;
    const bool better = (side.change[k] > 0) == study.aims[k].up;
    std::string& list = better ? also : given;
    list += (list.empty() ? "" : " and ") + amount(study, k, side.change[k]);
    if (!better)
      list += fmt::format(" ({} gained)", per_unit(study, k, side.change[k], side.aim, gained));
  }
  text += given.empty() ? "nothing" : given;
  if (!also.empty()) text += "; it also gains " + also;
  return text + ".";
}

}  // namespace

std::string value_text(const sim::StudyAnalysis& study, std::size_t index, double value) {
  return with_unit(value, column(study, index).unit);
}

std::string column_text(const sim::StudyColumn& column) {
  if (column.role == "factor") return column.name;
  std::string name = spoken_key(column.name, column.unit);
  if (const std::string money = " " + column.unit + " per part"; name.ends_with(money))
    name.replace(name.size() - money.size(), money.size(), " per part");
  if (const std::size_t dot = name.find_last_of('.'); dot != std::string::npos)
    name.replace(dot, 1, " ");
  return name;
}

std::string share_text(std::uint64_t hits, std::uint64_t rows, const sim::Proportion& share) {
  return fmt::format("{} of {}, {} % ({} to {} %)", hits, rows, per_cent(share.value),
                     per_cent(share.low), per_cent(share.high));
}

std::string settings_text(const sim::StudyAnalysis& study, const sim::FrontPoint& point) {
  std::string text;
  for (std::size_t k = 0; k < point.factors.size(); ++k) {
    const std::size_t at = study.factors[k];
    const double* number = std::get_if<double>(&point.factors[k]);
    text += fmt::format("{}{} {}", k == 0 ? "" : ", ", column(study, at).name,
                        number != nullptr ? value_text(study, at, *number)
                                          : std::get<std::string>(point.factors[k]));
  }
  return text;
}

std::vector<std::string> front_sentences(const sim::StudyAnalysis& study, const sim::Front& front,
                                         const std::string& of_which) {
  std::vector<std::string> sentences;
  if (front.points.empty()) {
    const bool others = !study.front_of_all.points.empty();
    sentences.push_back(fmt::format(
        "No front over {}: {}.", of_which,
        others ? "none is accepted within the aims' bounds" : "no row has a number in every aim"));
    for (const sim::AimedColumn& aim : study.aims)
      if (std::none_of(study.spreads.begin(), study.spreads.end(),
                       [&](const sim::OutputSpread& s) { return s.column == aim.column; }))
        sentences.push_back(
            fmt::format("{} has no number in any row: the {} model does not give it.",
                        column(study, aim.column).name, study.header.model));
    return sentences;
  }
  sentences.push_back(fmt::format(
      "{} of {} {} are beaten by no other row: none is at least as good in every aim and better in "
      "one.{}",
      front.points.size(), front.candidates, of_which,
      front.thinned ? " The front has more rows than are kept (20,000): those listed are a part of "
                      "it, checked against every row."
                    : ""));
  if (!front.knee) {
    sentences.push_back("No knee: " + front.no_knee + ".");
    return sentences;
  }
  const sim::FrontPoint& knee = front.points[front.knee->point];
  std::string values;
  for (std::size_t k = 0; k < knee.aims.size(); ++k)
    values +=
        fmt::format("{}{} {}", k == 0 ? "" : ", ", column_text(column(study, study.aims[k].column)),
                    value_text(study, study.aims[k].column, knee.aims[k]));
  sentences.push_back(fmt::format("Knee: row {}, with {}. Its settings: {}.", knee.row, values,
                                  settings_text(study, knee)));
  for (const sim::FrontSide& side : front.knee->sides)
    sentences.push_back(side_sentence(study, front, side));
  return sentences;
}

std::vector<std::string> corner_sentences(const sim::StudyAnalysis& study,
                                          const std::vector<sim::Corner>& corners,
                                          const std::string& what) {
  std::vector<std::string> sentences;
  for (const sim::Corner& corner : corners) {
    if (!corner.differs) continue;
    const auto [least, most] = std::minmax_element(
        corner.groups.begin(), corner.groups.end(),
        [](const auto& a, const auto& b) { return a.share.value < b.share.value; });
    const auto where = [&](const sim::FactorGroup& group) {
      if (!group.low) return group.name;
      if (*group.low == *group.high) return value_text(study, corner.column, *group.low);
      return fmt::format("{} ({} to {})", group.name, number_text(*group.low),
                         value_text(study, corner.column, *group.high));
    };
    sentences.push_back(fmt::format(
        "Not random over {}: at its {} {} {}; at its {} {}.", column(study, corner.column).name,
        where(*most), share_text(most->hits, most->rows, most->share), what, where(*least),
        share_text(least->hits, least->rows, least->share)));
  }
  if (sentences.empty() && !corners.empty())
    sentences.push_back(
        fmt::format("Rows that {} are spread over every factor: no part of one has a share that "
                    "stands apart from the others'.",
                    what));
  return sentences;
}

std::vector<std::string> share_sentences(const sim::StudyAnalysis& study) {
  std::vector<std::string> sentences;
  for (const sim::OutputShares& shares : study.shares) {
    std::size_t most = shares.factors.size();
    double greatest = -1;
    const auto of = [](const sim::FactorShare& share) {
      return share.total ? share.total : share.first;
    };
    for (std::size_t k = 0; k < shares.factors.size(); ++k) {
      const auto share = of(shares.factors[k]);
      if (share && share->value > greatest) {
        greatest = share->value;
        most = k;
      }
    }
    if (most == shares.factors.size()) continue;
    const sim::FactorShare& factor = shares.factors[most];
    const auto share = of(factor);
    sentences.push_back(fmt::format(
        "{}: {} has most to do with it: {} share of its variance {}{}.",
        column_text(column(study, shares.column)), column(study, study.factors[most]).name,
        factor.total ? "total" : "first-order", estimate_text(*share),
        factor.rank ? fmt::format(", {}", *factor.rank < 0 ? "more of it gives less"
                                                           : "more of it gives more")
                    : std::string()));
  }
  return sentences;
}

std::vector<std::string> odd_row_sentences(const sim::StudyAnalysis& study) {
  std::vector<std::string> sentences;
  for (const sim::OddRow& odd : study.odd_rows)
    sentences.push_back(fmt::format(
        "Row {}: {} is {}, the rows around say {} ({:.1f} times the usual difference).", odd.row,
        column_text(column(study, odd.column)), value_text(study, odd.column, odd.value),
        value_text(study, odd.column, odd.expected), std::abs(odd.deviations)));
  return sentences;
}

std::string methods_paragraph(const sim::StudyAnalysis& study) {
  const sim::StudyHeader& header = study.header;
  std::string keys;
  for (std::size_t k = 0; k < study.factors.size(); ++k)
    keys += fmt::format("{}{} ({})", k == 0 ? "" : ", ", column(study, study.factors[k]).name,
                        study.varied[k]);
  std::string text = fmt::format(
      "{} rows were computed with the {} model of drumlin {}. {} {} of one case varied: {}. The "
      "rows "
      "are {}{}. A row is a function of the study and its number alone. Percentiles are "
      "interpolated "
      "between neighbours (Hyndman and Fan 1996, definition 7); intervals of proportions are exact "
      "ones at 95 % (Clopper and Pearson 1934).",
      header.rows, header.model, header.version, study.factors.size(),
      study.factors.size() == 1 ? "key" : "keys", keys, study.design_in_words,
      study.replicates > 1 ? fmt::format(", drawn {} times", study.replicates) : std::string());
  if (!study.aims.empty())
    text +=
        " The front is the set of rows that no other row beats; its knee is the row farthest from "
        "the line (plane) through the rows that are best in one aim each, with every aim counted "
        "from 0 (best of the front) to 1 (worst of it) (Das 1999).";
  if (!study.about_shares.empty()) text += " " + study.about_shares;
  if (study.shares.size() > 0)
    text += " Rank correlations are Spearman's, their intervals after Bonett and Wright (2000).";
  return text;
}

std::vector<std::string> how_sure(const sim::StudyAnalysis& study) {
  std::vector<std::string> sentences{
      "Every row is the model's middle value. Bands of single results (from belts, burrs and laws "
      "that nobody measured) are not in this table; drumlin run gives them for one row.",
      "Unless the case's own numbers were measured on this line, nothing here is calibrated: read "
      "what changes and in which order, not the last digit.",
      "Shares and percentiles belong to the ranges that were varied. Other ranges give others.",
  };
  if (!study.all_drawn)
    sentences.push_back(
        "Not every factor is drawn from a distribution: shares of rows are shares of the settings "
        "looked at, not probabilities.");
  if (study.looked_at < study.header.rows)
    sentences.push_back(
        fmt::format("Percentiles, limits and corners are made from {} of {} rows{}; counts and "
                    "fronts from all.",
                    study.looked_at, study.header.rows,
                    study.design == "pick-freeze"
                        ? " (the independent ones of the design; the others repeat their values)"
                        : ", evenly spread (at most 1,000,000 rows or 16,000,000 numbers)"));
  if (study.design == "sobol" || study.design == "latin-hypercube" || study.design == "pick-freeze")
    sentences.push_back(
        "Evenly spread points scatter less than independent ones: exact intervals are on the wide "
        "side.");
  return sentences;
}

}  // namespace drumlin::viz
