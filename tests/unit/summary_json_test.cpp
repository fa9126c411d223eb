#include <cmath>
#include <limits>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/support/sample_result.hpp"
#include "tests/support/temporary_folder.hpp"
#include "viz/output.hpp"

namespace {

using drumlin::sim::Result;
using Json = nlohmann::ordered_json;
using testing::ElementsAre;
using testing::HasSubstr;

/// summary.json of a result, written into a folder of its own.
class SummaryJson : public testing::Test {
 protected:
  Json written(const Result& result) {
    drumlin::viz::Output out(folder_.path(), {});
    drumlin::viz::write_summary_json(result, out);
    remarks_ = out.report().remarks;
    text_ = drumlin::support::bytes_of(folder_.path() / "summary.json");
    return Json::parse(text_);
  }

  drumlin::support::TemporaryFolder folder_;
  std::vector<std::string> remarks_;
  std::string text_;
  drumlin::support::Sample sample_;
  Result result_ = drumlin::support::sample_result(sample_);
};

std::vector<std::string> keys(const Json& object) {
  std::vector<std::string> out;
  for (const auto& [key, value] : object.items())
    out.push_back(key);
  return out;
}

TEST_F(SummaryJson, GivesEveryStationQuantityInTheUnitOfItsKey) {
  const Json station = written(result_)["stations"][0];
  EXPECT_EQ(station["kind"], "belt");
  EXPECT_DOUBLE_EQ(station["line_load_N_per_mm"].get<double>(), sample_.line_load);
  EXPECT_DOUBLE_EQ(station["interference_mm"].get<double>(), sample_.interference);
  EXPECT_DOUBLE_EQ(station["half_width_mm"].get<double>(), sample_.half_width);
  EXPECT_DOUBLE_EQ(station["peak_pressure_MPa"].get<double>(), sample_.face_pressure);
  EXPECT_DOUBLE_EQ(station["line_load_slope_N_per_mm2"].get<double>(),
                   result_.stations[0].line_load_slope->value);
  EXPECT_DOUBLE_EQ(station["working_line_load_N_per_mm"].get<double>(),
                   result_.stations[0].working_line_load->value);
  // mW to W
  EXPECT_DOUBLE_EQ(station["power_W_per_mm"].get<double>(), result_.stations[0].power->value / 1e3);
}

TEST_F(SummaryJson, StatesTheDrumAtWorkInTheUnitsOfItsKeys) {
  const Json station = written(result_)["stations"][0];
  const auto& stated = result_.stations[0];
  const auto value = [&](const char* name) { return station.at(name).get<double>(); };
  EXPECT_DOUBLE_EQ(value("lean_mm"), stated.lean->value);
  EXPECT_DOUBLE_EQ(value("rolling_loss_W_per_mm"), stated.rolling_loss->value / 1e3);
  EXPECT_DOUBLE_EQ(value("critical_speed_m_per_s"), stated.critical_speed->value / 1e3);
  EXPECT_DOUBLE_EQ(value("cover_heating_rate_K_per_min"), stated.cover_heating_rate->value * 60);
  EXPECT_DOUBLE_EQ(value("cover_heating_K"), stated.cover_heating->value);
  EXPECT_DOUBLE_EQ(value("dynamic_stiffening"), stated.dynamic_stiffening->value);
  EXPECT_DOUBLE_EQ(value("effective_interference_mm"), stated.effective_interference->value);
  EXPECT_DOUBLE_EQ(value("cover_growth_um"), stated.cover_growth->value * 1e3);
  EXPECT_DOUBLE_EQ(value("belt_tension_at_speed_N_per_mm"), stated.belt_tension_at_speed->value);
  for (const char* absent :
       {"land_pressure_MPa", "land_pressure_factor", "land_dwell_ms", "ripple_height_um"})
    EXPECT_FALSE(station.contains(absent)) << absent;
}

TEST_F(SummaryJson, GivesLengthsInMicrometresAndTemperaturesInCelsius) {
  const Json face = written(result_)["face"];
  EXPECT_DOUBLE_EQ(face["removal_um"].get<double>(), sample_.removal * 1e3);
  EXPECT_DOUBLE_EQ(face["coating_left_um"].get<double>(),
                   (sample_.coating - sample_.removal) * 1e3);
  EXPECT_NEAR(face["temperature_C"].get<double>(), result_.part.face.temperature->value - 273.15,
              1e-10);  // one subtraction of 3e2
}

TEST_F(SummaryJson, FeatureKeysStandInTheOrderOfTheContract) {
  const Json feature = written(result_)["features"][1];
  EXPECT_THAT(
      keys(feature),
      ElementsAre("name", "feature", "kind", "side", "fed_as", "burr", "outcome", "burr_height_um",
                  "edge_radius_um", "edge_radius_fit_um", "edge_drop_um", "peak_pressure_MPa",
                  "peak_line_force_N_per_mm", "coating_left_um", "bare_length_um", "bands",
                  "coating_profile", "coating_beyond", "section"));
}

TEST_F(SummaryJson, StationsCarryTheStateAfterThem) {
  const Json after = written(result_)["stations"][0]["after"];
  EXPECT_EQ(after["features"].size(), result_.stations[0].after.features.size());
  EXPECT_TRUE(after["face"].contains("removal_um"));
}

TEST_F(SummaryJson, LeavesOutWhatTheModelDoesNotGive) {
  const Json root = written(result_);
  EXPECT_FALSE(root["face"].contains("roughness_um"));
  EXPECT_FALSE(root["features"][0].contains("burr_height_um"));
  EXPECT_EQ(text_.find("null"), std::string::npos);
}

TEST_F(SummaryJson, BandsStandBesideTheirValuesAndSayWhetherTheyAreCalibrated) {
  const Json bands = written(result_)["face"]["bands"];
  EXPECT_EQ(bands["calibrated"], false);
  EXPECT_DOUBLE_EQ(bands["removal_um"][0].get<double>(),
                   result_.part.face.removal->low.value() * 1e3);
  EXPECT_DOUBLE_EQ(bands["removal_um"][1].get<double>(),
                   result_.part.face.removal->high.value() * 1e3);
  EXPECT_FALSE(bands.contains("temperature_C")) << "it has no band";
}

TEST_F(SummaryJson, VerdictKeepsTheCustomersWordsAndUnits) {
  const Json verdict = written(result_)["verdict"];
  EXPECT_EQ(verdict["accepted"], false);
  const Json& coating = verdict["items"][1];
  EXPECT_EQ(coating["name"], "face coating_left");
  EXPECT_EQ(coating["limit"], ">= 12 um");
  EXPECT_DOUBLE_EQ(coating["value"].get<double>(), (sample_.coating - sample_.removal) * 1e3);
  EXPECT_LT(coating["margin"].get<double>(), 0);
  EXPECT_EQ(coating["accepted"], false);
}

TEST_F(SummaryJson, AnItemThatIsNotKnownIsNeitherAcceptedNorRefused) {
  const Json item = written(result_)["verdict"]["items"][2];
  EXPECT_FALSE(item.contains("accepted"));
  EXPECT_FALSE(item.contains("value"));
  EXPECT_FALSE(item.contains("margin"));
}

TEST_F(SummaryJson, NumbersComeBackToTheLastBit) {
  result_.stations[0].line_load->value = 0.1 + 0.2;  // not a short decimal
  const Json station = written(result_)["stations"][0];
  EXPECT_EQ(station["line_load_N_per_mm"].get<double>(), 0.1 + 0.2);
}

TEST_F(SummaryJson, StatesTheMotionOfDiscsWhereThereAreAny) {
  EXPECT_FALSE(written(result_)["stations"][0].contains("disc"));
  result_.stations[0].disc = drumlin::sim::DiscResult{.tip_speed = 5500.0, .rubbed_path = 34e3};
  const Json disc = written(result_)["stations"][0]["disc"];
  EXPECT_DOUBLE_EQ(disc["tip_speed_m_per_s"].get<double>(), 5.5);
  EXPECT_DOUBLE_EQ(disc["rubbed_path_m"].get<double>(), 34.0);
}

TEST_F(SummaryJson, NeverShowsANumberThatIsNone) {
  result_.part.face.removal->value = std::numeric_limits<double>::quiet_NaN();
  const Json root = written(result_);
  EXPECT_FALSE(root["face"].contains("removal_um"));
  EXPECT_THAT(remarks_, testing::Contains(HasSubstr("removal_um")));
}

TEST_F(SummaryJson, ProvenanceTellsProgramCaseAndSeed) {
  const Json provenance = written(result_)["provenance"];
  EXPECT_EQ(provenance["version"], result_.provenance.version);
  EXPECT_EQ(provenance["case_sha256"], result_.provenance.case_sha256);
  EXPECT_EQ(provenance["seed"], result_.provenance.seed);
  EXPECT_DOUBLE_EQ(provenance["wall_s"].get<double>(), result_.provenance.wall_s);
}

TEST_F(SummaryJson, CarriesEveryRemarkOfTheRun) {
  const Json root = written(result_);
  for (const char* key :
       {"options", "warnings", "notes", "cautions", "samples", "defaults", "unused_keys"})
    EXPECT_GE(root[key].size(), 1U) << key;
  EXPECT_DOUBLE_EQ(root["influences"][0]["output_high_um"].get<double>(),
                   result_.influences[0].output_high * 1e3);
}

}  // namespace
