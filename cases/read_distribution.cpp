#include <array>

#include <fmt/format.h>

#include "cases/study_parts.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// What a number of a distribution is beside the key that it scatters.
enum class Measure { value, difference, factor };

template <class Law>
struct Parameter {
  std::string_view name;
  double Law::*member;
  Measure measure = Measure::value;
};

constexpr auto parameters(const models::Uniform*) {
  using Law = models::Uniform;
  return std::to_array<Parameter<Law>>({{"low", &Law::low}, {"high", &Law::high}});
}
constexpr auto parameters(const models::LogUniform*) {
  using Law = models::LogUniform;
  return std::to_array<Parameter<Law>>({{"low", &Law::low}, {"high", &Law::high}});
}
constexpr auto parameters(const models::Triangular*) {
  using Law = models::Triangular;
  return std::to_array<Parameter<Law>>(
      {{"low", &Law::low}, {"mode", &Law::mode}, {"high", &Law::high}});
}
constexpr auto parameters(const models::Normal*) {
  using Law = models::Normal;
  return std::to_array<Parameter<Law>>(
      {{"mean", &Law::mean}, {"deviation", &Law::deviation, Measure::difference}});
}
constexpr auto parameters(const models::TruncatedNormal*) {
  using Law = models::TruncatedNormal;
  return std::to_array<Parameter<Law>>({{"mean", &Law::mean},
                                        {"deviation", &Law::deviation, Measure::difference},
                                        {"low", &Law::low},
                                        {"high", &Law::high}});
}
constexpr auto parameters(const models::Lognormal*) {
  using Law = models::Lognormal;
  return std::to_array<Parameter<Law>>(
      {{"median", &Law::median}, {"factor", &Law::factor, Measure::factor}});
}

constexpr auto kinds = []<class... Laws>(const std::variant<Laws...>*) {
  return std::to_array<Choice>({{Laws::name}...});
}(static_cast<const models::AnyDistribution*>(nullptr));
constexpr KeyInfo kind_info{.name = "kind",
                            .kind = KeyKind::choice,
                            .meaning = "which distribution",
                            .required = true,
                            .choices = kinds};

/// How a parameter is declared, from the key that it belongs to.
KeyInfo info_of(std::string_view name, Measure measure, const KeyInfo& key) {
  KeyInfo info = key;
  info.name = name;
  info.kind = KeyKind::quantity;
  info.required = true;
  info.default_text = {};
  info.unused = {};
  if (measure == Measure::value) return info;
  info.low = 0;
  info.high = key.high - key.low;
  if (measure == Measure::difference) {
    if (key.dimension == models::dimension::temperature) info.example = "5 K";
    info.called = "a standard deviation";
    return info;
  }
  return {.name = name,
          .kind = KeyKind::quantity,
          .low = 1,
          .high = 100,
          .meaning = "geometric standard deviation",
          .example = "1.3",
          .required = true};
}

bool has_offset(const Node& value) {
  if (value.kind != Node::Kind::string) return false;
  try {
    return units::parse(value.text).unit.offset != 0.0;
  } catch (const units::UnitError&) {
    return false;
  }
}

/// Numbers that are each legal and make no distribution together.
bool fit(const Section& table, const models::AnyDistribution& any) {
  const std::size_t before = table.findings().problems.size();
  std::visit(
      [&]<class Law>(const Law& law) {
        if constexpr (requires { law.low; }) {
          if (!(law.low < law.high)) table.problem_at_value("high", "is not above low");
        }
        if constexpr (std::is_same_v<Law, models::Triangular>) {
          if (law.mode < law.low || law.mode > law.high)
            table.problem_at_value("mode", "is not between low and high");
        }
        if constexpr (std::is_same_v<Law, models::LogUniform>) {
          if (law.low <= 0) table.problem_at_value("low", "must be greater than zero");
        }
        if constexpr (requires { law.deviation; }) {
          if (law.deviation <= 0) table.problem_at_value("deviation", "must be greater than zero");
        }
        if constexpr (std::is_same_v<Law, models::Lognormal>) {
          if (law.median <= 0) table.problem_at_value("median", "must be greater than zero");
          if (law.factor <= 1) table.problem_at_value("factor", "must be greater than one");
        }
      },
      any);
  return table.findings().problems.size() == before;
}

/// What the distribution reaches must be legal for the key.
void check_reach(Findings& findings, Place place, const std::string& path, const KeyInfo& key,
                 const models::AnyDistribution& any, const std::string& unit) {
  const auto [low, high] = models::range_of(any);
  for (const double end : {low, high}) {
    const std::string written =
        unit.empty() ? units::format_number(end, 4) : units::format(end, unit, 4);
    const std::string wrong = out_of_range(end, key, path, written, unit_of_example(key));
    if (wrong.empty()) continue;
    findings.problem(
        place, path,
        fmt::format("three standard deviations reach {}: {}; a truncated-normal has ends", written,
                    wrong));
    return;
  }
}

template <class Law>
std::optional<models::AnyDistribution> read_law(const Section& table, const std::string& path,
                                                const KeyInfo& key, std::string& unit) {
  Law law;
  const auto list = parameters(static_cast<const Law*>(nullptr));
  std::vector<KeyInfo> known{kind_info};
  for (const auto& parameter : list)
    known.push_back(info_of(parameter.name, parameter.measure, key));
  table.refuse_unknown(known);
  const std::size_t before = table.findings().problems.size();
  for (std::size_t i = 0; i < list.size(); ++i) {
    const KeyInfo& info = known[i + 1];
    const Node* node = table.find(info.name);
    if (node != nullptr && list[i].measure == Measure::difference && has_offset(*node)) {
      table.problem_at_value(info.name, "a difference of temperatures is in K, such as \"5 K\"");
      continue;
    }
    const auto value = read_quantity(table, info);
    if (!value) continue;
    law.*list[i].member = *value;
    if (unit.empty() && list[i].measure == Measure::value && node->kind == Node::Kind::string)
      unit = units::parse(node->text).unit.symbol;
  }
  if (table.findings().problems.size() != before || !fit(table, law)) return std::nullopt;
  check_reach(table.findings(), table.table().place, path, key, law, unit);
  return law;
}

using ReadLaw = std::optional<models::AnyDistribution> (*)(const Section&, const std::string&,
                                                           const KeyInfo&, std::string&);
constexpr auto readers = []<class... Laws>(const std::variant<Laws...>*) {
  return std::to_array<ReadLaw>({&read_law<Laws>...});
}(static_cast<const models::AnyDistribution*>(nullptr));

}  // namespace

std::optional<models::AnyDistribution> read_distribution(const Section& table,
                                                         const std::string& path,
                                                         const KeyInfo& key, std::string& unit) {
  const auto index = read_choice(table, kind_info);
  if (!index) return std::nullopt;
  return readers.at(*index)(table, path, key, unit);
}

std::optional<models::AnyDistribution> read_deviation(const Section& section,
                                                      const std::string& name, const KeyInfo& key,
                                                      double mean, std::string& unit) {
  const KeyInfo info = info_of(name, Measure::difference, key);
  Node node = *section.find(name);
  const std::string path = section.path(name);
  if (has_offset(node)) {
    section.problem_at_value(name, "a difference of temperatures is in K, such as \"5 K\"");
    return std::nullopt;
  }
  // Points of hardness have one scale here.
  if (key.dimension == models::dimension::hardness) {
    if (node.kind == Node::Kind::integer || node.kind == Node::Kind::number)
      node.text = units::format_number(node.number);
    if (node.kind != Node::Kind::table && node.text.find("Shore") == std::string::npos)
      node.text += " Shore A";
    if (node.kind == Node::Kind::integer || node.kind == Node::Kind::number)
      node.kind = Node::Kind::string;
  }
  const auto deviation = quantity_of(node, info, path, section.findings());
  if (!deviation) return std::nullopt;
  if (*deviation <= 0) {
    section.problem_at_value(name, "must be greater than zero");
    return std::nullopt;
  }
  const models::AnyDistribution law = models::Normal{.mean = mean, .deviation = *deviation};
  check_reach(section.findings(), node.place, path, key, law, unit);
  return law;
}

}  // namespace drumlin::cases
