#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/report_parts.hpp"

namespace drumlin::viz {
namespace {

/// Output by output, the inputs with the longest reach first.
std::string influences_table(const sim::Result& result) {
  std::vector<sim::Influence> ranked = result.influences;
  std::vector<std::string> outputs;
  for (const sim::Influence& influence : ranked)
    if (std::find(outputs.begin(), outputs.end(), influence.output) == outputs.end())
      outputs.push_back(influence.output);
  const auto place = [&](const sim::Influence& influence) {
    return std::find(outputs.begin(), outputs.end(), influence.output) - outputs.begin();
  };
  const auto reach = [](const sim::Influence& i) { return std::abs(i.output_high - i.output_low); };
  std::stable_sort(ranked.begin(), ranked.end(), [&](const auto& a, const auto& b) {
    return place(a) != place(b) ? place(a) < place(b) : reach(a) > reach(b);
  });
  Table table{"What moves the result most, each input over its band",
              {"output", "input", "its band", "output then"},
              {}};
  constexpr std::ptrdiff_t most = 5;  // of each output; all of them stand under "every number"
  for (const sim::Influence& influence : ranked) {
    const auto same = std::count_if(table.rows.begin(), table.rows.end(), [&](const auto& row) {
      return row.front().text == spoken(influence.output);
    });
    if (same >= most) continue;
    table.rows.push_back({{spoken(influence.output), "", ""},
                          {influence.meaning, influence.input, ""},
                          {fmt::format("{} to {} {}", number_text(influence.low),
                                       number_text(influence.high), shown_unit(influence.unit)),
                           "", ""},
                          {fmt::format("{} to {} µm", number_text(influence.output_low * 1e3),
                                       number_text(influence.output_high * 1e3)),
                           "", ""}});
  }
  return table_html(table);
}

std::string listed(const char* heading, const std::vector<std::string>& sentences) {
  return sentences.empty() ? std::string()
                           : fmt::format("<h3>{}</h3>\n{}", heading, list_html(sentences));
}

}  // namespace

std::string report_sureness(const sim::Result& result) {
  std::string body =
      result.calibrated
          ? "<p>Calibrated: sample parts of the line were used.</p>\n"
          : "<p>Uncalibrated: no sample part of this line has been used. Bands are the scatter of "
            "the inputs, taken one at a time and added in quadrature; they are no promise.</p>\n";
  body +=
      fmt::format("<p>Model: {}.</p>\n",
                  result.model == "fast" ? "fast: closed laws, no sections"
                  : result.model == "line"
                      ? "line: contact and wear solved step by step in sections across the edges"
                      : result.model);
  if (!result.influences.empty()) body += influences_table(result);
  body += listed("Warnings", result.warnings);
  body += listed("Keys of the case without effect in this version", result.unused_keys);
  if (!result.notes.empty())
    body += fold_html("Method, and what the model leaves out",
                      list_html(result.options) + list_html(result.notes));
  if (!result.defaults.empty())
    body += fold_html(fmt::format("{} values from the library or from defaults, with their reasons "
                                  "and sources",
                                  result.defaults.size()),
                      list_html(result.defaults));
  std::string html = section_html("sureness", "How sure", body);
  if (!result.samples.empty())
    html += section_html("samples", "Samples to run next", list_html(result.samples));
  return html;
}

}  // namespace drumlin::viz
