// What the program says of a finished study: the files beside study.h5.

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <set>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "sim/study_analysis/analyse.hpp"
#include "tests/support/places.hpp"
#include "tests/support/run_program.hpp"
#include "viz/study/study_file.hpp"

namespace drumlin {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using support::files_of;
using support::read_file;
using support::run_program;
using support::ScratchFolder;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

/// Pictures as pixels are tested elsewhere and take seconds.
const int without_pixels = setenv("DRUMLIN_NO_RENDERING", "1", 1);

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

/// The shipped study of the front with another size and seed.
std::string study(int size, int seed) {
  std::string text = read_file(support::in_tree("cases/studies/front.toml"));
  text = replaced(text, "../examples/panel-priced.toml", support::examples() + "panel-priced.toml");
  text = replaced(text, "size = 334", fmt::format("size = {}", size));
  return replaced(text, "seed = 7", fmt::format("seed = {}", seed));
}

json swept(const ScratchFolder& folder, const std::string& text, const std::string& name) {
  const auto outcome =
      run_program({"sweep", folder.file(name + ".toml", text), "--out", folder.at(name)});
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  return json::parse(read_file(folder.at(name) + "/analysis.json"));
}

const std::vector<double>& numbers(const sim::StudyValues& values) {
  return std::get<std::vector<double>>(values);
}

std::size_t column(const viz::StudyFile& file, const std::string& name) {
  const auto& columns = file.header().columns;
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (columns[i].name == name) return i;
  throw std::logic_error("no column " + name);
}

/// Factors of an output by their total shares, the greatest first.
std::vector<std::string> ranking(const json& output) {
  std::vector<std::pair<double, std::string>> shares;
  for (const json& factor : output["factors"])
    shares.emplace_back(-factor["total"]["value"].get<double>(), factor["column"]);
  std::sort(shares.begin(), shares.end());
  std::vector<std::string> names;
  for (const auto& [share, name] : shares)
    names.push_back(name);
  return names;
}

// Acceptance scenario 16: 2004 settings; edges up, zinc up, cost down.
TEST(AFinishedStudy, ListsNoRowThatAnotherBeatsInEveryAim) {
  const ScratchFolder folder;
  const json says = swept(folder, study(334, 7), "front");
  EXPECT_EQ(says["rows"], 2004);
  const viz::StudyFile file(folder.at("front") + "/study.h5");
  const std::uint64_t rows = file.header().rows;
  const auto drop = numbers(file.read(column(file, "front.edge_drop_um"), 0, rows));
  const auto zinc = numbers(file.read(column(file, "face.coating_left_um"), 0, rows));
  const auto cost = numbers(file.read(column(file, "cost.sum_EUR_per_part"), 0, rows));
  const auto status =
      std::get<std::vector<std::string>>(file.read(column(file, "status"), 0, rows));
  const auto beaten = [&](std::size_t i, bool by_accepted) {
    for (std::size_t j = 0; j < rows; ++j) {
      if (by_accepted && (status[j] != "done" || zinc[j] < 7)) continue;
      if (drop[j] >= drop[i] && zinc[j] >= zinc[i] && cost[j] <= cost[i] &&
          (drop[j] > drop[i] || zinc[j] > zinc[i] || cost[j] < cost[i]))
        return true;
    }
    return false;
  };
  for (const bool accepted : {true, false}) {
    std::set<std::size_t> listed;
    for (const json& point : says[accepted ? "front" : "front_of_all"]["list"])
      listed.insert(point["row"].get<std::size_t>());
    for (std::size_t i = 0; i < rows; ++i) {
      const bool candidate = accepted ? status[i] == "done" && zinc[i] >= 7 : !std::isnan(zinc[i]);
      EXPECT_EQ(listed.contains(i), candidate && !beaten(i, accepted)) << i;
    }
    EXPECT_GT(listed.size(), 20U);
  }
  const std::string words = says["front"]["in_words"].dump();
  EXPECT_THAT(words, AllOf(HasSubstr("Knee: row"), HasSubstr("one gains"), HasSubstr("gives up"),
                           HasSubstr("µm per EUR gained")));
  EXPECT_THAT(read_file(folder.at("front") + "/front.csv"),
              testing::StartsWith("row,station[0].drum.hardness [Shore A],"));
}

TEST(AFinishedStudy, RanksFactorsAlikeWhateverTheSeed) {
  const ScratchFolder folder;
  json first;
  for (int seed = 1; seed <= 5; ++seed) {
    const json says = swept(folder, study(334, seed), fmt::format("seed{}", seed));
    if (seed == 1) first = says;
    for (std::size_t k = 0; k < 3; ++k) {
      const json& output = says["shares"]["outputs"][k];
      const json& other = first["shares"]["outputs"][k];
      // Cost is the speed's alone: the others' shares are below 1e-3, and their order says nothing.
      if (output["column"] == "cost.sum_EUR_per_part")
        EXPECT_EQ(ranking(output).front(), "conveyor.speed");
      else
        EXPECT_EQ(ranking(output), ranking(other)) << output["column"] << ", seed " << seed;
      for (std::size_t f = 0; f < 4; ++f) {
        const json& a = output["factors"][f]["total"];
        const json& b = other["factors"][f]["total"];
        const double error =
            std::hypot(a["standard_error"].get<double>(), b["standard_error"].get<double>());
        EXPECT_LE(std::abs(a["value"].get<double>() - b["value"].get<double>()), 4 * error + 1e-6);
      }
    }
  }
}

TEST(AFinishedStudy, SaysTheSameBytesForAnyThreadsAndShards) {
  const ScratchFolder folder;
  const std::string text = study(64, 3);
  const std::string file = folder.file("study.toml", text);
  for (const char* threads : {"1", "2"})
    ASSERT_EQ(
        run_program({"sweep", file, "--out", folder.at(threads), "--threads", threads, "--quiet"})
            .exit_code,
        0);
  for (const char* name : {"/analysis.json", "/study.html", "/front.csv", "/pictures/front-1-2.svg",
                           "/pictures/shares-1.svg"})
    EXPECT_EQ(read_file(folder.at("1") + name), read_file(folder.at("2") + name)) << name;
  for (const char* shard : {"1/2", "2/2"})
    ASSERT_EQ(run_program({"sweep", file, "--out", folder.at(std::string("part") + shard[0]),
                           "--shard", shard, "--quiet"})
                  .exit_code,
              0);
  const auto merged =
      run_program({"merge", folder.at("part1"), folder.at("part2"), "--out", folder.at("whole")});
  ASSERT_EQ(merged.exit_code, 0) << merged.err;
  EXPECT_THAT(merged.out, HasSubstr("What matters most"));
  for (const char* name : {"/analysis.json", "/front.csv"})
    EXPECT_EQ(read_file(folder.at("whole") + name), read_file(folder.at("1") + name)) << name;
}

TEST(AStudyWithAWrongAim, IsRefusedBeforeAnythingIsWritten) {
  const ScratchFolder folder;
  const std::string text = replaced(study(64, 3), "front.edge_drop_um", "front.edge_drp_um");
  const auto outcome =
      run_program({"sweep", folder.file("study.toml", text), "--out", folder.at("out"), "--quiet"});
  EXPECT_EQ(outcome.exit_code, 2);
  EXPECT_THAT(outcome.err, AllOf(HasSubstr("study.toml:33:10: error: aim[0].column"),
                                 HasSubstr("nearest is \"front.edge_drop_um\"")));
  EXPECT_FALSE(fs::exists(folder.at("out")));
}

// The fast model gives no radius at this edge.
TEST(AStudyWithAnAimThatNoRowHas, SaysSoBeforeAndAfter) {
  const ScratchFolder folder;
  const std::string text = replaced(study(8, 3), "front.edge_drop_um", "front.edge_radius_um");
  const auto outcome =
      run_program({"sweep", folder.file("study.toml", text), "--out", folder.at("out")});
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_THAT(outcome.err, HasSubstr("warning: the case that was tried first gives no number for "
                                     "\"front.edge_radius_um\""));
  EXPECT_THAT(read_file(folder.at("out") + "/analysis.json"),
              HasSubstr("front.edge_radius_um has no number in any row"));
  // Asked again, a finished study says the same again.
  const auto before = read_file(folder.at("out") + "/study.html");
  ASSERT_EQ(run_program({"sweep", folder.at("study.toml"), "--out", folder.at("out"), "--resume",
                         "--quiet"})
                .exit_code,
            0);
  EXPECT_EQ(read_file(folder.at("out") + "/study.html"), before);
}

TEST(AStudyWithoutAims, SaysWhatItCanAndWhatItWouldNeed) {
  const ScratchFolder folder;
  const std::string text =
      "title = \"<b>&amp;\"\ncase = \"" + support::examples() +
      "panel-soft.toml\"\nmodel = \"fast\"\n[design]\nkind = \"latin-hypercube\"\nsize = 100\n"
      "[[factor]]\nkey = \"station[0].setting.interference\"\ndistribution = { kind = "
      "\"uniform\", low = \"0.1 mm\", high = \"0.6 mm\" }\n";
  const json says = swept(folder, text, "plain");
  EXPECT_FALSE(says.contains("front"));
  EXPECT_FALSE(fs::exists(folder.at("plain") + "/front.csv"));
  EXPECT_TRUE(says["all_factors_drawn"]);
  EXPECT_THAT(says["shares"]["how"].get<std::string>(), HasSubstr("kind \"pick-freeze\""));
  const std::string page = read_file(folder.at("plain") + "/study.html");
  EXPECT_THAT(page,
              AllOf(HasSubstr("Probability that a limit is met"), HasSubstr("&lt;b&gt;&amp;amp;"),
                    Not(HasSubstr("<b>&amp;")), HasSubstr("The study names no aims")));
}

TEST(AFinishedStudy, ShipsPagesWithoutPromises) {
  const ScratchFolder folder;
  static_cast<void>(swept(folder, study(64, 3), "words"));
  const std::string page = read_file(folder.at("words") + "/study.html");
  EXPECT_THAT(page,
              AllOf(HasSubstr("nothing here is calibrated"), HasSubstr("not a safety assessment"),
                    Not(HasSubstr("burr-free")), Not(HasSubstr("optimal"))));
}

}  // namespace
}  // namespace drumlin
