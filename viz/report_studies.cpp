#include <algorithm>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/line_quantities.hpp"
#include "viz/report_parts.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

Cell state_cell(const std::optional<bool>& kept) {
  if (!kept) return {"not known", "", "open"};
  return *kept ? Cell{"kept", "", "good"} : Cell{"not kept", "", "bad"};
}

std::string whole_number(double value) {
  return fmt::format("{:.0f}", value);
}

std::string ends(double low, double high, std::string_view unit) {
  return fmt::format("{} to {} {}", number_text(low), number_text(high), shown_unit(unit));
}

std::string points_table(const sim::LifeStudy& study) {
  Table table{"The line with fresh, half-used and worn-out belts",
              {"belts", "parts", "removal coefficient", "face loses", "coating left", "Ra",
               "face temperature", "power", "limits"},
              {}};
  for (const sim::LifePoint& point : study.points) {
    std::string sharp;
    for (const double share : point.sharpness)
      sharp += fmt::format("{}{:.0f} %", sharp.empty() ? "" : ", ", 100 * share);
    const sim::FaceResult& face = point.part.face;
    const std::string kind = point.verdict.state == "accepted"       ? "good"
                             : point.verdict.state == "not accepted" ? "bad"
                                                                     : "open";
    table.rows.push_back({{point.when, "", ""},
                          {whole_number(point.parts), "", ""},
                          {sharp, "of the fresh one", ""},
                          quantity_cell(face.removal, mm_to_um, "um"),
                          quantity_cell(face.coating_left, mm_to_um, "um"),
                          quantity_cell(face.roughness, mm_to_um, "um"),
                          quantity_cell(face.temperature, kelvin_to_celsius, "degC"),
                          {with_unit(mw_to_w(point.power), "W/mm"), "", ""},
                          {point.verdict.state, spoken(point.verdict.decided_by), kind}});
  }
  return table_html(table);
}

std::string belts_table(const sim::LifeStudy& study) {
  Table table{"How long belts last",
              {"station", "parts", "running", "sheet past each place", "end of life", "from"},
              {}};
  for (const sim::BeltLife& belt : study.belts)
    table.rows.push_back(
        {{fmt::format("{}", belt.station + 1), "", ""},
         quantity_cell(belt.parts, as_is, "1"),
         quantity_cell(belt.time, s_to_h, "h"),
         quantity_cell(belt.length, mm_to_m, "m"),
         {fmt::format("{:.0f} % of the fresh removal", 100 * belt.worn_share), "", ""},
         {belt.origin, "", ""}});
  return table_html(table);
}

std::string cost_tables(const sim::CostPerPart& cost) {
  Table table{"Cost per part", {"cause", "per part", "how"}, {}};
  for (const sim::CostItem& item : cost.items)
    table.rows.push_back({{item.cause, "", ""},
                          quantity_cell(item.per_part, as_is, cost.currency),
                          {item.how, "", ""}});
  table.rows.push_back(
      {{"sum", "", ""}, quantity_cell(cost.sum, as_is, cost.currency), {"", "", ""}});
  std::string html = table_html(table);
  if (cost.savings.empty()) return html;
  Table savings{"What a change would save, all else equal", {"change", "saves per part"}, {}};
  for (const sim::Saving& saving : cost.savings)
    savings.rows.push_back(
        {{saving.what, "", ""}, {with_unit(saving.per_part, cost.currency), "", ""}});
  return html + table_html(savings);
}

std::string line_tables(const sim::LineEconomy& line) {
  std::string html =
      fmt::format("<p>{} parts per hour in {} lane{}, {} m of parts per minute.</p>\n",
                  number_text(line.throughput * 3600), line.lanes, line.lanes == 1 ? "" : "s",
                  number_text(line.part_speed * 0.06));
  if (!line.forced.empty())
    html += "<p>Ratings that the case overrides:</p>\n" + list_html(line.forced);
  html += meaning_table("The line as a whole", line, line_quantities);
  std::vector<std::string> names;
  std::vector<const sim::StationEconomy*> stations;
  for (const sim::StationEconomy& station : line.stations) {
    names.push_back(fmt::format("{} {}, {}", station.station + 1, station.kind, station.direction));
    stations.push_back(&station);
  }
  html += side_by_side("Power and hold-down, tool by tool", std::move(names), stations,
                       station_economy_quantities);
  if (line.cost) html += cost_tables(*line.cost);
  if (!line.missing.empty())
    html +=
        "<p>For a cost per part the case would also have to give:</p>\n" + list_html(line.missing);
  if (!line.notes.empty()) html += fold_html("What is assumed of the line", list_html(line.notes));
  return html;
}

std::string wet_dry_table(const sim::WetDryStudy& study) {
  Table table{fmt::format("Dry and wet side by side ({} model)", study.model), {"quantity"}, {}};
  for (const sim::CoolingColumn& column : study.columns)
    table.head.push_back(column.cooling);
  for (const CoolingKey& key : cooling_keys) {
    std::vector<Cell> row{{spoken_key(key.key, key.unit), std::string(key.meaning), ""}};
    for (const sim::CoolingColumn& column : study.columns)
      row.push_back(quantity_cell(column.*key.member, key.scale, key.unit));
    table.rows.push_back(std::move(row));
  }
  std::vector<Cell> cost{{"cost per part", "", ""}};
  std::vector<Cell> limits{{"limits", "those that this model judges", ""}};
  for (const sim::CoolingColumn& column : study.columns) {
    cost.push_back(quantity_cell(column.cost, as_is, study.currency));
    limits.push_back(state_cell(column.accepted));
  }
  if (!study.currency.empty()) table.rows.push_back(std::move(cost));
  table.rows.push_back(std::move(limits));
  return table_html(table) + fold_html("Notes on dry and wet", list_html(study.notes));
}

std::string causes_table(const sim::InterferenceStudy& study) {
  Table table{fmt::format("What moves the interference ({} model)", study.model),
              {"cause", "interference", "face loses", "coating left", "limits"},
              {}};
  for (const sim::Disturbance& cause : study.disturbances)
    table.rows.push_back(
        {{cause.name, cause.given ? "" : "usual amount, not of the case", ""},
         {ends(cause.low, cause.high, "mm"), "", ""},
         {ends(mm_to_um(cause.removal_low), mm_to_um(cause.removal_high), "um"), "", ""},
         cause.coating_low && cause.coating_high
             ? Cell{ends(mm_to_um(*cause.coating_low), mm_to_um(*cause.coating_high), "um"), "", ""}
             : Cell{"not given by the model", "", "absent"},
         state_cell(cause.accepted)});
  return table_html(table);
}

std::string room(const std::optional<double>& most, const std::string& limit) {
  if (!most) return "an amount that is not known";
  return with_unit(*most, "mm") +
         (limit.empty() ? "" : fmt::format(" ({} ends it)", spoken(limit)));
}

}  // namespace

std::string report_drift(const sim::Result& result) {
  if (!result.interference_study) return "";
  const sim::InterferenceStudy& study = *result.interference_study;
  std::string body = causes_table(study);
  body += fmt::format("<p>The face loses {} more per 0.1 mm of interference.</p>\n",
                      with_unit(0.1 * mm_to_um(study.removal_per_mm), "um"));
  if (study.most_less || study.most_more)
    body += fmt::format("<p>The limits hold from {} less to {} more interference.</p>\n",
                        escaped(room(study.most_less, study.limited_less)),
                        escaped(room(study.most_more, study.limited_more)));
  return section_html("drift", "The part as it is: how far things may drift", body);
}

std::string report_life(const sim::Result& result) {
  if (!result.life_study) return "";
  const sim::LifeStudy& study = *result.life_study;
  std::string body = points_table(study) + belts_table(study);
  if (study.lost_after)
    body += fmt::format("<p>The first limit is lost after {} parts: {}.</p>\n",
                        number_text(study.lost_after->value), escaped(spoken(study.lost)));
  if (study.feed_for_equal_removal)
    body += fmt::format(
        "<p>At the end of life the face would lose what it loses with fresh belts at {} m/min "
        "instead of {} m/min.</p>\n",
        number_text(mm_per_s_to_m_per_min(*study.feed_for_equal_removal)),
        number_text(mm_per_s_to_m_per_min(study.feed)));
  return section_html("life", "Belts from fresh to worn", body);
}

std::string report_line(const sim::Result& result) {
  std::string body;
  if (result.line_economy) body += line_tables(*result.line_economy);
  if (result.wet_dry) body += wet_dry_table(*result.wet_dry);
  return body.empty() ? body
                      : section_html("line", "The line: parts, power, hold-down, cost", body);
}

}  // namespace drumlin::viz
