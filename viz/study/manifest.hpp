#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <string_view>

struct sqlite3;

namespace drumlin::viz {

/// What a study's folder holds: which study it is and which chunks are done. A small SQLite
/// database with a write-ahead log, every change on the disk before the call returns.
class Manifest {
 public:
  /// Makes a new one. @throws std::runtime_error if the file is there.
  static Manifest create(const std::filesystem::path& path);
  /// Opens one. @throws std::runtime_error if the file is no manifest of a study, or damaged; it is
  /// not changed then.
  static Manifest open(const std::filesystem::path& path);

  /// Notes a fact about the study.
  void note(std::string_view key, std::string_view value);
  [[nodiscard]] std::string fact(std::string_view key) const;

  struct Chunk {
    std::string file;         ///< relative to the manifest's folder
    std::uint64_t bytes = 0;  ///< of the file
  };
  /// Notes that a chunk is done. Call it after the chunk's file has its name.
  void done(std::uint64_t number, const Chunk& chunk);
  [[nodiscard]] std::map<std::uint64_t, Chunk> chunks() const;

 private:
  struct Close {
    void operator()(sqlite3* base) const noexcept;
  };
  explicit Manifest(std::unique_ptr<sqlite3, Close> base) : base_(std::move(base)) {}
  void execute(const char* statement) const;

  std::unique_ptr<sqlite3, Close> base_;
};

}  // namespace drumlin::viz
