#include "sim/app/text.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace drumlin::app {

namespace {

std::string_view escape(Paint paint) {
  switch (paint) {
    case Paint::heading:
      return "\x1b[1m";
    case Paint::quiet:
      return "\x1b[2m";
    case Paint::good:
      return "\x1b[32m";
    case Paint::bad:
      return "\x1b[31m";
    case Paint::caution:
      return "\x1b[33m";
    case Paint::plain:
      break;
  }
  return "";
}

std::string padded(const std::string& cell, std::size_t width, bool left) {
  const std::string blanks(width - std::min(width, columns(cell)), ' ');
  return left ? cell + blanks : blanks + cell;
}

std::vector<std::size_t> column_widths(const Table& table) {
  std::vector<std::size_t> widths;
  for (const auto* rows : {&table.head, &table.rows}) {
    for (const auto& row : *rows) {
      widths.resize(std::max(widths.size(), row.size()), 0);
      for (std::size_t i = 0; i < row.size(); ++i)
        widths[i] = std::max(widths[i], columns(row[i]));
    }
  }
  return widths;
}

// The first column and those from `begin` up to `end`.
std::string row_text(const std::vector<std::string>& row, const std::vector<std::size_t>& widths,
                     std::size_t begin, std::size_t end) {
  std::string line = "  " + padded(row.front(), widths.front(), true);
  for (std::size_t i = begin; i < std::min(end, row.size()); ++i)
    line += "  " + padded(row[i], widths[i], false);
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

// "-0.0" says nothing that "0.0" does not.
std::string without_minus_zero(std::string text) {
  if (text.starts_with('-') && text.find_first_of("123456789") == std::string::npos)
    text.erase(text.begin());
  return text;
}

}  // namespace

std::string painted(std::string_view text, Paint paint, const Style& style) {
  if (!style.colour || paint == Paint::plain) return std::string(text);
  return fmt::format("{}{}\x1b[0m", escape(paint), text);
}

std::size_t columns(std::string_view text) {
  std::size_t count = 0;
  bool in_escape = false;
  for (const char c : text) {
    if (c == '\x1b') in_escape = true;
    const bool begins_code_point = (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    if (!in_escape && begins_code_point) ++count;
    if (in_escape && c == 'm') in_escape = false;
  }
  return count;
}

std::string wrapped(std::string_view text, std::string_view first, const Style& style) {
  const std::string indent(columns(first), ' ');
  std::string out;
  std::string line(first);
  bool fresh = true;
  std::size_t at = 0;
  while ((at = text.find_first_not_of(" \n", at)) != std::string_view::npos) {
    const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
    const std::string_view word = text.substr(at, end - at);
    if (!fresh && columns(line) + 1 + columns(word) > style.width) {
      out += line + '\n';
      line = indent;
      fresh = true;
    }
    if (!fresh) line += ' ';
    line += word;
    fresh = false;
    at = end;
  }
  line.erase(line.find_last_not_of(' ') + 1);
  return out + line + '\n';
}

std::string to_text(const Table& table, const Style& style) {
  const std::vector<std::size_t> widths = column_widths(table);
  std::string out;
  std::size_t begin = 1;
  do {
    std::size_t taken = 2 + widths.front();
    std::size_t end = begin;
    while (end < widths.size() && (end == begin || taken + 2 + widths[end] <= style.width))
      taken += 2 + widths[end++];
    for (const auto& row : table.head)
      out += painted(row_text(row, widths, begin, end), Paint::quiet, style) + '\n';
    for (const auto& row : table.rows)
      out += row_text(row, widths, begin, end) + '\n';
    begin = end;
  } while (begin < widths.size());
  return out;
}

std::string heading(std::string_view text, const Style& style) {
  return '\n' + painted(text, Paint::heading, style) + '\n';
}

std::string list(std::string_view title, const std::vector<std::string>& lines, Paint paint,
                 const Style& style) {
  if (lines.empty()) return "";
  std::string out = '\n' + painted(title, paint, style) + '\n';
  for (const std::string& line : lines)
    out += wrapped(line, "  - ", style);
  return out;
}

std::string pressing_text(const std::vector<std::string>& cautions, const Style& style) {
  const std::string text = list("Before anything else", cautions, Paint::caution, style);
  return text.empty() ? text : text.substr(1) + '\n';
}

std::string fixed(double value, int decimals) {
  return without_minus_zero(fmt::format("{:.{}f}", value, decimals));
}

std::string significant(double value, int digits) {
  const double size = std::abs(value);
  if (size == 0 || (size >= 1e-4 && size < 1e6)) {
    const int whole = size == 0 ? 1 : static_cast<int>(std::floor(std::log10(size))) + 1;
    return fixed(value, std::clamp(digits - whole, 0, 9));
  }
  return fmt::format("{:.{}e}", value, std::max(digits - 1, 0));
}

std::string brief(double value, int digits) {
  std::string text = significant(value, digits);
  if (text.find('.') == std::string::npos || text.find('e') != std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

std::string value_text(const sim::Quantity& quantity, double factor, int decimals) {
  return quantity ? fixed(quantity->value * factor, decimals) : "-";
}

std::string band_text(const sim::Quantity& quantity, double factor, int decimals) {
  if (!quantity || !quantity->low || !quantity->high) return "";
  return fmt::format("{}..{}", fixed(*quantity->low * factor, decimals),
                     fixed(*quantity->high * factor, decimals));
}

}  // namespace drumlin::app
