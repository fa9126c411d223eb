#include "viz/study/analysis_json.hpp"

#include "viz/json_values.hpp"
#include "viz/study/analysis_words.hpp"

namespace drumlin::viz {
namespace {

/// One object per column that something is said of.
class Writer {
 public:
  explicit Writer(const sim::StudyAnalysis& study) : study_(study) {}

  Json write() const;

 private:
  [[nodiscard]] const sim::StudyColumn& column(std::size_t index) const {
    return study_.header.columns[index];
  }
  [[nodiscard]] Json named(std::size_t index) const {
    return {{"column", column(index).name}, {"unit", column(index).unit}};
  }
  [[nodiscard]] Json factors() const;
  [[nodiscard]] Json corners(const std::vector<sim::Corner>& corners,
                             const std::string& what) const;
  [[nodiscard]] Json spreads() const;
  [[nodiscard]] Json limits() const;
  [[nodiscard]] Json aims() const;
  [[nodiscard]] Json front(const sim::Front& front, const std::string& of_which) const;
  [[nodiscard]] Json point(const sim::FrontPoint& point) const;
  [[nodiscard]] Json shares() const;
  [[nodiscard]] Json odd_rows() const;

  const sim::StudyAnalysis& study_;
};

Json proportion_json(const sim::Proportion& share) {
  return {{"share", share.value}, {"interval_95", {share.low, share.high}}};
}

Json counted(const std::vector<sim::CountedText>& list, const char* name) {
  Json all = Json::array();
  for (const sim::CountedText& one : list)
    all.push_back({{name, one.text}, {"rows", one.rows}});
  return all;
}

Json estimate(const sim::Estimate& value) {
  return {{"value", value.value}, {"standard_error", value.error}};
}

Json Writer::factors() const {
  Json all = Json::array();
  for (std::size_t k = 0; k < study_.factors.size(); ++k) {
    Json one = named(study_.factors[k]);
    one["meaning"] = column(study_.factors[k]).meaning;
    one["varied"] = study_.varied[k];
    all.push_back(std::move(one));
  }
  return all;
}

Json Writer::corners(const std::vector<sim::Corner>& corners, const std::string& what) const {
  Json all = Json::array();
  for (const sim::Corner& corner : corners) {
    Json one = named(corner.column);
    one["differs"] = corner.differs;
    one["groups"] = Json::array();
    for (const sim::FactorGroup& group : corner.groups) {
      Json json{{"group", group.name}};
      if (group.low) json["from"] = *group.low;
      if (group.high) json["to"] = *group.high;
      json["rows"] = group.rows;
      json["hits"] = group.hits;
      json.update(proportion_json(group.share));
      one["groups"].push_back(std::move(json));
    }
    all.push_back(std::move(one));
  }
  return {{"in_words", corner_sentences(study_, corners, what)}, {"by_factor", std::move(all)}};
}

Json Writer::spreads() const {
  Json all = Json::array();
  for (const sim::OutputSpread& spread : study_.spreads) {
    Json one = named(spread.column);
    one["rows"] = spread.rows;
    for (std::size_t i = 0; i < spread.percentiles.size(); ++i)
      one["p" + std::to_string(static_cast<int>(sim::spread_percents[i]))] = spread.percentiles[i];
    all.push_back(std::move(one));
  }
  return all;
}

Json Writer::limits() const {
  Json all = Json::array();
  for (const sim::LimitMet& limit : study_.limits) {
    Json one = named(limit.column);
    one["meaning"] = column(limit.column).meaning;
    one["rows"] = limit.rows;
    one.update(proportion_json(limit.met));
    all.push_back(std::move(one));
  }
  return all;
}

Json Writer::aims() const {
  Json all = Json::array();
  for (const sim::AimedColumn& aim : study_.aims) {
    Json one = named(aim.column);
    one["direction"] = aim.up ? "up" : "down";
    if (aim.at_least) one["at_least"] = *aim.at_least;
    if (aim.at_most) one["at_most"] = *aim.at_most;
    all.push_back(std::move(one));
  }
  return all;
}

Json Writer::point(const sim::FrontPoint& point) const {
  Json one{{"row", point.row}};
  for (std::size_t k = 0; k < point.aims.size(); ++k)
    one["aims"][column(study_.aims[k].column).name] = point.aims[k];
  for (std::size_t k = 0; k < point.factors.size(); ++k)
    std::visit([&](const auto& value) { one["factors"][column(study_.factors[k]).name] = value; },
               point.factors[k]);
  return one;
}

Json Writer::front(const sim::Front& front, const std::string& of_which) const {
  Json json{{"rows_compared", front.candidates},
            {"points", front.points.size()},
            {"complete", !front.thinned},
            {"in_words", front_sentences(study_, front, of_which)}};
  if (front.knee) {
    Json knee = point(front.points[front.knee->point]);
    knee["distance_normalised"] = front.knee->distance;
    knee["sides"] = Json::array();
    for (const sim::FrontSide& side : front.knee->sides) {
      Json one{{"towards_best", column(study_.aims[side.aim].column).name},
               {"row", front.points[side.end].row}};
      for (std::size_t k = 0; k < side.change.size(); ++k)
        one["change"][column(study_.aims[k].column).name] = side.change[k];
      knee["sides"].push_back(std::move(one));
    }
    json["knee"] = std::move(knee);
  }
  json["list"] = Json::array();
  for (const sim::FrontPoint& one : front.points)
    json["list"].push_back(point(one));
  return json;
}

Json Writer::shares() const {
  Json all = Json::array();
  for (const sim::OutputShares& shares : study_.shares) {
    Json one = named(shares.column);
    one["points"] = shares.points;
    if (shares.incomplete > 0) one["points_left_out"] = shares.incomplete;
    one["factors"] = Json::array();
    for (std::size_t k = 0; k < shares.factors.size(); ++k) {
      const sim::FactorShare& share = shares.factors[k];
      Json factor{{"column", column(study_.factors[k]).name}};
      if (share.first) factor["first_order"] = estimate(*share.first);
      if (share.total) factor["total"] = estimate(*share.total);
      if (share.rank)
        factor["rank_correlation"] = {{"value", *share.rank},
                                      {"interval_95", {share.rank_low, share.rank_high}}};
      one["factors"].push_back(std::move(factor));
    }
    all.push_back(std::move(one));
  }
  return {{"how", study_.about_shares}, {"outputs", std::move(all)}};
}

Json Writer::odd_rows() const {
  Json all = Json::array();
  for (const sim::OddRow& odd : study_.odd_rows) {
    Json one{{"row", odd.row}};
    one.update(named(odd.column));
    one["value"] = odd.value;
    one["expected"] = odd.expected;
    one["deviations"] = odd.deviations;
    all.push_back(std::move(one));
  }
  return {{"fitted_rows", study_.fitted_rows}, {"rows", std::move(all)}};
}

Json Writer::write() const {
  const sim::StudyHeader& header = study_.header;
  Json json{{"format", "drumlin study analysis 1"},
            {"title", study_.title},
            {"provenance",
             {{"identity", header.identity},
              {"version", header.version},
              {"model", header.model},
              {"seed", header.seed},
              {"case_sha256", header.case_sha256}}},
            {"methods", methods_paragraph(study_)},
            {"how_sure", how_sure(study_)},
            {"rows", header.rows},
            {"rows_looked_at", study_.looked_at},
            {"design", study_.design},
            {"replicates", study_.replicates},
            {"all_factors_drawn", study_.all_drawn},
            {"factors", factors()},
            {"statuses", counted(study_.statuses, "status")},
            {"reasons", counted(study_.reasons, "reason")}};
  if (!study_.failed.empty()) json["failed"] = corners(study_.failed, "failed");
  if (!study_.not_accepted.empty())
    json["not_accepted"] = corners(study_.not_accepted, "were not accepted");
  json["percentiles"] = spreads();
  json["limits"] = limits();
  if (!study_.aims.empty()) {
    json["aims"] = aims();
    json["front"] = front(study_.front, "accepted rows");
    json["front_of_all"] = front(study_.front_of_all, "rows");
  }
  json["shares"] = shares();
  json["odd_rows"] = odd_rows();
  return json;
}

}  // namespace

std::string analysis_json(const sim::StudyAnalysis& study) {
  // Words of a study may hold any bytes.
  return Writer(study).write().dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace drumlin::viz
