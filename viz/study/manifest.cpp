#include "viz/study/manifest.hpp"

#include <array>
#include <fstream>
#include <stdexcept>

#include <fmt/format.h>
#include <sqlite3.h>

namespace drumlin::viz {
namespace fs = std::filesystem;
namespace {

/// Marks the database as a manifest of ours ("drum" as a number), in the place that SQLite's file
/// format keeps for this.
constexpr std::uint32_t application = 0x6472756d;

using Base = std::unique_ptr<sqlite3, void (*)(sqlite3*)>;

[[noreturn]] void fail(sqlite3* base, std::string_view what) {
  throw std::runtime_error(fmt::format("manifest: {}: {}", what,
                                       base == nullptr ? "out of memory" : sqlite3_errmsg(base)));
}

/// A prepared statement that is finalised when it goes.
class Statement {
 public:
  Statement(sqlite3* base, const char* text) : base_(base) {
    if (sqlite3_prepare_v2(base, text, -1, &statement_, nullptr) != SQLITE_OK) fail(base, text);
  }
  ~Statement() { sqlite3_finalize(statement_); }
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  Statement(Statement&&) = delete;
  Statement& operator=(Statement&&) = delete;

  Statement& bind(int at, std::string_view text) {
    if (sqlite3_bind_text64(statement_, at, text.data(), text.size(), SQLITE_TRANSIENT,
                            SQLITE_UTF8) != SQLITE_OK)
      fail(base_, "a text");
    return *this;
  }
  Statement& bind(int at, std::uint64_t number) {
    if (sqlite3_bind_int64(statement_, at, static_cast<sqlite3_int64>(number)) != SQLITE_OK)
      fail(base_, "a number");
    return *this;
  }
  /// Whether there is a (further) row.
  bool step() {
    const int result = sqlite3_step(statement_);
    if (result == SQLITE_ROW) return true;
    if (result != SQLITE_DONE) fail(base_, "cannot be read or written");
    return false;
  }
  [[nodiscard]] std::string text(int column) const {
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): SQLite's text is unsigned char
    const auto* first = reinterpret_cast<const char*>(sqlite3_column_text(statement_, column));
    const int bytes = sqlite3_column_bytes(statement_, column);
    return first == nullptr ? std::string() : std::string(first, static_cast<std::size_t>(bytes));
  }
  [[nodiscard]] std::uint64_t number(int column) const {
    return static_cast<std::uint64_t>(sqlite3_column_int64(statement_, column));
  }

 private:
  sqlite3* base_;
  sqlite3_stmt* statement_ = nullptr;
};

/// Whether a file begins as a manifest does. Looked at without SQLite, which leaves its traces
/// beside every file that it opens.
bool is_manifest(const fs::path& path) {
  constexpr std::size_t mark_at = 68;  // of the application's mark: SQLite's file format, 1.3
  std::array<char, 72> head{};
  std::ifstream file(path, std::ios::binary);
  if (!file.read(head.data(), head.size())) return false;
  if (std::string_view(head.data(), 16) != std::string_view("SQLite format 3\0", 16)) return false;
  std::uint32_t mark = 0;
  for (std::size_t i = 0; i < 4; ++i)
    mark = mark << 8U | static_cast<unsigned char>(head.at(mark_at + i));
  return mark == application;
}

sqlite3* opened(const fs::path& path, int flags) {
  sqlite3* base = nullptr;
  if (sqlite3_open_v2(path.c_str(), &base, flags, nullptr) != SQLITE_OK) {
    const std::string what = base == nullptr ? "out of memory" : sqlite3_errmsg(base);
    sqlite3_close(base);
    throw std::runtime_error(fmt::format("{}: cannot be opened: {}", path.string(), what));
  }
  return base;
}

}  // namespace

void Manifest::Close::operator()(sqlite3* base) const noexcept {
  sqlite3_close(base);
}

void Manifest::execute(const char* statement) const {
  if (sqlite3_exec(base_.get(), statement, nullptr, nullptr, nullptr) != SQLITE_OK)
    fail(base_.get(), statement);
}

Manifest Manifest::create(const fs::path& path) {
  if (fs::exists(path)) throw std::runtime_error(path.string() + ": exists already");
  Manifest made({opened(path, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE), {}});
  made.execute(fmt::format("PRAGMA application_id = {}", application).c_str());
  made.execute("PRAGMA synchronous = FULL");
  made.execute("PRAGMA journal_mode = WAL");
  made.execute(
      "BEGIN; CREATE TABLE fact (key TEXT PRIMARY KEY, value TEXT NOT NULL);"
      "CREATE TABLE chunk (number INTEGER PRIMARY KEY, file TEXT NOT NULL, bytes INTEGER NOT NULL);"
      "COMMIT");
  return made;
}

Manifest Manifest::open(const fs::path& path) {
  if (!fs::is_regular_file(path))
    throw std::runtime_error(path.string() + ": not there, so this folder holds no study");
  if (!is_manifest(path))
    throw std::runtime_error(path.string() + ": is no manifest of a study; nothing was touched");
  Manifest made({opened(path, SQLITE_OPEN_READWRITE), {}});
  try {
    made.execute("PRAGMA synchronous = FULL");
    Statement check(made.base_.get(), "PRAGMA quick_check");
    if (!check.step() || check.text(0) != "ok")
      throw std::runtime_error("its pages do not hold together");
    Statement(made.base_.get(), "SELECT key, value FROM fact").step();
    Statement(made.base_.get(), "SELECT number, file, bytes FROM chunk").step();
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(fmt::format("{}: damaged: {}", path.string(), error.what()));
  }
  return made;
}

void Manifest::note(std::string_view key, std::string_view value) {
  Statement(base_.get(), "INSERT OR REPLACE INTO fact VALUES (?1, ?2)")
      .bind(1, key)
      .bind(2, value)
      .step();
}

std::string Manifest::fact(std::string_view key) const {
  Statement found(base_.get(), "SELECT value FROM fact WHERE key = ?1");
  return found.bind(1, key).step() ? found.text(0) : std::string();
}

void Manifest::done(std::uint64_t number, const Chunk& chunk) {
  Statement(base_.get(), "INSERT OR REPLACE INTO chunk VALUES (?1, ?2, ?3)")
      .bind(1, number)
      .bind(2, chunk.file)
      .bind(3, chunk.bytes)
      .step();
}

std::map<std::uint64_t, Manifest::Chunk> Manifest::chunks() const {
  std::map<std::uint64_t, Chunk> found;
  Statement rows(base_.get(), "SELECT number, file, bytes FROM chunk");
  while (rows.step())
    found.emplace(rows.number(0), Chunk{rows.text(1), rows.number(2)});
  return found;
}

}  // namespace drumlin::viz
