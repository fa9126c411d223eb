#include "sim/sweep/columns.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "sim/quantities_result.hpp"

namespace drumlin::sim {
namespace {

constexpr double seconds_per_hour = 3600.0;

const FaceState* face_of(const RowAnswer& answer, bool reverse) {
  const PartState& part = answer.stated.part;
  if (!reverse) return &part;
  return part.reverse ? &*part.reverse : nullptr;
}

const FeatureResult* edge_of(const RowAnswer& answer, bool reverse, const std::string& name) {
  const FaceState* face = face_of(answer, reverse);
  if (face == nullptr) return nullptr;
  const auto found = std::find_if(face->features.begin(), face->features.end(),
                                  [&](const FeatureResult& edge) { return edge.name == name; });
  return found == face->features.end() ? nullptr : &*found;
}

/// Margin of the item that decides, over its limit's size: what may be compared between limits.
std::optional<double> deciding_margin(const RowAnswer& answer) {
  const VerdictItem* item = answer.verdict.deciding();
  return item != nullptr ? item->relative_margin() : std::nullopt;
}

/// A text as part of a column's name, which holds neither spaces nor slashes.
std::string name_part(std::string_view text) {
  std::string name;
  for (const char c : text) {
    if (c == ' ')
      name += '.';
    else if (c == '/')
      name += "_per_";
    else if (c == '%')
      name += "percent";
    else if (c != '^')
      name += c;
  }
  return name;
}

/// The n-th item of that name, from 0: a general and a special limit may bear the same one.
const VerdictItem* item_of(const RowAnswer& answer, const std::string& name, int n) {
  for (const VerdictItem& item : answer.verdict.items)
    if (item.name == name && n-- == 0) return &item;
  return nullptr;
}

}  // namespace

void Columns::add_one(StudyColumn column, Read read) {
  const auto is_it = [&](const StudyColumn& known) { return known.name == column.name; };
  if (std::any_of(list_.begin(), list_.end(), is_it)) return;
  list_.push_back(std::move(column));
  reads_.push_back(std::move(read));
}

template <class Owner, class List, class Find>
void Columns::add_list(const List& list, const std::string& prefix, const std::string& of,
                       const Find& find) {
  for (const QuantityKey<Owner>& key : list)
    add_one({fmt::format("{}.{}", prefix, key.key), std::string(key.unit),
             fmt::format("{}: {}", of, key.meaning)},
            [find, member = key.member,
             scale = key.scale](const RowAnswer& answer) -> std::optional<double> {
              const Owner* owner = find(answer);
              if (owner == nullptr || !(owner->*member)) return std::nullopt;
              return scale((owner->*member)->value);
            });
}

void Columns::add_face(bool reverse) {
  add_list<FaceResult>(face_quantities, reverse ? "reverse.face" : "face",
                       reverse ? "other face of the part" : "plain face",
                       [reverse](const RowAnswer& answer) -> const FaceResult* {
                         const FaceState* face = face_of(answer, reverse);
                         return face != nullptr ? &face->face : nullptr;
                       });
}

void Columns::add_edge(bool reverse, const std::string& name) {
  add_list<FeatureResult>(
      feature_quantities, (reverse ? "reverse." : "") + name,
      fmt::format("{}{}", name, reverse ? " on the other face" : ""),
      [reverse, name](const RowAnswer& answer) { return edge_of(answer, reverse, name); });
}

void Columns::add_limits(const RowAnswer& answer) {
  std::map<std::string, int> seen;
  for (const VerdictItem& item : answer.verdict.items) {
    const int n = seen[item.name]++;
    const std::string again = n > 0 ? fmt::format(".{}", n + 1) : "";
    const std::string unit = item.unit.empty() ? "1" : item.unit;
    add_one({fmt::format("limit.{}{}.margin{}", name_part(item.name), again,
                         unit == "1" ? "" : "_" + name_part(unit)),
             unit,
             fmt::format("{}: distance to the nearer limit ({}); negative: not met", item.name,
                         item.limit)},
            [name = item.name, n](const RowAnswer& a) -> std::optional<double> {
              const VerdictItem* found = item_of(a, name, n);
              return found != nullptr ? found->margin : std::nullopt;
            });
  }
}

void Columns::add_line(const RowAnswer& answer) {
  add_one({"verdict.margin", "1",
           "margin of the limit that decides, over the limit; negative: not met"},
          deciding_margin);
  add_one({"line.throughput_per_h", "1/h", "parts that leave the line"}, [](const RowAnswer& a) {
    return std::optional(a.economy.throughput * seconds_per_hour);
  });
  add_one({"line.power_kW", "kW", "power of all tools while parts are under each"},
          [](const RowAnswer& a) -> std::optional<double> {
            if (!a.economy.power) return std::nullopt;
            return a.economy.power->value * 1e-6;
          });
  if (!answer.economy.cost) return;
  const std::string& currency = answer.economy.cost->currency;
  add_one({fmt::format("cost.sum_{}_per_part", currency), currency, "cost per part"},
          [](const RowAnswer& a) -> std::optional<double> {
            if (!a.economy.cost || !a.economy.cost->sum) return std::nullopt;
            return a.economy.cost->sum->value;
          });
}

void Columns::add(const RowAnswer& answer) {
  for (std::size_t i = 0; i < answer.stated.stations.size(); ++i)
    add_list<StationResult>(station_quantities, fmt::format("station[{}]", i),
                            fmt::format("station[{}]", i),
                            [i](const RowAnswer& a) -> const StationResult* {
                              return i < a.stated.stations.size() ? &a.stated.stations[i] : nullptr;
                            });
  for (const bool reverse : {false, true}) {
    const FaceState* face = face_of(answer, reverse);
    if (face == nullptr) continue;
    add_face(reverse);
    for (const FeatureResult& edge : face->features)
      add_edge(reverse, edge.name);
  }
  add_limits(answer);
  add_line(answer);
}

std::vector<std::optional<double>> Columns::values(const RowAnswer& answer) const {
  std::vector<std::optional<double>> values;
  values.reserve(reads_.size());
  for (const Read& read : reads_) {
    auto value = read(answer);
    // A number that is none has no place in a table.
    if (value && !std::isfinite(*value)) value.reset();
    values.push_back(value);
  }
  return values;
}

}  // namespace drumlin::sim
