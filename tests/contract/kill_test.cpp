#include <filesystem>
#include <set>
#include <string>

#include <gtest/gtest.h>

#include "tests/support/deadly_calls.hpp"
#include "tests/support/sample_result.hpp"
#include "tests/support/temporary_folder.hpp"
#include "viz/writers.hpp"

namespace {

namespace fs = std::filesystem;
using drumlin::sim::Result;
using drumlin::support::tree_of;
using Tree = std::map<std::string, std::string>;

class KilledRun : public testing::Test {
 protected:
  KilledRun() {
    drumlin::support::Sample small;
    small.frames = 3;  // few files, so that many kills fit into seconds
    old_ = new_ = drumlin::support::sample_result(small);
    new_.title = "The other one";
    old_tree_ = written(old_);
    new_tree_ = written(new_);
  }

  Tree written(const Result& result) const {
    const drumlin::support::TemporaryFolder place;
    drumlin::viz::write(result, place.path() / "out", options());
    return tree_of(place.path() / "out");
  }
  [[nodiscard]] static drumlin::viz::WriteOptions options() {
    return {.overwrite = true, .pictures = false};
  }
  [[nodiscard]] fs::path dir() const { return folder_.path() / "out"; }

  /// Writes the new result in a child that dies at a call; whether the child was killed.
  bool killed_at(long call) const {
    return drumlin::support::killed_at(call, [&] { drumlin::viz::write(new_, dir(), options()); });
  }
  /// How many counted calls a whole run makes when `dir()` is as it is now.
  long calls_of_a_run() const {
    return drumlin::support::disk_calls_of([&] { drumlin::viz::write(new_, dir(), options()); });
  }
  /// Every one of the first and last, and some of those between.
  static std::set<long> chosen(long all) {
    std::set<long> out;
    for (long i = 1; i <= all; ++i)
      if (i <= 8 || i > all - 36 || i % 23 == 0) out.insert(i);
    return out;
  }

  drumlin::support::TemporaryFolder folder_;
  Result old_;
  Result new_;
  Tree old_tree_;
  Tree new_tree_;
};

TEST_F(KilledRun, LeavesTheOldResultOrTheNewOneWhole) {
  drumlin::viz::write(old_, dir(), options());
  const long all = calls_of_a_run();
  ASSERT_GT(all, 40) << "the calls are not seen: the test would show nothing";
  drumlin::viz::write(old_, dir(), options());
  int old_seen = 0;
  int new_seen = 0;
  for (const long call : chosen(all)) {
    ASSERT_TRUE(killed_at(call)) << call;
    const Tree now = tree_of(dir());
    ASSERT_TRUE(now == old_tree_ || now == new_tree_) << "half-written at call " << call;
    if (now == old_tree_) {
      ++old_seen;
    } else {
      ++new_seen;
      drumlin::viz::write(old_, dir(), options());
    }
  }
  EXPECT_GT(old_seen, 0);
  EXPECT_GT(new_seen, 0) << "some kills come after the new folder has its name";
}

TEST_F(KilledRun, LeavesNothingOrTheNewResultWhereNothingWas) {
  const long all = calls_of_a_run();
  ASSERT_GT(all, 40) << "the calls are not seen: the test would show nothing";
  for (const long call : chosen(all)) {
    fs::remove_all(dir());
    ASSERT_TRUE(killed_at(call)) << call;
    if (fs::exists(dir())) {
      ASSERT_TRUE(tree_of(dir()) == new_tree_) << "half-written at call " << call;
    }
  }
}

TEST_F(KilledRun, IsTidiedAwayByTheNextRun) {
  const long all = calls_of_a_run();
  for (const long call : {2L, all / 2, all - 1})
    ASSERT_TRUE(killed_at(call)) << call;
  drumlin::viz::write(new_, dir(), options());
  EXPECT_EQ(std::distance(fs::directory_iterator(folder_.path()), fs::directory_iterator()), 1);
}

}  // namespace
