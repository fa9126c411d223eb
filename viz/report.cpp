#include "viz/report.hpp"

#include <fstream>
#include <stdexcept>

#include <fmt/format.h>

#include "viz/output.hpp"
#include "viz/page.hpp"
#include "viz/report_parts.hpp"
#include "viz/report_style.hpp"

namespace drumlin::viz {
namespace {

/// One part of the report and the word by which the list at the top leads to it.
struct Part {
  const char* id;
  const char* word;
  std::string (*html)(const sim::Result& result);
};

/// Registration: a new part of the report adds its line here.
constexpr Part parts[] = {
    {"limits", "Limits", report_limits},
    {"remedies", "What to change", report_remedies},
    {"part", "Part", report_part},
    {"pass", "Pass", report_pass},
    {"pictures", "Pictures", report_pictures},
    {"stations", "Stations", report_stations},
    {"drift", "Drift", report_drift},
    {"life", "Belt life", report_life},
    {"line", "Line and cost", report_line},
    {"scatter", "Scatter", report_scatter},
    {"sureness", "How sure", report_sureness},
    {"cautions", "Cautions", report_cautions},
    {"words", "Words and sources", report_words},
};

}  // namespace

std::string report_html(const sim::Result& result) {
  std::string body;
  std::string links;
  for (const Part& part : parts) {
    const std::string html = part.html(result);
    if (html.empty()) continue;
    body += html;
    links += fmt::format("<li><a href=\"#{}\">{}</a></li>\n", part.id, part.word);
  }
  return page_html(
      {.title = result.title + ", report",
       .header = report_header(result),
       .body = fmt::format("<nav aria-label=\"Parts of this report\">\n<ul>\n{}</ul>\n</nav>\n{}",
                           links, body),
       .footer = report_footer(result),
       .style = report_style,
       .script = result.sections.empty() ? "" : report_script});
}

void write_report(const sim::Result& result, Output& out) {
  std::ofstream file(out.place("report.html"), std::ios::binary);
  file << report_html(result);
  file.close();
  if (!file) throw std::runtime_error("the file could not be written to its end");
}

}  // namespace drumlin::viz
