#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "viz/drawings.hpp"

/// What all pages (report, comparison, lesson) are made of. A page is one file of HTML that needs
/// neither network nor scripts, prints on A4 and Letter, fits a phone and can be read out.
namespace drumlin::viz {

struct Page {
  std::string title;   ///< plain text; escaped by `page_html`
  std::string header;  ///< HTML of the page's head line: title, verdict or question
  std::string body;    ///< HTML of the sections
  std::string footer;  ///< HTML: where the page comes from
  std::string style;   ///< further rules of this kind of page
  std::string script;  ///< what may move on the page; the page says the same without it
};

/// The whole file. The page forbids itself every request (content security policy).
[[nodiscard]] std::string page_html(const Page& page);

/// Section with a heading, which can be linked to. @param id  letters, digits, hyphens.
[[nodiscard]] std::string section_html(std::string_view id, std::string_view heading,
                                       std::string_view body);

/// Part that is folded away until asked for; printed open.
[[nodiscard]] std::string fold_html(std::string_view summary, std::string_view body,
                                    bool open = false);

/// Drawing as a figure with its heading and its sentence below. Drawn `width` pixels wide: the
/// narrower, the larger the letters on a phone. Up to `figure_width` it fits itself to any screen;
/// a wider one scrolls inside itself.
[[nodiscard]] std::string figure_html(const Drawing& drawing, double width, double height);

/// Width at which letters of 22 pixels are 11 on a phone of 390, margins taken off [pixel].
inline constexpr double figure_width = 716;

/// Drawing as a figure in the one form that serves desk and phone.
[[nodiscard]] std::string figure_html(const Drawing& drawing);

struct Cell {
  std::string text;  ///< plain text, escaped here
  std::string note;  ///< band or source, in small letters below
  std::string kind;  ///< class of the cell, such as "good", "bad", "open"; empty: none
};

struct Table {
  std::string caption;
  std::vector<std::string> head;
  std::vector<std::vector<Cell>> rows;  ///< the first cell of each names the row
};

/// Table that scrolls inside itself where the screen is narrower than it.
[[nodiscard]] std::string table_html(const Table& table);

/// List of sentences; nothing for none.
[[nodiscard]] std::string list_html(const std::vector<std::string>& sentences);

}  // namespace drumlin::viz
