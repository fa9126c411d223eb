// Sweeps by the program itself, killed, stopped and short of room.
#include <chrono>
#include <csignal>
#include <filesystem>
#include <random>
#include <string>
#include <thread>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <unistd.h>

#include "tests/support/run_program.hpp"
#include "tests/support/sweep_program.hpp"

namespace {

namespace fs = std::filesystem;
using namespace drumlin::support;
using testing::HasSubstr;
using Clock = std::chrono::steady_clock;
using Seconds = std::chrono::duration<double>;

class ASweep : public testing::Test {
 protected:
  /// The study as nobody disturbs it, and the time that it takes.
  std::string undisturbed() {
    const auto start = Clock::now();
    const Outcome outcome = run_program(sweep(study_, folder_.at("whole")));
    whole_takes_ = Clock::now() - start;
    EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
    return read_file(folder_.path() / "whole" / "study.h5");
  }
  [[nodiscard]] std::string table() const { return read_file(fs::path(out_) / "study.h5"); }
  /// Whether something is so before the program can be over.
  template <class Condition>
  static bool comes(const Condition& condition) {
    const auto until = Clock::now() + std::chrono::seconds(60);
    while (!condition() && Clock::now() < until)
      std::this_thread::sleep_for(std::chrono::microseconds(200));
    return condition();
  }

  static constexpr int rows = 4000;
  static constexpr std::size_t chunks = 8;
  ScratchFolder folder_;
  std::string study_ = folder_.file("study.toml", study_text(rows));
  std::string out_ = folder_.at("out");
  Seconds whole_takes_{0};
};

// Delays from a fixed list, spread over what is left of the time that the whole study takes. One
// study after the other is killed and gone on with, each time with other threads, until forty kills
// were seen.
TEST_F(ASweep, KilledAtAnyTimeEndsInTheSameBytes) {
  const std::string expected = undisturbed();
  ASSERT_GT(expected.size(), 100000U);
  std::mt19937 random(20261127);
  std::uniform_real_distribution<> share(0.0, 1.0);
  int kills = 0;
  int studies = 0;
  for (int call = 0; kills < 40 && call < 160; ++call) {
    RunningProgram program(sweep(study_, out_, {"--threads", std::to_string(1 + call % 3)}));
    // Of what is left to do, and a little more: packing is in it, and few calls end by themselves.
    const double left = 1.05 - static_cast<double>(chunks_in(out_)) / chunks;
    std::this_thread::sleep_for(share(random) * left * whole_takes_);
    const std::size_t before = chunks_in(out_);
    program.send(SIGKILL);
    const Outcome outcome = program.wait();
    if (outcome.exit_code == -SIGKILL) {
      ++kills;
      if (fs::exists(fs::path(out_) / "study.h5")) {
        ASSERT_EQ(table(), expected) << "packed, then killed";
      } else {
        ASSERT_GE(chunks_in(out_), before) << "a chunk that was there has gone";
      }
      continue;
    }
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    ASSERT_EQ(table(), expected) << "after " << kills << " kills";
    fs::remove_all(out_);
    ++studies;
  }
  EXPECT_EQ(kills, 40);
  const Outcome last = run_program(sweep(study_, out_));
  EXPECT_EQ(last.exit_code, 0) << last.err;
  EXPECT_EQ(table(), expected);
  RecordProperty("studies_finished_between_kills", studies);
}

TEST_F(ASweep, KilledWhilePackingLosesNoRow) {
  const std::string expected = undisturbed();
  for (int round = 0; round < 3; ++round) {
    fs::remove_all(out_);
    RunningProgram program(sweep(study_, out_));
    const fs::path packed = fs::path(out_) / "study.h5";  // there before this thread looked again
    ASSERT_TRUE(comes([&] { return chunks_in(out_) == chunks || fs::exists(packed); }));
    std::this_thread::sleep_for(std::chrono::milliseconds(4 * round));
    program.send(SIGKILL);
    static_cast<void>(program.wait());
    const Outcome again = run_program(sweep(study_, out_));
    EXPECT_EQ(again.exit_code, 0) << again.err;
    EXPECT_EQ(table(), expected);
  }
}

TEST_F(ASweep, StopsOnControlCSayingWhatIsKeptAndGoesOn) {
  const std::string expected = undisturbed();
  RunningProgram program(sweep(study_, out_, {"--threads", "1"}));
  ASSERT_TRUE(comes([&] { return chunks_in(out_) >= 2; }));
  program.send(SIGINT);
  const Outcome stopped = program.wait();
  EXPECT_EQ(stopped.exit_code, 130);
  EXPECT_THAT(stopped.err, testing::ContainsRegex("stopped on request; [0-9]+ of 8 parts of this "
                                                  "study are in .*--resume goes on"));
  EXPECT_GE(chunks_in(out_), 2U);
  EXPECT_EQ(run_program(sweep(study_, out_)).exit_code, 0);
  EXPECT_EQ(table(), expected);
}

/// A file may not grow beyond a limit for as long as this lives, here and in programs started.
class FileLimit {
 public:
  explicit FileLimit(rlim_t bytes) : handler_(signal(SIGXFSZ, SIG_IGN)) {
    getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit small{bytes, before_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &small);
  }
  ~FileLimit() {
    setrlimit(RLIMIT_FSIZE, &before_);
    signal(SIGXFSZ, handler_);
  }
  FileLimit(const FileLimit&) = delete;
  FileLimit& operator=(const FileLimit&) = delete;
  FileLimit(FileLimit&&) = delete;
  FileLimit& operator=(FileLimit&&) = delete;

 private:
  sighandler_t handler_;
  rlimit before_{};
};

TEST_F(ASweep, KeepsEveryRowWhenThePackedFileFindsNoRoom) {
  const std::string expected = undisturbed();
  // The last bytes too: a file that is short of them must not pass for the study.
  for (const std::size_t room : {expected.size() / 2, expected.size() - 1}) {
    const FileLimit limit(room);
    const Outcome full = run_program(sweep(study_, out_));
    EXPECT_EQ(full.exit_code, 2);
    EXPECT_THAT(full.err, HasSubstr("cannot be written"));
    EXPECT_THAT(full.err, HasSubstr("all parts of this study are kept in " + out_));
    EXPECT_EQ(chunks_in(out_), chunks);
    EXPECT_FALSE(fs::exists(fs::path(out_) / "study.h5"));
  }
  const FileLimit limit(expected.size());
  EXPECT_EQ(run_program(sweep(study_, out_)).exit_code, 0);
  EXPECT_EQ(table(), expected);
}

/// A disk of some size in memory; not there where nobody may mount one.
class SmallDisk {
 public:
  SmallDisk(std::string place, const std::string& size) : place_(std::move(place)) {
    fs::create_directory(place_);
    mounted_ = mount("tmpfs", place_.c_str(), "tmpfs", 0, ("size=" + size).c_str()) == 0;
  }
  ~SmallDisk() {
    if (mounted_) umount2(place_.c_str(), MNT_DETACH);
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  SmallDisk(SmallDisk&&) = delete;
  SmallDisk& operator=(SmallDisk&&) = delete;

  [[nodiscard]] bool mounted() const { return mounted_; }
  [[nodiscard]] bool grow(const std::string& size) const {
    return mount("tmpfs", place_.c_str(), "tmpfs", MS_REMOUNT, ("size=" + size).c_str()) == 0;
  }

 private:
  std::string place_;
  bool mounted_ = false;
};

TEST_F(ASweep, KeepsWhatFittedOnAFullDiskAndGoesOnOnceThereIsRoom) {
  const SmallDisk disk(folder_.at("disk"), "500k");  // some of the eight chunks, and the manifest
  if (!disk.mounted()) GTEST_SKIP() << "only root can mount a small disk";
  const std::string expected = undisturbed();
  out_ = folder_.at("disk/out");
  const Outcome full = run_program(sweep(study_, out_));
  EXPECT_EQ(full.exit_code, 2);
  EXPECT_THAT(full.err, testing::ContainsRegex("[1-9]+ of 8 parts of this study are in .*once "
                                               "there is room"));
  const std::size_t kept = chunks_in(out_);
  EXPECT_GT(kept, 0U);
  EXPECT_LT(kept, chunks);
  const Outcome still = run_program(sweep(study_, out_));
  EXPECT_EQ(still.exit_code, 2) << "still full";
  EXPECT_EQ(chunks_in(out_), kept);
  ASSERT_TRUE(disk.grow("16m"));
  const Outcome again = run_program(sweep(study_, out_));
  EXPECT_EQ(again.exit_code, 0) << again.err;
  EXPECT_EQ(table(), expected);
}

}  // namespace
