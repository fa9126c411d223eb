#include "viz/atomic_folder.hpp"

#include <filesystem>
#include <stdexcept>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "tests/support/temporary_folder.hpp"
#include "viz/writers.hpp"

namespace {

namespace fs = std::filesystem;
using drumlin::support::bytes_of;
using drumlin::support::TemporaryFolder;
using drumlin::support::write_bytes;
using drumlin::viz::AtomicFolder;
using drumlin::viz::expect_writable;
using testing::HasSubstr;
using testing::ThrowsMessage;

std::size_t entries(const fs::path& folder) {
  return static_cast<std::size_t>(
      std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

/// Number of a process that has ended.
pid_t dead_process() {
  const pid_t child = fork();
  if (child == 0) _exit(0);
  waitpid(child, nullptr, 0);
  return child;
}

class AtomicFolderTest : public testing::Test {
 protected:
  [[nodiscard]] fs::path dir() const { return folder_.path() / "out"; }
  [[nodiscard]] fs::path sibling(const std::string& mark, pid_t process) const {
    return folder_.path() / (".out." + mark + "-" + std::to_string(process));
  }
  void make_old_result() const { write_bytes(dir() / "summary.json", "old"); }

  TemporaryFolder folder_;
};

TEST_F(AtomicFolderTest, AppearsAtCommitAndNotBefore) {
  AtomicFolder out(dir(), false);
  write_bytes(out.path() / "deep" / "file", "new");
  EXPECT_FALSE(fs::exists(dir()));
  out.commit();
  EXPECT_EQ(bytes_of(dir() / "deep" / "file"), "new");
  EXPECT_EQ(entries(folder_.path()), 1U);
}

TEST_F(AtomicFolderTest, LeavesNothingWithoutCommit) {
  { write_bytes(AtomicFolder(dir(), false).path() / "file", "new"); }
  { const AtomicFolder out(dir(), false); }
  EXPECT_FALSE(fs::exists(dir()));
}

TEST_F(AtomicFolderTest, KeepsTheOldResultWithoutCommit) {
  make_old_result();
  {
    const AtomicFolder out(dir(), true);
    write_bytes(out.path() / "summary.json", "new");
  }
  EXPECT_EQ(bytes_of(dir() / "summary.json"), "old");
  EXPECT_EQ(entries(folder_.path()), 1U);
}

TEST_F(AtomicFolderTest, ReplacesAnOldResultWhole) {
  make_old_result();
  fs::create_directory(dir() / "pictures");
  write_bytes(dir() / "pictures" / "old.png", "old");
  AtomicFolder out(dir(), true);
  write_bytes(out.path() / "summary.json", "new");
  out.commit();
  EXPECT_EQ(bytes_of(dir() / "summary.json"), "new");
  EXPECT_FALSE(fs::exists(dir() / "pictures"));
  EXPECT_EQ(entries(folder_.path()), 1U);
}

TEST_F(AtomicFolderTest, MakesTheFoldersAboveIt) {
  AtomicFolder out(folder_.path() / "a" / "b" / "out", false);
  write_bytes(out.path() / "file", "new");
  out.commit();
  EXPECT_EQ(bytes_of(folder_.path() / "a" / "b" / "out" / "file"), "new");
}

TEST_F(AtomicFolderTest, TakesATrailingSlash) {
  AtomicFolder out(dir().string() + "/", false);
  write_bytes(out.path() / "file", "new");
  out.commit();
  EXPECT_EQ(bytes_of(dir() / "file"), "new");
}

TEST_F(AtomicFolderTest, RemovesWhatADeadProcessLeft) {
  write_bytes(sibling("partial", dead_process()) / "half", "half");
  AtomicFolder(dir(), false).commit();
  EXPECT_EQ(entries(folder_.path()), 1U);
}

TEST_F(AtomicFolderTest, LeavesTheFolderOfALivingProcessAlone) {
  write_bytes(sibling("partial", getppid()) / "half", "half");
  AtomicFolder(dir(), false).commit();
  EXPECT_TRUE(fs::exists(sibling("partial", getppid()) / "half"));
}

TEST_F(AtomicFolderTest, LeavesForeignHiddenFoldersAlone) {
  write_bytes(folder_.path() / ".out.partial-mine" / "file", "mine");
  write_bytes(folder_.path() / ".other.partial-99999999" / "file", "mine");
  AtomicFolder(dir(), false).commit();
  EXPECT_EQ(entries(folder_.path()), 3U);
}

// Without an exchange of folders the old one is set aside for a moment; killed just then, the next
// run finds it there.
TEST_F(AtomicFolderTest, PutsAFolderBackThatADeadProcessSetAside) {
  write_bytes(sibling("aside", dead_process()) / "summary.json", "old");
  drumlin::viz::tidy_after_dead_writers(dir());
  EXPECT_EQ(bytes_of(dir() / "summary.json"), "old");
  EXPECT_EQ(entries(folder_.path()), 1U);
}

TEST_F(AtomicFolderTest, RemovesAnAsideThatWasReplaced) {
  make_old_result();
  write_bytes(sibling("aside", dead_process()) / "summary.json", "older");
  drumlin::viz::tidy_after_dead_writers(dir());
  EXPECT_EQ(bytes_of(dir() / "summary.json"), "old");
  EXPECT_EQ(entries(folder_.path()), 1U);
}

TEST_F(AtomicFolderTest, SecondWriterInOneProcessIsRefused) {
  const AtomicFolder first(dir(), false);
  EXPECT_THROW(AtomicFolder(dir(), false), std::runtime_error);
  EXPECT_TRUE(fs::exists(first.path()));
}

TEST_F(AtomicFolderTest, FolderThatAppearedMeanwhileStays) {
  AtomicFolder out(dir(), false);
  write_bytes(dir() / "summary.json", "someone else's");
  EXPECT_THROW(out.commit(), std::runtime_error);
  EXPECT_EQ(bytes_of(dir() / "summary.json"), "someone else's");
}

class ExpectWritable : public AtomicFolderTest {};

TEST_F(ExpectWritable, AcceptsANewFolderAndMakesNothing) {
  expect_writable(dir() / "deeper", false);
  EXPECT_EQ(entries(folder_.path()), 0U);
}

TEST_F(ExpectWritable, RefusesAFolderThatIsThere) {
  make_old_result();
  EXPECT_THAT([&] { expect_writable(dir(), false); },
              ThrowsMessage<std::runtime_error>(HasSubstr("--overwrite")));
}

TEST_F(ExpectWritable, AcceptsAnOldResultOrAnEmptyFolderToOverwrite) {
  fs::create_directory(dir());
  EXPECT_NO_THROW(expect_writable(dir(), true));
  make_old_result();
  EXPECT_NO_THROW(expect_writable(dir(), true));
}

TEST_F(ExpectWritable, RefusesToReplaceAFolderWithoutAResult) {
  write_bytes(dir() / "letters.txt", "dear all");
  EXPECT_THAT([&] { expect_writable(dir(), true); },
              ThrowsMessage<std::runtime_error>(HasSubstr("no summary.json")));
}

TEST_F(ExpectWritable, RefusesAResultBesideWhichSomebodyKeepsNotesAndNamesTheFirst) {
  make_old_result();
  fs::create_directory(dir() / "pictures");
  fs::create_directory(dir() / "pass");
  EXPECT_NO_THROW(expect_writable(dir(), true)) << "only what drumlin writes itself";
  write_bytes(dir() / "zinc-lot.txt", "lot 7");
  write_bytes(dir() / "my notes.txt", "dear all");
  EXPECT_THAT([&] { expect_writable(dir(), true); },
              ThrowsMessage<std::runtime_error>(HasSubstr("\"my notes.txt\"")));
  EXPECT_EQ(bytes_of(dir() / "my notes.txt"), "dear all");
}

TEST_F(ExpectWritable, RefusesAFileEvenToOverwrite) {
  write_bytes(dir(), "a file");
  EXPECT_THAT([&] { expect_writable(dir(), true); },
              ThrowsMessage<std::runtime_error>(HasSubstr("is a file")));
}

TEST_F(ExpectWritable, RefusesAPlaceBelowAFile) {
  write_bytes(folder_.path() / "file", "a file");
  EXPECT_THAT([&] { expect_writable(folder_.path() / "file" / "out", false); },
              ThrowsMessage<std::runtime_error>(HasSubstr("is a file")));
}

TEST_F(ExpectWritable, RefusesTheRootAndNoNameAtAll) {
  EXPECT_THROW(expect_writable("/", true), std::runtime_error);
  EXPECT_THROW(expect_writable("", true), std::runtime_error);
}

}  // namespace
