#include <charconv>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "cases/study_parts.hpp"

namespace drumlin::cases {
namespace {

struct Cell {
  std::string text;
  Place place;
};

/// Cells of one line of comma-separated values, quotes doubled inside quotes (RFC 4180); blanks
/// around a cell do not count.
std::vector<Cell> cells_of(std::string_view line, int number) {
  std::vector<Cell> cells;
  std::size_t at = 0;
  while (true) {
    while (at < line.size() && (line[at] == ' ' || line[at] == '\t'))
      ++at;
    Cell cell{{}, {number, static_cast<int>(at) + 1}};
    if (at < line.size() && line[at] == '"') {
      for (++at; at < line.size(); ++at) {
        if (line[at] != '"')
          cell.text += line[at];
        else if (at + 1 < line.size() && line[at + 1] == '"')
          cell.text += line[++at];
        else
          break;
      }
      at = std::min(line.find(',', at), line.size());
    } else {
      const std::size_t end = std::min(line.find(',', at), line.size());
      cell.text = std::string(line.substr(at, end - at));
      at = end;
      cell.text.erase(cell.text.find_last_not_of(" \t\r") + 1);
    }
    cells.push_back(std::move(cell));
    if (at >= line.size()) return cells;
    ++at;
  }
}

/// A cell as TOML would have it: a bare number, true or false, or else a text.
Node value_of(const Cell& cell) {
  Node node;
  node.place = cell.place;
  const char* end = cell.text.data() + cell.text.size();
  if (const auto whole = std::from_chars(cell.text.data(), end, node.integer);
      whole.ec == std::errc() && whole.ptr == end) {
    node.kind = Node::Kind::integer;
    node.number = static_cast<double>(node.integer);
  } else if (const auto number = std::from_chars(cell.text.data(), end, node.number);
             number.ec == std::errc() && number.ptr == end) {
    node.kind = Node::Kind::number;
  } else if (cell.text == "true" || cell.text == "false") {
    node.kind = Node::Kind::boolean;
    node.flag = cell.text == "true";
  } else {
    node.kind = Node::Kind::string;
    node.text = cell.text;
  }
  return node;
}

/// Value of a cell for a column; a word that came before keeps its number.
std::optional<double> read_cell(const OpenCase& base, const Cell& cell, FactorKey& column,
                                Findings& findings) {
  for (std::size_t i = 0; i < column.factor.words.size(); ++i)
    if (column.factor.words[i] == cell.text) return static_cast<double>(i);
  const std::size_t before = findings.problems.size();
  add_value(base, value_of(cell), column, findings);
  if (findings.problems.size() != before || column.factor.values.empty()) return std::nullopt;
  return column.factor.values.back();
}

}  // namespace

StudyList read_list(std::string_view text, const OpenCase& base, Findings& findings) {
  StudyList list;
  int number = 0;
  bool headed = false;
  while (!text.empty()) {
    ++number;
    const std::size_t end = text.find('\n');
    std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    if (line.find_first_not_of(" \t\r") == std::string_view::npos || line.front() == '#') continue;
    const auto cells = cells_of(line, number);
    if (!headed) {
      headed = true;
      for (const Cell& cell : cells)
        if (auto key = find_key(base, cell.text, cell.place, "", findings))
          list.columns.push_back(std::move(*key));
      if (list.columns.size() != cells.size()) return list;
      continue;
    }
    if (cells.size() != list.columns.size()) {
      findings.problem(cells.back().place, "",
                       fmt::format("{} values in a line; expected {}, one for each key of the "
                                   "first line",
                                   cells.size(), list.columns.size()));
      continue;
    }
    std::vector<double> row;
    for (std::size_t i = 0; i < cells.size(); ++i)
      if (const auto value = read_cell(base, cells[i], list.columns[i], findings))
        row.push_back(*value);
    if (row.size() == cells.size()) list.rows.push_back(std::move(row));
  }
  if (!headed) findings.problem({}, "", "is empty; expected keys in its first line");
  return list;
}

}  // namespace drumlin::cases
