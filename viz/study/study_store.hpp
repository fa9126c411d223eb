#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string_view>
#include <vector>

#include "sim/study_result.hpp"
#include "viz/study/manifest.hpp"

namespace drumlin::viz {

/// Which part of a study a folder works on: chunk numbers with number % count == index. Shards of
/// one study lie in sibling folders on machines that know nothing of each other.
struct Shard {
  std::uint64_t index = 0;
  std::uint64_t count = 1;

  [[nodiscard]] bool owns(std::uint64_t chunk) const { return chunk % count == index; }
};

/// Keeps a study on the disk while it runs: one HDF5 file per chunk and a manifest whose row is
/// written after the chunk's file has its name. What the manifest calls done is never lost, also
/// when the process is killed. One process at a time writes into a folder.
///
/// Why not one file that grows: after a kill in the middle of a write a growing HDF5 file with
/// compression does not open again; measured, see tests/contract/study_store_test.cpp.
class StudyStore {
 public:
  /// Makes the folder, whole or not at all. @throws std::runtime_error if it is there already.
  static StudyStore create(const std::filesystem::path& dir, const sim::StudyHeader& header,
                           Shard shard = {});
  /// Opens a folder that an earlier call has begun, of the same study and shard.
  /// @throws std::runtime_error if it is damaged, foreign, another study's, or written by a living
  /// process; nothing is touched then.
  static StudyStore resume(const std::filesystem::path& dir, const sim::StudyHeader& header,
                           Shard shard = {});
  ~StudyStore();
  StudyStore(StudyStore&& other) noexcept;
  StudyStore(const StudyStore&) = delete;
  StudyStore& operator=(const StudyStore&) = delete;
  StudyStore& operator=(StudyStore&&) = delete;

  /// Numbers of this shard's chunks that are not done, rising.
  [[nodiscard]] std::vector<std::uint64_t> missing() const;

  /// How many chunks are this shard's.
  [[nodiscard]] std::uint64_t owned() const;

  /// Keeps the file of a chunk, as chunk_file() makes it here or elsewhere; when the call returns,
  /// the chunk is done and on the disk.
  /// @throws std::runtime_error, on a full disk for instance; what was done stays done.
  void keep(std::uint64_t chunk, std::string_view file);
  void keep(const sim::StudyChunk& chunk);

  /// Packs the study into `study.h5` of the folder and removes the chunks, once none is missing. A
  /// shard is not packed: its chunks wait for the others.
  /// @throws std::runtime_error as pack_study does.
  void finish(const std::function<void(double)>& progress = {});

  /// Whether the folder holds the whole study as one file.
  [[nodiscard]] bool finished() const;

  [[nodiscard]] std::filesystem::path packed_file() const { return dir_ / "study.h5"; }

  [[nodiscard]] const std::filesystem::path& folder() const noexcept { return dir_; }

 private:
  StudyStore(std::filesystem::path dir, sim::StudyHeader header, Shard shard, Manifest manifest);
  void lock();
  void remove_chunks() const;

  std::filesystem::path dir_;
  sim::StudyHeader header_;
  Shard shard_;
  Manifest manifest_;
  int lock_ = -1;
};

/// The study that a folder was begun for. @throws std::runtime_error if it holds none.
[[nodiscard]] sim::StudyHeader header_in(const std::filesystem::path& folder);

/// Packs the chunks of all shards into one self-describing file `study.h5`, which appears whole or
/// not at all; its bytes depend on the study only, not on shards, order, threads or kills.
/// @param progress  is told the share that is done.
/// @throws std::runtime_error naming the folder that lacks chunks, is damaged or of another study.
void pack_study(const std::vector<std::filesystem::path>& folders, const sim::StudyHeader& header,
                const std::filesystem::path& file,
                const std::function<void(double)>& progress = {});

}  // namespace drumlin::viz
