#include "viz/study/study_store.hpp"

#include <algorithm>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <limits>
#include <map>
#include <set>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "tests/support/deadly_calls.hpp"
#include "tests/support/temporary_folder.hpp"
#include "viz/study/study_file.hpp"

namespace {

namespace fs = std::filesystem;
using drumlin::sim::StudyChunk;
using drumlin::sim::StudyColumn;
using drumlin::sim::StudyHeader;
using drumlin::support::tree_of;
using drumlin::viz::Shard;
using drumlin::viz::StudyStore;
using testing::HasSubstr;

StudyHeader header_of(std::uint64_t rows, std::uint64_t rows_per_chunk) {
  StudyHeader header;
  header.identity = "0123abcd";
  header.version = "test";
  header.model = "fast";
  header.case_text = "title = \"t\"\n";
  header.study_text = "case = \"t.toml\"\n";
  header.rows = rows;
  header.rows_per_chunk = rows_per_chunk;
  header.columns = {
      {"part.thickness", "mm", "sheet thickness", "factor", StudyColumn::Kind::number},
      {"station[0].belt.grit", "text", "grit", "factor", StudyColumn::Kind::text},
      {"removal_um", "um", "removal on the face", "output", StudyColumn::Kind::number},
      {"status", "text", "what became of the row", "status", StudyColumn::Kind::text},
  };
  return header;
}

/// A chunk whose every value follows from its row number.
StudyChunk chunk_of(const StudyHeader& header, std::uint64_t number) {
  std::vector<double> thickness;
  std::vector<double> removal;
  std::vector<std::string> grit;
  std::vector<std::string> status;
  for (std::uint64_t i = 0; i < header.rows_of(number); ++i) {
    const std::uint64_t row = header.first_row(number) + i;
    const bool fails = row % 7 == 3;
    thickness.push_back(1.0 + 0.1 * static_cast<double>(row));
    removal.push_back(fails ? std::numeric_limits<double>::quiet_NaN()
                            : 1.0 / static_cast<double>(row + 1));
    grit.push_back(row % 2 == 0 ? "P80" : "P120");
    status.push_back(fails ? "impossible, \"too thin\"" : "done");
  }
  return {number, {thickness, grit, removal, status}};
}

std::string bytes_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// Which chunks a child was told are done: memory that outlives the child.
class ReportedChunks {
 public:
  ReportedChunks()
      : flags_(static_cast<char*>(
            mmap(nullptr, size, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0))) {}
  ~ReportedChunks() { munmap(flags_, size); }
  ReportedChunks(const ReportedChunks&) = delete;
  ReportedChunks& operator=(const ReportedChunks&) = delete;
  ReportedChunks(ReportedChunks&&) = delete;
  ReportedChunks& operator=(ReportedChunks&&) = delete;

  void say(std::uint64_t number) const { flags_[number] = 1; }
  [[nodiscard]] bool has(std::uint64_t number) const { return flags_[number] == 1; }
  [[nodiscard]] std::uint64_t count() const {
    return static_cast<std::uint64_t>(std::count(flags_, flags_ + size, 1));
  }

 private:
  static constexpr std::size_t size = 64;
  char* flags_;
};

class AStudyStore : public testing::Test {
 protected:
  [[nodiscard]] fs::path dir(const std::string& name = "study") const {
    return folder_.path() / name;
  }
  /// Does all that is missing and packs it.
  void finish(const fs::path& where) const {
    StudyStore store =
        fs::exists(where) ? StudyStore::resume(where, header_) : StudyStore::create(where, header_);
    for (const std::uint64_t number : store.missing())
      store.keep(chunk_of(header_, number));
    store.finish();
  }
  [[nodiscard]] std::string whole() const {
    finish(dir("whole"));
    return bytes_of(dir("whole") / "study.h5");
  }
  std::string refusal(const std::function<void()>& work) const {
    try {
      work();
    } catch (const std::runtime_error& error) {
      return error.what();
    }
    return "not refused";
  }

  StudyHeader header_ = header_of(10, 3);
  drumlin::support::TemporaryFolder folder_;
};

// The child says in memory shared with the test which chunks it was told are done.
TEST_F(AStudyStore, KilledAtAnyWriteLosesNothingThatWasReportedDoneAndEndsInTheSameBytes) {
  const std::string expected = whole();
  const long all = drumlin::support::disk_calls_of([&] { finish(dir("counted")); });
  ASSERT_GT(all, 40) << "the calls are not seen: the test would show nothing";
  std::set<std::uint64_t> reported_counts;
  for (long call = 1; call <= all; ++call) {
    fs::remove_all(dir());
    const ReportedChunks reported;
    const bool killed = drumlin::support::killed_at(call, [&] {
      StudyStore store = StudyStore::create(dir(), header_);
      for (const std::uint64_t number : store.missing()) {
        store.keep(chunk_of(header_, number));
        reported.say(number);
      }
      store.finish();
    });
    ASSERT_TRUE(killed || call > all - 8) << call;
    reported_counts.insert(reported.count());
    if (fs::exists(dir())) {
      const StudyStore again = StudyStore::resume(dir(), header_);
      for (const std::uint64_t number : again.missing())
        ASSERT_FALSE(reported.has(number)) << "chunk " << number << " lost at call " << call;
    } else {
      ASSERT_EQ(reported.count(), 0U) << call;
    }
    if (fs::exists(dir() / "study.h5")) {
      ASSERT_EQ(bytes_of(dir() / "study.h5"), expected) << call;
    }
    finish(dir());
    ASSERT_EQ(bytes_of(dir() / "study.h5"), expected) << "killed at call " << call;
  }
  EXPECT_EQ(reported_counts.size(), 5U) << "kills came before, between and after all four chunks";
}

TEST_F(AStudyStore, GivesTheSameBytesForAnyOrderAndAnyShards) {
  const std::string expected = whole();
  {
    StudyStore store = StudyStore::create(dir(), header_);
    std::vector<std::uint64_t> numbers = store.missing();
    for (auto at = numbers.rbegin(); at != numbers.rend(); ++at)
      store.keep(chunk_of(header_, *at));
  }
  drumlin::viz::pack_study({dir()}, header_, dir() / "study.h5");
  EXPECT_EQ(bytes_of(dir() / "study.h5"), expected);
  std::vector<fs::path> shards;
  for (const std::uint64_t i : {2U, 0U, 1U}) {
    shards.push_back(dir("shard" + std::to_string(i)));
    StudyStore store = StudyStore::create(shards.back(), header_, {i, 3});
    for (const std::uint64_t number : store.missing()) {
      EXPECT_EQ(number % 3, i);
      store.keep(chunk_of(header_, number));
    }
  }
  drumlin::viz::pack_study(shards, header_, dir("merged.h5"));
  EXPECT_EQ(bytes_of(dir("merged.h5")), expected);
}

TEST_F(AStudyStore, IsNotPackedWhileRowsAreMissing) {
  StudyStore store = StudyStore::create(dir(), header_);
  store.keep(chunk_of(header_, 0));
  store.keep(chunk_of(header_, 2));
  EXPECT_THAT(refusal([&] { drumlin::viz::pack_study({dir()}, header_, dir() / "study.h5"); }),
              HasSubstr("rows 3 to 5 are not done yet: 2 of 4"));
  EXPECT_FALSE(fs::exists(dir() / "study.h5"));
}

TEST_F(AStudyStore, RefusesWhatIsDamagedForeignOrAnotherStudysAndTouchesNothing) {
  {
    StudyStore store = StudyStore::create(dir(), header_);
    for (const std::uint64_t number : store.missing())
      store.keep(chunk_of(header_, number));
  }
  const auto refused = [&](const std::function<void()>& work, const std::string& words) {
    const auto before = tree_of(dir());
    EXPECT_THAT(refusal(work), HasSubstr(words));
    EXPECT_TRUE(tree_of(dir()) == before) << words;
  };
  const auto resume = [&] { StudyStore::resume(dir(), header_); };
  StudyHeader other = header_;
  other.identity = "ffff";
  refused([&] { StudyStore::resume(dir(), other); }, "holds another study");
  refused(
      [&] {
        StudyStore::resume(dir(), header_, {1, 2});
      },
      "is the folder of the whole study, not of part 1/2");
  refused([&] { StudyStore::create(dir(), header_); }, "exists already");

  // One bit of a chunk turned: the checksum finds it when the chunk is read.
  const fs::path chunk = dir() / "chunks/00000001.h5";
  const std::string good = bytes_of(chunk);
  std::string bad = good;
  const std::size_t data = good.find("\x78\x01");  // where a deflated block begins
  ASSERT_NE(data, std::string::npos);
  bad[data + 6] = static_cast<char>(bad[data + 6] ^ 4);
  std::ofstream(chunk, std::ios::binary) << bad;
  refused([&] { drumlin::viz::pack_study({dir()}, header_, dir() / "study.h5"); },
          "00000001.h5: damaged");
  std::ofstream(chunk, std::ios::binary) << good.substr(0, good.size() / 2);
  refused(resume, "is noted as done and is");
  fs::remove(chunk);
  refused(resume, "00000001.h5 is noted as done and is not there");
  std::ofstream(chunk, std::ios::binary) << good;

  const fs::path manifest = dir() / "manifest.sqlite";
  std::ofstream(manifest, std::ios::binary) << "what somebody else left here";
  refused(resume, "is no manifest of a study");
  fs::remove(manifest);
  refused(resume, "holds no study");
}

TEST_F(AStudyStore, HasOneWriterAtATime) {
  const StudyStore store = StudyStore::create(dir(), header_);
  EXPECT_THAT(refusal([&] { StudyStore::resume(dir(), header_); }),
              HasSubstr("another process is writing into it"));
}

// A file may not grow beyond a limit that the system sets: what a full disk does to a write.
TEST_F(AStudyStore, KeepsWhatWasDoneWhenTheDiskIsFull) {
  header_ = header_of(4000, 2000);
  const std::string expected = whole();
  const auto fills = [&] {
    StudyStore store = StudyStore::create(dir(), header_);
    store.keep(chunk_of(header_, 0));
    signal(SIGXFSZ, SIG_IGN);
    const rlimit small{4096, 4096};
    setrlimit(RLIMIT_FSIZE, &small);
    try {
      store.keep(chunk_of(header_, 1));
    } catch (const std::runtime_error&) {
      _exit(7);
    }
    _exit(0);
  };
  const pid_t child = fork();
  if (child == 0) fills();
  int status = 0;
  waitpid(child, &status, 0);
  ASSERT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 7) << "the failed write is an error";
  EXPECT_THAT(StudyStore::resume(dir(), header_).missing(), testing::ElementsAre(1U));
  finish(dir());
  EXPECT_EQ(bytes_of(dir() / "study.h5"), expected);
}

TEST_F(AStudyStore, WritesCsvThatGivesTheSameNumbersBack) {
  finish(dir());
  drumlin::viz::write_study_csv(drumlin::viz::StudyFile(dir() / "study.h5"), dir() / "study.csv");
  std::ifstream file(dir() / "study.csv", std::ios::binary);
  std::string line;
  std::getline(file, line);
  EXPECT_EQ(line, "part.thickness [mm],station[0].belt.grit,removal_um,status\r");
  for (int row = 0; row < 10; ++row) {
    ASSERT_TRUE(std::getline(file, line)) << row;
    const std::string grit = row % 2 == 0 ? "P80" : "P120";
    const std::size_t first = line.find(',');
    EXPECT_EQ(std::stod(line.substr(0, first)), 1.0 + 0.1 * row);
    const std::string rest = line.substr(first + 1);
    if (row % 7 == 3) {
      EXPECT_EQ(rest, grit + ",,\"impossible, \"\"too thin\"\"\"\r") << row;
    } else {
      EXPECT_EQ(std::stod(rest.substr(grit.size() + 1)), 1.0 / (row + 1)) << "to the last bit";
      EXPECT_THAT(rest, testing::EndsWith(",done\r"));
    }
  }
  EXPECT_FALSE(std::getline(file, line));
}

}  // namespace
