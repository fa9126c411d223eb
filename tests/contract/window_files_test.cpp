#include <chrono>
#include <csignal>
#include <regex>
#include <thread>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/support/run_program.hpp"
#include "tests/support/windows.hpp"

namespace drumlin {
namespace {

using support::axis;
using support::run_program;
using testing::HasSubstr;

std::string study_text(const std::string& window) {
  return "case = \"" + support::examples() + "panel-soft.toml\"\nmodel = \"fast\"\n" + window +
         axis("station[0].setting.interference", "0.05 mm", "0.6 mm") +
         axis("conveyor.speed", "0.6 m/min", "4 m/min") +
         support::factor("part.thickness",
                         "distribution = { kind = \"normal\", mean = \"1.5 mm\", deviation = "
                         "\"0.03 mm\" }");
}
const std::string quick = "[window]\ncells = 6\nlevels = 2\ndraws = 16\n";

std::map<std::string, std::string> files_without_time(const std::filesystem::path& folder) {
  auto files = support::files_of(folder);
  static const std::regex time("\"wall_s\": [-+.e0-9]+");
  for (auto& [name, text] : files)
    if (name == "window.json") text = std::regex_replace(text, time, "\"wall_s\": 0");
  return files;
}

TEST(AWindowsFolder, HasTheSameBytesOnOneCoreAndOnTwo) {
  const support::ScratchFolder scratch;
  const std::string study = scratch.file("w.toml", study_text(quick));
  for (const char* threads : {"1", "2"}) {
    const auto run =
        run_program({"window", study, "--out", scratch.at(threads), "--threads", threads});
    ASSERT_EQ(run.exit_code, 0) << run.err;
    EXPECT_THAT(run.out, HasSubstr("Most robust: interference"));
  }
  EXPECT_EQ(files_without_time(scratch.at("1")), files_without_time(scratch.at("2")));
}

TEST(AWindowsFolder, SaysTheSameInJsonAndToThePerson) {
  const support::ScratchFolder scratch;
  const std::string study = scratch.file("w.toml", study_text(quick));
  const auto run = run_program({"window", study, "--out", scratch.at("out")});
  ASSERT_EQ(run.exit_code, 0) << run.err;
  const auto json = nlohmann::json::parse(support::read_file(scratch.at("out/window.json")));
  EXPECT_EQ(json["axes"][0]["unit"], "mm");
  EXPECT_EQ(json["axes"][1]["key"], "conveyor.speed");
  EXPECT_EQ(json["evaluations"]["map"], json["map"]["points"].size());
  EXPECT_EQ(json["own"]["state"], "accepted");
  EXPECT_DOUBLE_EQ(json["own"]["values"]["conveyor.speed"], 1.6);
  double share = json["map"]["accepted_share"];
  for (const auto& limit : json["limits"])
    share += limit["share_of_map"].get<double>();
  EXPECT_NEAR(share, 1, 1e-12);
  // An older window may be replaced; with what else lies in it, not.
  EXPECT_EQ(run_program({"window", study, "--out", scratch.at("out")}).exit_code, 2);
  EXPECT_EQ(run_program({"window", study, "--out", scratch.at("out"), "--overwrite", "--quiet",
                         "--no-pictures"})
                .out,
            "");
  EXPECT_FALSE(support::files_of(scratch.at("out")).contains("window.png"));
  std::ofstream(scratch.at("out/mine.txt")) << "notes";
  EXPECT_EQ(run_program({"window", study, "--out", scratch.at("out"), "--overwrite"}).exit_code, 2);
}

TEST(AWindowThatIsStopped, LeavesNothing) {
  const support::ScratchFolder scratch;
  const std::string study = scratch.file(
      "w.toml", study_text("[window]\ncells = 64\nevaluations = 20000\ndraws = 20000\n"));
  support::RunningProgram program({"window", study, "--out", scratch.at("out")});
  std::this_thread::sleep_for(std::chrono::seconds(2));
  program.send(SIGTERM);
  EXPECT_EQ(program.wait().exit_code, 130);
  EXPECT_FALSE(std::filesystem::exists(scratch.at("out")));
  for (const auto& entry : std::filesystem::directory_iterator(scratch.path()))
    EXPECT_FALSE(entry.path().filename().string().starts_with(".out")) << entry.path();
}

}  // namespace
}  // namespace drumlin
