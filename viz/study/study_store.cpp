#include "viz/study/study_store.hpp"

#include <cerrno>
#include <stdexcept>
#include <string>
#include <system_error>
#include <utility>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include "viz/atomic_file.hpp"
#include "viz/atomic_folder.hpp"
#include "viz/study/chunk_file.hpp"

namespace drumlin::viz {
namespace fs = std::filesystem;
namespace {

constexpr const char* manifest_name = "manifest.sqlite";

std::string shard_text(Shard shard) {
  return fmt::format("{}/{}", shard.index, shard.count);
}

std::string chunk_name(std::uint64_t number) {
  return fmt::format("chunks/{:08}.h5", number);
}

void expect_same(const fs::path& dir, const Manifest& manifest, const sim::StudyHeader& header) {
  if (manifest.fact("identity") == header.identity) return;
  throw std::runtime_error(
      fmt::format("{}: holds another study (or the same one of another version of drumlin, {}); "
                  "name another folder",
                  dir.string(), manifest.fact("version")));
}

void make_folder(const fs::path& dir, const sim::StudyHeader& header, Shard shard) {
  AtomicFolder folder(dir, false);
  fs::create_directory(folder.path() / "chunks");
  {
    Manifest manifest = Manifest::create(folder.path() / manifest_name);
    manifest.note("identity", header.identity);
    manifest.note("version", header.version);
    manifest.note("shard", shard_text(shard));
    manifest.note("study", header.study_text);
    manifest.note("case", header.case_text);
  }
  folder.commit();
}

}  // namespace

StudyStore::StudyStore(fs::path dir, sim::StudyHeader header, Shard shard, Manifest manifest)
    : dir_(std::move(dir)),
      header_(std::move(header)),
      shard_(shard),
      manifest_(std::move(manifest)) {}

StudyStore::StudyStore(StudyStore&& other) noexcept
    : dir_(std::move(other.dir_)),
      header_(std::move(other.header_)),
      shard_(other.shard_),
      manifest_(std::move(other.manifest_)),
      lock_(std::exchange(other.lock_, -1)) {}

StudyStore::~StudyStore() {
  if (lock_ >= 0) close(lock_);
}

/// The system gives a lock back when its process dies, whatever it dies of.
void StudyStore::lock() {
  lock_ = open(dir_.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (lock_ >= 0 && flock(lock_, LOCK_EX | LOCK_NB) == 0) return;
  throw std::runtime_error(fmt::format("{}: another process is writing into it", dir_.string()));
}

StudyStore StudyStore::create(const fs::path& dir, const sim::StudyHeader& header, Shard shard) {
  make_folder(dir, header, shard);
  return resume(dir, header, shard);
}

StudyStore StudyStore::resume(const fs::path& dir, const sim::StudyHeader& header, Shard shard) {
  if (!fs::is_directory(dir))
    throw std::runtime_error(dir.string() + ": there is no such folder to go on with");
  StudyStore store(dir, header, shard, Manifest::open(dir / manifest_name));
  store.lock();
  expect_same(dir, store.manifest_, header);
  if (const std::string found = store.manifest_.fact("shard"); found != shard_text(shard))
    throw std::runtime_error(fmt::format("{}: holds shard {} of the study, not {}", dir.string(),
                                         found, shard_text(shard)));
  for (const auto& [number, chunk] : store.manifest_.chunks()) {
    std::error_code error;
    const auto bytes = fs::file_size(dir / chunk.file, error);
    if (error || bytes != chunk.bytes)
      throw std::runtime_error(fmt::format(
          "{}: {} is noted as done and is {}; nothing was touched", dir.string(), chunk.file,
          error ? std::string("not there") : fmt::format("{} bytes, not {}", bytes, chunk.bytes)));
  }
  return store;
}

std::vector<std::uint64_t> StudyStore::missing() const {
  const auto done = manifest_.chunks();
  std::vector<std::uint64_t> numbers;
  for (std::uint64_t number = shard_.index; number < header_.chunks(); number += shard_.count)
    if (!done.contains(number)) numbers.push_back(number);
  return numbers;
}

void StudyStore::keep(const sim::StudyChunk& chunk) {
  const std::string name = chunk_name(chunk.number);
  write_chunk(dir_ / name, header_, chunk);
  manifest_.done(chunk.number, {name, fs::file_size(dir_ / name)});
}

}  // namespace drumlin::viz
