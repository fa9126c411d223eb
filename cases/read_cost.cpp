#include <algorithm>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_cost.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// The currency of a case: the first that is named; every other one is refused.
class Purse {
 public:
  explicit Purse(Findings& findings) : findings_(&findings) {}

  /// Takes note of the money in a text that has been read as a quantity.
  void note(const Node& node, const std::string& path) {
    if (node.kind != Node::Kind::string) return;
    const std::string currency = units::parse(node.text).unit.currency;
    if (currency.empty()) {
      if (!nameless_) nameless_ = {&node, path};
    } else if (currency_.empty()) {
      currency_ = currency;
      named_by_ = path;
    } else if (currency != currency_) {
      findings_->problem(node.place, path,
                         fmt::format("{} is in {}, but {} is in {}; expected one currency per "
                                     "case: convert the price",
                                     in_quotes(node.text), currency, named_by_, currency_));
    }
  }

  /// The currency; reports where only hundredths of an unnamed one are given.
  std::string close() {
    if (currency_.empty() && nameless_)
      findings_->problem(nameless_->node->place, nameless_->path,
                         fmt::format("{} names no currency; expected one, such as \"0.05 EUR\"",
                                     in_quotes(nameless_->node->text)));
    return currency_;
  }

 private:
  struct Nameless {
    const Node* node;
    std::string path;
  };
  Findings* findings_;
  std::string currency_;
  std::string named_by_;
  std::optional<Nameless> nameless_;
};

/// Reads one number with money in it.
std::optional<double> read_money(const Section& section, const KeyInfo& info, Purse& purse) {
  const auto value = read_quantity(section, info);
  if (value) purse.note(*section.find(info.name), section.path(info.name));
  return value;
}

/// One entry of cost.belt or cost.brush, whatever its form.
class ToolPriceReader {
 public:
  ToolPriceReader(Findings& findings, Purse& purse, bool belt)
      : findings_(&findings), purse_(&purse), belt_(belt) {}

  ToolPrice read(const Node& node, const std::string& path) {
    if (node.kind != Node::Kind::table) return priced(node, path);
    const Section table(node, path, *findings_);
    table.refuse_unknown(infos(tool_price_fields));
    ToolPrice tool;
    if (const Node* price = table.find("price"))
      tool = priced(*price, table.path("price"));
    else if (table.lacks("price"))
      table.problem_at_value("price", R"(missing; expected money, such as "120 EUR")");
    read_field(table, tool_price_fields[1], tool);
    return tool;
  }

 private:
  ToolPrice priced(const Node& node, const std::string& path) {
    ToolPrice tool;
    KeyInfo info = info_of(tool_price_fields, "price");
    if (belt_ && is_per_area(node)) {
      tool.per_area = true;
      info.dimension = money_per_area;
      info.example = "40 EUR/m2";
      info.high = most_money / square_metre;
    }
    const auto value = quantity_of(node, info, path, *findings_);
    if (!value) return tool;
    tool.price = *value;
    purse_->note(node, path);
    return tool;
  }

  static bool is_per_area(const Node& node) {
    if (node.kind != Node::Kind::string) return false;
    try {
      return units::parse(node.text).unit.dimension == money_per_area;
    } catch (const units::UnitError&) {
      return false;  // said when it is read as a price
    }
  }

  Findings* findings_;
  Purse* purse_;
  bool belt_;
};

/// Prices of belts or brushes: one for all, or a list with one for each station of that kind.
std::vector<ToolPrice> read_tools(const Section& cost, std::string_view key, std::size_t stations,
                                  Purse& purse) {
  const Node* node = cost.find(key);
  if (node == nullptr) return {};
  ToolPriceReader reader(cost.findings(), purse, key == "belt");
  std::vector<ToolPrice> tools;
  if (node->kind != Node::Kind::list) {
    tools.push_back(reader.read(*node, cost.path(key)));
  } else {
    for (std::size_t i = 0; i < node->items.size(); ++i)
      tools.push_back(reader.read(node->items[i], fmt::format("{}[{}]", cost.path(key), i)));
    if (stations > 0 && tools.size() != stations)
      cost.problem_at_value(
          key, fmt::format("has {} prices for {} {} stations; expected one for each in order, or "
                           "a single one without brackets",
                           tools.size(), stations, key));
  }
  if (stations == 0) {
    cost.note_unused(key, fmt::format("the line has no {} station", key));
    return {};
  }
  return tools;
}

/// One price of a belt counts for the belt of each station.
void spread_belts(const Section& section, std::size_t stations, std::vector<ToolPrice>& belts) {
  if (belts.size() != 1 || stations < 2) return;
  section.note_default("belt", "one price",
                       fmt::format("counts for the belt of each of {} stations", stations));
  belts.resize(stations, belts.front());
}

void check_areas(const Section& section, const std::vector<const Belt*>& belts,
                 const std::vector<ToolPrice>& prices) {
  for (std::size_t i = 0; i < prices.size() && i < belts.size(); ++i)
    if (prices[i].per_area && !belts[i]->width) {
      section.problem_at_value("belt",
                               "a price by area needs the area of the belt; give the width "
                               "of each belt, or the price of a whole belt, such as \"120 EUR\"");
      return;
    }
}

std::optional<Rework> read_rework(const Section& cost, Purse& purse) {
  const Node* node = cost.find("rework");
  if (node == nullptr) return std::nullopt;
  Rework rework;
  if (node->kind != Node::Kind::table) {
    KeyInfo price = info_of(rework_fields, "price");
    price.name = "rework";
    rework.price = read_money(cost, price, purse).value_or(0);
    return rework;
  }
  const auto table = cost.open("rework");
  table->refuse_unknown(infos(rework_fields));
  if (table->given("price") && table->given("cost"))
    table->problem_at_key("cost", "give price or cost, not both");
  else if (table->lacks("price") && table->lacks("cost"))
    table->problem(R"(expected price, such as "1.20 EUR")");
  for (const std::string_view key : {"price", "cost"})
    if (const auto price = read_money(*table, info_of(rework_fields, key), purse))
      rework.price = *price;
  read_field(*table, rework_fields.back(), rework);
  return rework;
}

}  // namespace

std::optional<Cost> read_cost(const Section& top, const Case& scenario) {
  const auto section = top.open("cost");
  if (!section) return std::nullopt;
  section->refuse_unknown(infos(cost_fields));
  std::vector<const Belt*> belts;
  std::size_t brushes = 0;
  for (const Station& station : scenario.stations) {
    if (const auto* belt = std::get_if<BeltStation>(&station)) belts.push_back(&belt->belt);
    if (std::holds_alternative<BrushStation>(station)) ++brushes;
  }
  Purse purse(section->findings());
  Cost cost;
  cost.line_rate = read_money(*section, info_of(cost_fields, "line_rate"), purse);
  cost.labour = read_money(*section, info_of(cost_fields, "labour"), purse);
  cost.belts = read_tools(*section, "belt", belts.size(), purse);
  check_areas(*section, belts, cost.belts);
  spread_belts(*section, belts.size(), cost.belts);
  cost.brushes = read_tools(*section, "brush", brushes, purse);
  if (cost.brushes.size() == 1 && brushes > 1)
    section->note_default("brush", "one price",
                          fmt::format("is that of all {} brushes of the line together", brushes));
  cost.power = read_money(*section, info_of(cost_fields, "power"), purse);
  cost.fluid = read_money(*section, info_of(cost_fields, "fluid"), purse);
  cost.rework = read_rework(*section, purse);
  cost.currency = purse.close();
  if (cost.currency.empty()) return std::nullopt;
  return cost;
}

}  // namespace drumlin::cases
