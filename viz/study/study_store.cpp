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
#include "viz/study/header_json.hpp"

namespace drumlin::viz {
namespace fs = std::filesystem;
namespace {

constexpr const char* manifest_name = "manifest.sqlite";
/// Size of the packed study [byte]; there once the chunks are not needed any more.
constexpr const char* packed_fact = "packed_bytes";

std::string shard_text(Shard shard) {
  return fmt::format("{}/{}", shard.index, shard.count);
}

/// As people count: 0 and 2 of 2 are the same part.
std::string part_text(const std::string& shard) {
  const std::size_t slash = shard.find('/');
  const std::string count = shard.substr(slash + 1);
  if (count == "1") return "the whole study";
  return fmt::format("part {}/{}", shard.starts_with("0/") ? count : shard.substr(0, slash), count);
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

/// @throws std::runtime_error if a file is not as the manifest notes it.
void expect_kept(const fs::path& dir, const Manifest::Chunk& chunk) {
  std::error_code error;
  const auto bytes = fs::file_size(dir / chunk.file, error);
  if (error || bytes != chunk.bytes)
    throw std::runtime_error(fmt::format(
        "{}: {} is noted as done and is {}; nothing was touched", dir.string(), chunk.file,
        error ? std::string("not there") : fmt::format("{} bytes, not {}", bytes, chunk.bytes)));
}

void make_folder(const fs::path& dir, const sim::StudyHeader& header, Shard shard) {
  AtomicFolder folder(dir, false);
  fs::create_directory(folder.path() / "chunks");
  {
    Manifest manifest = Manifest::create(folder.path() / manifest_name);
    manifest.note("identity", header.identity);
    manifest.note("version", header.version);
    manifest.note("shard", shard_text(shard));
    manifest.note("header", header_json(header));
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
    throw std::runtime_error(fmt::format("{}: is the folder of {}, not of {}", dir.string(),
                                         part_text(found), part_text(shard_text(shard))));
  if (store.finished()) {
    expect_kept(dir, {"study.h5", std::stoull(store.manifest_.fact(packed_fact))});
    store.remove_chunks();
    return store;
  }
  for (const auto& [number, chunk] : store.manifest_.chunks())
    expect_kept(dir, chunk);
  return store;
}

sim::StudyHeader header_in(const fs::path& folder) {
  const std::string text = Manifest::open(folder / manifest_name).fact("header");
  try {
    return header_from_json(text);
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(fmt::format("{}: damaged: {}", folder.string(), error.what()));
  }
}

bool StudyStore::finished() const {
  return !manifest_.fact(packed_fact).empty();
}

void StudyStore::finish(const std::function<void(double)>& progress) {
  if (finished() || shard_.count > 1) return;
  pack_study({dir_}, header_, packed_file(), progress);
  // Only now may the chunks go: a kill before or after this line loses nothing.
  manifest_.note(packed_fact, fmt::format("{}", fs::file_size(packed_file())));
  remove_chunks();
}

void StudyStore::remove_chunks() const {
  std::error_code ignored;
  fs::remove_all(dir_ / "chunks", ignored);
}

std::vector<std::uint64_t> StudyStore::missing() const {
  const auto done = manifest_.chunks();
  std::vector<std::uint64_t> numbers;
  if (finished()) return numbers;
  for (std::uint64_t number = shard_.index; number < header_.chunks(); number += shard_.count)
    if (!done.contains(number)) numbers.push_back(number);
  return numbers;
}

std::uint64_t StudyStore::owned() const {
  const std::uint64_t chunks = header_.chunks();
  return chunks / shard_.count + (shard_.index < chunks % shard_.count ? 1 : 0);
}

void StudyStore::keep(std::uint64_t chunk, std::string_view file) {
  const std::string name = chunk_name(chunk);
  write_whole_file(dir_ / name, file);
  manifest_.done(chunk, {name, file.size()});
}

void StudyStore::keep(const sim::StudyChunk& chunk) {
  keep(chunk.number, chunk_file(header_, chunk));
}

}  // namespace drumlin::viz
