#include "sim/app/line_text.hpp"

#include <functional>

#include <fmt/format.h>

#include "sim/app/result_table.hpp"

namespace drumlin::app {
namespace {

constexpr double hour = 3600.0;
constexpr double kilowatt = 1e-6;     // per mW
constexpr double kilojoule = 1e-6;    // per mJ
constexpr double kilopascal = 1e3;    // per MPa
constexpr double micrometre = 1e3;    // per mm
constexpr double hundredths = 100.0;  // of a unit of money

std::string with_band(const sim::Quantity& quantity, double factor, int decimals,
                      std::string_view unit) {
  const std::string band = band_text(quantity, factor, decimals);
  return fmt::format("{} {}{}", value_text(quantity, factor, decimals), unit,
                     band.empty() ? "" : fmt::format(" ({})", band));
}

std::string stations_text(const sim::LineEconomy& line, const Style& style) {
  using sim::StationEconomy;
  const Table table = table_of<StationEconomy>(
      "tool", line.stations,
      [&](std::size_t i) {
        return fmt::format("{} {} {}", line.stations[i].station + 1, line.stations[i].kind,
                           line.stations[i].direction);
      },
      {{"power", "kW", [](const StationEconomy& s) { return s.power; }, kilowatt, 2},
       {"at full belt", "kW", [](const StationEconomy& s) { return s.full_width_power; }, kilowatt,
        2},
       {"drag", "N", [](const StationEconomy& s) { return s.drag; }, 1, 0},
       {"T1/T2", "-", [](const StationEconomy& s) { return s.tension_ratio; }, 1, 2},
       {"grip margin", "-", [](const StationEconomy& s) { return s.grip_margin; }, 1, 2},
       {"turning", "-", [](const StationEconomy& s) { return s.turning_margin; }, 1, 2},
       {"smallest part", "mm", [](const StationEconomy& s) { return s.smallest_length; }, 1, 0}});
  return to_text(table, style);
}

/// Small sums in hundredths, as shops count them.
std::string money(double value, const std::string& currency) {
  if (currency == "EUR" && value < 1.0) return fmt::format("{} ct", fixed(value * hundredths, 2));
  return fmt::format("{} {}", significant(value, 4), currency);
}

std::string cost_text(const sim::CostPerPart& cost, const Style& style) {
  Table table{{{"cost per part", cost.currency, "share", "", "from"}}, {}};
  const auto row = [&](const std::string& name, const sim::Quantity& value,
                       const std::string& how) {
    const double share = cost.sum->value > 0.0 ? value->value / cost.sum->value : 0.0;
    table.rows.push_back({name, fixed(value->value, 5), fmt::format("{} %", fixed(100 * share, 0)),
                          band_text(value, 1, 5), how});
  };
  for (const sim::CostItem& item : cost.items)
    row(item.cause, item.per_part, item.how);
  row("sum", cost.sum,
      fmt::format("{} a part, {} per metre of part", money(cost.sum->value, cost.currency),
                  money(cost.per_length->value * 1e3, cost.currency)));
  std::string out = "\n" + to_text(table, style);
  for (const sim::Saving& saving : cost.savings)
    out += wrapped(
        fmt::format("{} saves {} a part", saving.what, money(saving.per_part, cost.currency)), "  ",
        style);
  return out;
}

}  // namespace

std::string grip_text(const cases::Grip& grip) {
  const auto friction = [](const cases::Sourced& f) {
    return fmt::format("{} (band {}..{})", brief(f.value, 3), brief(f.low, 3), brief(f.high, 3));
  };
  return fmt::format("friction dry {}, wet {}; suction {} kPa", friction(grip.friction_dry),
                     friction(grip.friction_wet), brief(grip.suction * kilopascal, 3));
}

std::string forced_text(const sim::Result& result, const Style& style) {
  if (!result.line_economy || result.line_economy->forced.empty()) return "";
  return list("Forced", result.line_economy->forced, Paint::caution, style);
}

std::string line_text(const sim::LineEconomy& line, const Style& style) {
  std::string out = heading("The line: throughput, power, hold-down, cost", style);
  out += wrapped(
      fmt::format("{} parts/h, {} m of part per min, in {} {}; power of all tools {}, {} on the "
                  "mean, {} a part",
                  significant(line.throughput * hour, 4), significant(line.part_speed * 0.06, 3),
                  line.lanes, line.lanes == 1 ? "lane" : "lanes",
                  with_band(line.power, kilowatt, 2, "kW"),
                  with_band(line.mean_power, kilowatt, 2, "kW"),
                  with_band(line.energy, kilojoule, 2, "kJ")),
      "  ", style);
  out += stations_text(line, style);
  for (const sim::StationEconomy& station : line.stations)
    if (station.holding_suction)
      out += wrapped(
          fmt::format("station {}: a suction of {} kPa would hold the part", station.station + 1,
                      significant(station.holding_suction->value * kilopascal, 2)),
          "  ", style);
  if (line.cost) out += cost_text(*line.cost, style);
  for (const std::string& missing : line.missing)
    out += wrapped("not counted: " + missing, "  ", style);
  for (const std::string& note : line.notes)
    out += wrapped(note, "  - ", style);
  return out;
}

std::string wet_dry_text(const sim::WetDryStudy& study, const Style& style) {
  Table table{{{fmt::format("{} model", study.model)}}, {}};
  for (const sim::CoolingColumn& column : study.columns)
    table.head[0].push_back(column.cooling);
  const auto row = [&](const std::string& name,
                       const std::function<std::string(const sim::CoolingColumn&)>& text) {
    std::vector<std::string> cells{name};
    bool any = false;
    for (const sim::CoolingColumn& column : study.columns) {
      cells.push_back(text(column));
      any = any || cells.back() != "-";
    }
    if (any) table.rows.push_back(std::move(cells));
  };
  const auto number = [&](const std::string& name,
                          std::optional<double> sim::CoolingColumn::*member, double factor,
                          int decimals) {
    row(name, [=](const sim::CoolingColumn& column) {
      const auto& value = column.*member;
      return value ? fixed(*value * factor, decimals) : std::string("-");
    });
  };
  row("friction of the first belt, -", [](const sim::CoolingColumn& column) {
    return column.friction > 0.0 ? fixed(column.friction, 2) : std::string("-");
  });
  row("friction on the conveyor, -",
      [](const sim::CoolingColumn& column) { return fixed(column.grip_friction, 2); });
  number("face loses, µm", &sim::CoolingColumn::removal, micrometre, 1);
  number("coating left, µm", &sim::CoolingColumn::coating_left, micrometre, 1);
  number("highest burr left, µm", &sim::CoolingColumn::burr_height, micrometre, 1);
  number("Ra across the lay, µm", &sim::CoolingColumn::roughness, micrometre, 2);
  row("face gets, degC", [](const sim::CoolingColumn& column) {
    return column.temperature ? fixed(*column.temperature - 273.15, 0) : std::string("-");
  });
  number("first belt lasts, h", &sim::CoolingColumn::belt_life, 1.0 / 3600.0, 1);
  number("power, kW", &sim::CoolingColumn::power, kilowatt, 2);
  number("least grip margin, -", &sim::CoolingColumn::grip_margin, 1, 2);
  row("smallest part, mm", [](const sim::CoolingColumn& column) -> std::string {
    if (!column.smallest_length) return "-";
    return *column.smallest_length > 0.0 ? fixed(*column.smallest_length, 0) : "any";
  });
  if (!study.currency.empty())
    number("cost per part, " + study.currency, &sim::CoolingColumn::cost, 1, 5);
  row("limits", [](const sim::CoolingColumn& column) -> std::string {
    if (!column.accepted) return "-";
    return *column.accepted ? "kept" : "broken";
  });
  std::string out = heading("Dry and wet side by side", style) + to_text(table, style);
  for (const std::string& note : study.notes)
    out += wrapped(note, "  - ", style);
  return out;
}

}  // namespace drumlin::app
