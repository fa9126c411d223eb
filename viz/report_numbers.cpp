#include <algorithm>
#include <limits>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "viz/cells.hpp"
#include "viz/report_parts.hpp"
#include "viz/summary_json.hpp"

namespace drumlin::viz {
namespace {

using Json = nlohmann::ordered_json;

/// Numbers of a part of summary.json as rows; whatever a new study adds appears by itself.
class Numbers {
 public:
  void walk(const Json& json, const std::string& path);

  [[nodiscard]] std::vector<std::vector<Cell>> take() { return std::move(rows_); }

 private:
  void walk_list(const Json& list, const std::string& path);
  void add(const std::string& path, const std::string& value, const std::string& note) {
    rows_.push_back({{path, "", ""}, {value, note, ""}});
  }

  std::vector<std::vector<Cell>> rows_;
};

std::string joined(const std::string& path, const std::string& key) {
  return path.empty() ? key : path + " / " + key;
}

bool all_numbers(const Json& list) {
  return !list.empty() &&
         std::all_of(list.begin(), list.end(), [](const Json& item) { return item.is_number(); });
}

void Numbers::walk_list(const Json& list, const std::string& path) {
  if (all_numbers(list)) {
    constexpr std::size_t few = 4;
    std::vector<std::string> shown;
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const Json& item : list) {
      shown.push_back(number_text(item.get<double>()));
      low = std::min(low, item.get<double>());
      high = std::max(high, item.get<double>());
    }
    if (shown.size() <= few)
      add(path, fmt::format("{}", fmt::join(shown, ", ")), "");
    else
      add(path,
          fmt::format("{} numbers, {} to {}", list.size(), number_text(low), number_text(high)),
          "");
    return;
  }
  for (std::size_t i = 0; i < list.size(); ++i) {
    const Json& item = list[i];
    if (!item.is_structured()) continue;  // sentences stand elsewhere in the report
    const std::string name = item.is_object() && item.contains("name") && item["name"].is_string()
                                 ? item["name"].get<std::string>()
                                 : fmt::format("{}", i + 1);
    walk(item, joined(path, name));
  }
}

void Numbers::walk(const Json& json, const std::string& path) {
  if (json.is_array()) return walk_list(json, path);
  if (!json.is_object()) return;
  const Json bands = json.contains("bands") ? json["bands"] : Json::object();
  for (const auto& [key, value] : json.items()) {
    if (key == "bands" || key == "after") continue;  // after: a table of its own
    if (value.is_structured()) {
      walk(value, joined(path, key));
    } else if (value.is_number()) {
      std::string note;
      if (bands.contains(key) && bands[key].is_array() && bands[key].size() == 2)
        note = fmt::format("band {} to {}", number_text(bands[key][0].get<double>()),
                           number_text(bands[key][1].get<double>()));
      add(joined(path, key), number_text(value.get<double>()), note);
    }
  }
}

}  // namespace

std::string report_numbers(const sim::Result& result) {
  const Json summary = summary_json(result, [](const std::string&) {});
  std::string body =
      "<p>Under the keys of summary.json, which carry the units; in full digits there. Long lists "
      "are told by their ends.</p>\n";
  for (const auto& [key, value] : summary.items()) {
    if (key == "provenance") continue;  // it holds the run time, which no page may depend on
    Numbers numbers;
    numbers.walk(value, "");
    auto rows = numbers.take();
    if (!rows.empty())
      body += table_html({spoken(key), {"key", "value and band"}, std::move(rows)});
  }
  return "<div class=\"bulk\">\n" + fold_html("Every number", body) + "</div>\n";
}

}  // namespace drumlin::viz
