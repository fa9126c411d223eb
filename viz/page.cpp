#include "viz/page.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "viz/page_style.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

/// The pictures' colours for what a page's own style fills, so that metal, coating and burr look
/// the same everywhere.
std::string palette_style() {
  std::string css = ":root{";
  const auto add = [&](const char* name, Colour c) {
    css += fmt::format("--fill-{}:#{:02x}{:02x}{:02x};", name, c.red, c.green, c.blue);
  };
  add("metal", palette::metal);
  add("coating", palette::coating);
  add("burr", palette::burr);
  add("worn", palette::worn);
  add("cover", palette::cover);
  add("belt", palette::belt);
  add("face", palette::face);
  return css + "}\n";
}

std::string row_html(const std::vector<Cell>& row) {
  std::string html = "<tr>";
  for (std::size_t i = 0; i < row.size(); ++i) {
    const Cell& cell = row[i];
    const std::string note =
        cell.note.empty() ? "" : fmt::format("<small>{}</small>", escaped(cell.note));
    const std::string kind =
        cell.kind.empty() ? "" : fmt::format(" class=\"{}\"", escaped(cell.kind));
    html += i == 0 ? fmt::format("<th scope=\"row\"{}>{}{}</th>", kind, escaped(cell.text), note)
                   : fmt::format("<td{}>{}{}</td>", kind, escaped(cell.text), note);
  }
  return html + "</tr>\n";
}

}  // namespace

std::string page_html(const Page& page) {
  const std::string script =
      page.script.empty() ? "" : fmt::format("<script>\n{}\n</script>\n", page.script);
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; "
      "style-src 'unsafe-inline'; script-src 'unsafe-inline'; base-uri 'none'; form-action "
      "'none'\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<title>{}</title>\n<style>\n{}{}</style>\n</head>\n<body>\n<a class=\"skip\" "
      "href=\"#main\">To the content</a>\n<header>\n{}</header>\n<main id=\"main\">\n{}</main>\n"
      "<footer>\n{}</footer>\n{}</body>\n</html>\n",
      escaped(page.title), palette_style() + page_style, page.style, page.header, page.body,
      page.footer, script);
}

std::string section_html(std::string_view id, std::string_view heading, std::string_view body) {
  return fmt::format("<section aria-labelledby=\"{0}\">\n<h2 id=\"{0}\">{1}</h2>\n{2}</section>\n",
                     escaped(id), escaped(heading), body);
}

std::string fold_html(std::string_view summary, std::string_view body, bool open) {
  return fmt::format("<details{}>\n<summary>{}</summary>\n{}</details>\n", open ? " open" : "",
                     escaped(summary), body);
}

std::string figure_html(const Drawing& drawing, double width, double height) {
  SvgCanvas canvas(width, height, drawing.file);
  constexpr double margin = 8;
  drawing.paint(canvas, {margin, margin, width - margin, height - margin});
  const std::string frame = width > figure_width
                                ? fmt::format(
                                      "class=\"wide\" tabindex=\"0\" role=\"group\" "
                                      "aria-label=\"{}\"",
                                      escaped(drawing.what))
                                : std::string("class=\"fits\"");
  return fmt::format(
      "<figure>\n<h3>{}</h3>\n<p class=\"setup\">{}</p>\n<div {}>\n{}</div>\n"
      "<figcaption>{}</figcaption>\n</figure>\n",
      escaped(drawing.what), escaped(drawing.setup), frame,
      canvas.element(drawing.what, drawing.description(), false), escaped(drawing.why));
}

std::string figure_html(const Drawing& drawing) {
  return figure_html(drawing, figure_width, drawing.height_for(figure_width - 16) + 16);
}

std::string table_html(const Table& table) {
  std::string html = fmt::format(
      "<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"{0}\">\n<table>\n"
      "<caption>{0}</caption>\n<thead><tr>",
      escaped(table.caption));
  for (const std::string& head : table.head)
    html += fmt::format("<th scope=\"col\">{}</th>", escaped(head));
  html += "</tr></thead>\n<tbody>\n";
  for (const std::vector<Cell>& row : table.rows)
    html += row_html(row);
  return html + "</tbody>\n</table>\n</div>\n";
}

std::string list_html(const std::vector<std::string>& sentences) {
  if (sentences.empty()) return "";
  std::string html = "<ul>\n";
  for (const std::string& sentence : sentences)
    html += fmt::format("<li>{}</li>\n", escaped(sentence));
  return html + "</ul>\n";
}

}  // namespace drumlin::viz
