#include "cases/library.hpp"

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "cases/file_text.hpp"
#include "cases/library_known.hpp"
#include "cases/reader.hpp"
#include "cases/section.hpp"
#include "cases/suggest.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace fs = std::filesystem;

namespace {

constexpr std::size_t longest_name = 60;

std::string_view word(EntryKind kind) {
  switch (kind) {
    case EntryKind::material:
      return "material";
    case EntryKind::abrasive:
      return "abrasive";
    case EntryKind::backing:
      return "backing";
    case EntryKind::cover:
      return "cover";
    case EntryKind::grit:
      return "grit";
    case EntryKind::coating_class:
      return "coating class";
  }
  return "name";
}

/// A name is never a path: it must not lead out of the library's folders.
bool is_plain(const std::string& name) {
  if (name.empty() || name.size() > longest_name || name.front() == '.') return false;
  return std::none_of(name.begin(), name.end(), [](char c) {
    return c == '/' || c == '\\' || std::iscntrl(static_cast<unsigned char>(c)) != 0;
  });
}

/// A folder with more files than this is no materials folder; its rest is not listed.
constexpr int most_files_listed = 500;

/// The key that only files of a kind have: it tells a material from a case beside it.
std::string_view telling_key(EntryKind kind) {
  switch (kind) {
    case EntryKind::abrasive:
      return "friction";
    case EntryKind::backing:
      return "bending_stiffness";
    case EntryKind::cover:
      return "relaxation";
    default:
      return "specific_energy";
  }
}

/// The entry of a data file; none if it is another kind of file.
std::optional<LibraryEntry> entry_of(const fs::path& file, EntryKind kind) {
  if (file.extension() != ".toml") return std::nullopt;
  try {
    const Node root = parse_toml(file_text(file, "a data file"), file.string());
    if (root.find(telling_key(kind)) == nullptr) return std::nullopt;
    const Member* description = root.find("description");
    return LibraryEntry{file.stem().string(),
                        description == nullptr ? std::string() : description->value.text, file};
  } catch (const CaseError&) {
    return std::nullopt;
  }
}

/// "P120" before "P240" before "US 120".
std::pair<std::string, int> grade_order(const std::string& name) {
  const std::size_t digits = std::min(name.find_first_of("0123456789"), name.size());
  int number = 0;
  for (std::size_t i = digits; i < name.size(); ++i)
    if (name[i] >= '0' && name[i] <= '9' && number < 100000) number = 10 * number + (name[i] - '0');
  return {name.substr(0, digits), number};
}

/// The rows of a shipped table: each named member that is a table or a text.
void add_rows(const Node& table, const fs::path& file, std::vector<LibraryEntry>& entries) {
  for (const Member& row : table.members) {
    // Grits are texts in the tables of their scales; what holds for all of them has a value.
    if (row.key == "source" || row.value.find("value") != nullptr) continue;
    if (row.value.kind == Node::Kind::string) {
      entries.push_back({row.key, "mean diameter " + row.value.text, file});
      continue;
    }
    const Member* mass = row.value.find("mass");
    if (mass == nullptr) {
      add_rows(row.value, file, entries);
      continue;
    }
    const Member* layer = row.value.find("layer");
    entries.push_back({row.key,
                       fmt::format("{} of {}, both faces", mass->value.text,
                                   layer == nullptr ? "coating" : layer->value.text),
                       file});
  }
}

}  // namespace

Library::Library(fs::path case_folder)
    : case_folder_(std::move(case_folder)),
      shipped_(shipped_folder()),
      known_(std::make_shared<Known>()) {}

fs::path Library::shipped_folder() {
  // Read once a case, from one thread, and never set by this program.
  if (const char* named = std::getenv("DRUMLIN_MATERIALS"))  // NOLINT(concurrency-mt-unsafe)
    return named;
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  if (!error) {
    fs::path beside = program.parent_path().parent_path() / "share/drumlin/materials";
    if (fs::is_directory(beside, error)) return beside;
  }
  return DRUMLIN_MATERIALS_DIR;
}

std::vector<fs::path> Library::folders(EntryKind kind) const {
  const fs::path sub = kind == EntryKind::abrasive  ? "abrasives"
                       : kind == EntryKind::backing ? "backings"
                       : kind == EntryKind::cover   ? "covers"
                                                    : "";
  if (case_folder_.empty()) return {shipped_ / sub};
  if (kind == EntryKind::material) return {case_folder_, case_folder_ / "materials", shipped_};
  return {case_folder_ / sub, case_folder_ / "materials" / sub, shipped_ / sub};
}

fs::path Library::find(EntryKind kind, const std::string& name) const {
  if (is_plain(name)) {
    for (const fs::path& folder : folders(kind)) {
      std::error_code error;
      fs::path file = folder / (name + ".toml");
      if (fs::is_regular_file(file, error)) return file;
    }
  }
  const auto known = names(kind);
  if (known.empty())
    throw UnknownName(fmt::format("unknown {} {}; the material library at \"{}\" cannot be read",
                                  word(kind), in_quotes(name), shipped_.string()));
  throw UnknownName(
      fmt::format("unknown {} {}{}", word(kind), in_quotes(name), suggestion(name, known)));
}

std::vector<std::string> Library::names(EntryKind kind) const {
  std::vector<std::string> result;
  for (const auto& entry : list(kind))
    result.push_back(entry.name);
  return result;
}

std::vector<LibraryEntry> Library::list(EntryKind kind) const {
  std::vector<LibraryEntry> entries;
  if (kind == EntryKind::grit || kind == EntryKind::coating_class) {
    const fs::path file =
        shipped_ / "tables" / (kind == EntryKind::grit ? "grits.toml" : "coating_classes.toml");
    add_rows(parse_toml(file_text(file, "a data file"), file.string()), file, entries);
  } else {
    std::map<std::string, LibraryEntry> found;
    for (const fs::path& folder : folders(kind)) {
      std::error_code error;
      int files = 0;
      for (fs::directory_iterator item(folder, error), end;
           !error && item != end && files < most_files_listed; item.increment(error), ++files)
        if (auto entry = entry_of(item->path(), kind)) found.try_emplace(entry->name, *entry);
    }
    for (auto& [name, entry] : found)
      entries.push_back(std::move(entry));
  }
  std::sort(entries.begin(), entries.end(), [](const LibraryEntry& a, const LibraryEntry& b) {
    return std::pair(grade_order(a.name), a.name) < std::pair(grade_order(b.name), b.name);
  });
  return entries;
}

}  // namespace drumlin::cases
