// What `drumlin sweep` and `merge` refuse, and that they leave everything as it was then.
#include <filesystem>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/run_program.hpp"
#include "tests/support/sweep_program.hpp"

namespace {

namespace fs = std::filesystem;
using namespace drumlin::support;
using testing::AllOf;
using testing::HasSubstr;

class ASweepRefuses : public testing::Test {
 protected:
  void expect_refused(const std::vector<std::string>& words, const std::string& because) const {
    const auto before = files_of(folder_.path());
    const Outcome outcome = run_program(words);
    EXPECT_EQ(outcome.exit_code, 2) << outcome.err;
    EXPECT_THAT(outcome.err, HasSubstr(because));
    EXPECT_THAT(outcome.out, testing::IsEmpty());
    EXPECT_TRUE(files_of(folder_.path()) == before) << because;
  }
  /// Two thirds of a study, stopped as by a kill: chunks without a packed file.
  void leave_a_part(const std::string& out) const {
    ASSERT_EQ(run_program(sweep(study_, out, {"--shard", "1/2"})).exit_code, 0);
  }

  ScratchFolder folder_;
  std::string study_ = folder_.file("study.toml", study_text(1200));
  std::string out_ = folder_.at("out");
};

TEST_F(ASweepRefuses, FactorsThatNameNoKeyOrLeaveWhatIsLegal) {
  const auto with = [&](const std::string& factor) {
    return sweep(folder_.file("other.toml", study_text(600, "[[factor]]\n" + factor)), out_);
  };
  expect_refused(with("key = \"conveyor.sped\"\nfrom = \"2 m/min\"\nto = \"8 m/min\"\n"),
                 "nearest is \"speed\"");
  expect_refused(with("key = \"conveyor.speed\"\nfrom = \"2 m/min\"\nto = \"8000 m/min\"\n"),
                 "expected 0.03 m/min to 120 m/min");
  expect_refused(with("key = \"conveyor.speed\"\nfrom = \"2 mm\"\nto = \"8 mm\"\n"),
                 "expected a speed");
  EXPECT_FALSE(fs::exists(out_));
}

TEST_F(ASweepRefuses, FoldersThatAreForeignDamagedOrAnotherStudys) {
  fs::create_directory(out_);
  static_cast<void>(folder_.file("out/letter.txt", "somebody's own"));
  expect_refused(sweep(study_, out_), "holds no study");
  static_cast<void>(folder_.file("out/manifest.sqlite", "not of drumlin"));
  expect_refused(sweep(study_, out_), "is no manifest of a study");
  fs::remove_all(out_);

  leave_a_part(out_);
  expect_refused({"sweep", study_, "--out", out_}, "add --resume to go on with it");
  const std::string other = folder_.file("other.toml", study_text(1300));
  expect_refused(sweep(other, out_, {"--shard", "1/2"}), "holds another study");
  const fs::path chunk = fs::path(out_) / "chunks" / "00000001.h5";
  fs::resize_file(chunk, fs::file_size(chunk) / 2);
  expect_refused(sweep(study_, out_, {"--shard", "1/2"}), "is noted as done and is");
  fs::remove(chunk);
  expect_refused(sweep(study_, out_, {"--shard", "1/2"}), "not there");
}

TEST_F(ASweepRefuses, ShardsThatCannotBeOrAreOthers) {
  for (const std::string shard : {"5/4", "a/b", "0/0", "3", "1/2/3", "-1/2"})
    expect_refused(sweep(study_, out_, {"--shard", shard}),
                   "--shard " + shard + ": expected i/n, such as 1/4");
  EXPECT_FALSE(fs::exists(out_));
  leave_a_part(out_);
  expect_refused(sweep(study_, out_, {"--shard", "2/2"}),
                 "is the folder of part 1/2, not of part 2/2");
  expect_refused(sweep(study_, out_), "is the folder of part 1/2, not of the whole study");
  expect_refused({"merge", out_, "--out", folder_.at("merged")}, "are not done yet: 2 of 3");
  EXPECT_FALSE(fs::exists(folder_.at("merged")));
}

TEST_F(ASweepRefuses, ToWriteAnythingInADryRun) {
  const auto before = files_of(folder_.path());
  const Outcome outcome = run_program({"sweep", study_, "--out", out_, "--dry-run"});
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_THAT(outcome.out, AllOf(HasSubstr("1200 rows"), HasSubstr("Nothing was written")));
  EXPECT_TRUE(files_of(folder_.path()) == before);
  EXPECT_FALSE(fs::exists(out_));
}

TEST(ShardsOfASweep, MergeIntoTheBytesOfTheWhole) {
  const ScratchFolder folder;
  const std::string study = folder.file("study.toml", study_text(1200));
  ASSERT_EQ(run_program(sweep(study, folder.at("whole"))).exit_code, 0);
  for (const std::string shard : {"1/2", "2/2"}) {
    const std::string out = folder.at("part" + shard.substr(0, 1));
    const Outcome outcome = run_program({"sweep", study, "--out", out, "--shard", shard});
    EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
    EXPECT_THAT(outcome.out, HasSubstr("Part " + shard + " of the study is done"));
  }
  ASSERT_EQ(
      run_program({"merge", folder.at("part2"), folder.at("part1"), "--out", folder.at("merged")})
          .exit_code,
      0);
  EXPECT_EQ(read_file(folder.at("merged/study.h5")), read_file(folder.at("whole/study.h5")));
}

// Ten times the rows; what is under way at once may grow with the chunks, up to a bound.
TEST(ASweepsMemory, DoesNotGrowWithItsRows) {
  const ScratchFolder folder;
  const auto peak = [&](int rows) {
    const std::string study = folder.file("study.toml", study_text(rows));
    const std::string out = folder.at(std::to_string(rows));
    const Outcome outcome = run_program(sweep(study, out, {"--threads", "2"}));
    EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
    return static_cast<double>(outcome.peak_memory_kib) / 1024.0;  // MB
  };
  const double small = peak(4000);
  const double large = peak(40000);
  EXPECT_LT(large, 1.1 * small + 20.0);
  EXPECT_GT(small, 5.0) << "the measure is none";
}

}  // namespace
