#include "sim/cost_per_part.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "models/line/cost_per_part.hpp"
#include "sim/lanes.hpp"
#include "sim/quantity_sums.hpp"

namespace drumlin::sim {
namespace {

constexpr double hour = 3600.0;          // s
constexpr double kilowatt_hour = 3.6e9;  // mJ
constexpr double cheaper = 0.20;         // share that a saving is stated for

/// Gathers causes with their prices, and what is missing for the others.
class Bill {
 public:
  Bill(const Setup& setup, const PredictedLife& life, LineEconomy& line)
      : scenario_(setup.scenario), cost_(*setup.scenario.cost), life_(life), line_(line) {
    for (std::size_t i = 0; i < scenario_.stations.size(); ++i) {
      if (std::holds_alternative<cases::BeltStation>(scenario_.stations[i])) belts_.push_back(i);
      if (std::holds_alternative<cases::BrushStation>(scenario_.stations[i])) brushes_.push_back(i);
    }
  }

  CostPerPart write() {
    bill_.currency = cost_.currency;
    time();
    tools("belts", "belt", belts_, cost_.belts);
    tools("brushes", "brush", brushes_, cost_.brushes);
    power();
    fluid();
    rework();
    for (const CostItem& item : bill_.items)
      bill_.sum = sum_of(bill_.sum, item.per_part);
    bill_.per_length = scaled(bill_.sum, line_.throughput / line_.part_speed);
    save();
    return std::move(bill_);
  }

 private:
  void add(const char* cause, const Quantity& per_part, std::string how) {
    bill_.items.push_back({cause, per_part, std::move(how)});
  }
  void miss(std::string_view cause, std::string_view key) {
    line_.missing.push_back(fmt::format("{}: give {}", cause, key));
  }
  [[nodiscard]] std::string money(double value) const {
    return fmt::format("{:.6g} {}", value, cost_.currency);
  }

  void time() {
    if (!cost_.line_rate) miss("time", "cost.line_rate, such as \"90 EUR/h\"");
    if (!cost_.line_rate && !cost_.labour) return;
    const double rate = cost_.line_rate.value_or(0.0) + cost_.labour.value_or(0.0);
    add("time", Banded{models::cost_of_time(rate, line_.throughput), {}, {}},
        fmt::format("{} an hour over {:.5g} parts", money(rate * hour), line_.throughput * hour));
  }

  /// Life of one price: as given, or as predicted for its station.
  [[nodiscard]] std::optional<double> life_of(const cases::ToolPrice& price,
                                              std::size_t station) const {
    if (price.life) return price.life;
    return station < life_.size() ? life_[station] : std::nullopt;
  }

  [[nodiscard]] double price_of(const cases::ToolPrice& tool, std::size_t station) const {
    if (!tool.per_area) return tool.price;
    const auto& belt = std::get<cases::BeltStation>(scenario_.stations[station]).belt;
    return tool.price * belt.length * *belt.width;
  }

  void tools(const char* cause, const char* key, const std::vector<std::size_t>& stations,
             const std::vector<cases::ToolPrice>& prices) {
    if (stations.empty()) return;
    if (prices.empty())
      return miss(cause, fmt::format(R"(cost.{} = {{ price = "...", life = "... parts" }})", key));
    double per_part = 0.0;
    std::string how;
    for (std::size_t i = 0; i < prices.size(); ++i) {
      const auto life = life_of(prices[i], stations[i]);
      if (!life) return miss(cause, fmt::format(R"(life = "... parts" of cost.{})", key));
      const double price = price_of(prices[i], stations[i]);
      per_part += models::cost_of_wear(price, *life);
      how += fmt::format("{}{} over {:.6g} parts", how.empty() ? "" : ", ", money(price), *life);
    }
    add(cause, Banded{per_part, {}, {}}, std::move(how));
  }

  void power() {
    if (!cost_.power) return miss("power", "cost.power, such as \"0.25 EUR/kWh\"");
    if (!line_.energy) return;
    add("power", scaled(line_.energy, *cost_.power),
        fmt::format("{:.3g} Wh at {} per kWh, at the tools",
                    line_.energy->value / kilowatt_hour * 1e3,
                    money(*cost_.power * kilowatt_hour)));
  }

  void fluid() {
    if (scenario_.cooling != cases::Cooling::wet) return;
    if (!cost_.fluid) return miss("fluid", "cost.fluid, such as \"0.80 EUR/h\"");
    add("fluid", Banded{models::cost_of_time(*cost_.fluid, line_.throughput), {}, {}},
        fmt::format("{} an hour", money(*cost_.fluid * hour)));
  }

  void rework() {
    if (!cost_.rework)
      return miss("rework", R"(cost.rework = { price = "1.20 EUR", share = 0.04 })");
    if (!cost_.rework->share) return miss("rework", "share of cost.rework, such as 0.04");
    add("rework", Banded{cost_.rework->price * *cost_.rework->share, {}, {}},
        fmt::format("{:.3g} % at {}", 100.0 * *cost_.rework->share, money(cost_.rework->price)));
  }

  void save() {
    const auto of = [&](std::string_view cause) {
      for (const CostItem& item : bill_.items)
        if (item.cause == cause) return item.per_part->value;
      return 0.0;
    };
    const auto offer = [&](std::string what, double saved) {
      if (saved > 0.0) bill_.savings.push_back({std::move(what), saved});
    };
    offer(belts_.size() > 1 ? "belts 20 % cheaper" : "a belt 20 % cheaper", cheaper * of("belts"));
    offer("brushes 20 % cheaper", cheaper * of("brushes"));
    offer("half the rework", 0.5 * of("rework"));
    offer("20 % more parts per hour", cheaper / (1.0 + cheaper) * (of("time") + of("fluid")));
    std::stable_sort(bill_.savings.begin(), bill_.savings.end(),
                     [](const Saving& a, const Saving& b) { return a.per_part > b.per_part; });
  }

  const cases::Case& scenario_;
  const cases::Cost& cost_;
  const PredictedLife& life_;
  LineEconomy& line_;
  std::vector<std::size_t> belts_, brushes_;
  CostPerPart bill_;
};

}  // namespace

void state_cost(const Setup& setup, const PredictedLife& life, LineEconomy& line) {
  if (!setup.scenario.cost) {
    line.missing.emplace_back(
        "cost per part: give [cost] with line_rate, belt, brush, power, fluid, rework, as far as "
        "they are known");
    return;
  }
  CostPerPart cost = Bill(setup, life, line).write();
  if (!cost.items.empty()) line.cost = std::move(cost);
}

}  // namespace drumlin::sim
