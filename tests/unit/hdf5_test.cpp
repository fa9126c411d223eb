#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <hdf5.h>

#include "tests/support/sample_result.hpp"
#include "tests/support/temporary_folder.hpp"
#include "viz/output.hpp"

namespace {

/// results.h5 of the sample, opened with the plain library.
class ResultsH5 : public testing::Test {
 protected:
  void SetUp() override {
    drumlin::viz::Output out(folder_.path(), {});
    drumlin::viz::write_hdf5(result_, out);
    file_ = H5Fopen((folder_.path() / "results.h5").c_str(), H5F_ACC_RDONLY, H5P_DEFAULT);
    ASSERT_GE(file_, 0);
  }
  void TearDown() override { H5Fclose(file_); }

  [[nodiscard]] bool has(const std::string& path) const {
    return H5Oexists_by_name(file_, path.c_str(), H5P_DEFAULT) > 0;
  }
  [[nodiscard]] std::vector<double> numbers(const std::string& path) const {
    const hid_t set = H5Dopen2(file_, path.c_str(), H5P_DEFAULT);
    const hid_t space = H5Dget_space(set);
    std::vector<double> out(static_cast<std::size_t>(H5Sget_simple_extent_npoints(space)));
    EXPECT_GE(H5Dread(set, H5T_NATIVE_DOUBLE, H5S_ALL, H5S_ALL, H5P_DEFAULT, out.data()), 0);
    H5Sclose(space);
    H5Dclose(set);
    return out;
  }
  [[nodiscard]] double attribute(const std::string& path, const char* name) const {
    const hid_t value = H5Aopen_by_name(file_, path.c_str(), name, H5P_DEFAULT, H5P_DEFAULT);
    double out = std::nan("");
    EXPECT_GE(H5Aread(value, H5T_NATIVE_DOUBLE, &out), 0) << path << " " << name;
    H5Aclose(value);
    return out;
  }

  drumlin::support::TemporaryFolder folder_;
  drumlin::support::Sample sample_;
  drumlin::sim::Result result_ = drumlin::support::sample_result(sample_);
  hid_t file_ = H5I_INVALID_HID;
};

struct Labels {
  int datasets = 0;
  std::vector<std::string> without;
};

herr_t look_at(hid_t root, const char* name, const H5O_info_t* info, void* data) {
  if (info->type != H5O_TYPE_DATASET) return 0;
  auto& labels = *static_cast<Labels*>(data);
  ++labels.datasets;
  const bool labelled = H5Aexists_by_name(root, name, "unit", H5P_DEFAULT) > 0 &&
                        H5Aexists_by_name(root, name, "meaning", H5P_DEFAULT) > 0;
  if (!labelled) labels.without.emplace_back(name);
  return 0;
}

TEST_F(ResultsH5, EveryDatasetSaysItsUnitAndMeaning) {
  Labels labels;
  ASSERT_GE(H5Ovisit2(file_, H5_INDEX_NAME, H5_ITER_NATIVE, look_at, &labels, H5O_INFO_BASIC), 0);
  EXPECT_GT(labels.datasets, 50);  // at least the station, face, feature, section and frame arrays
  EXPECT_TRUE(labels.without.empty()) << labels.without.front();
}

TEST_F(ResultsH5, HoldsTheProfilesBitForBit) {
  const auto& section = result_.sections[0];
  EXPECT_EQ(numbers("/sections/hole-6/x"), section.x);
  const std::vector<double> after = numbers("/sections/hole-6/after");
  ASSERT_EQ(after.size(), section.after.size());
  for (std::size_t i = 0; i < after.size(); ++i) {
    ASSERT_EQ(std::isnan(after[i]), std::isnan(section.after[i])) << i;
    if (!std::isnan(after[i])) {
      ASSERT_EQ(after[i], section.after[i]) << i;
    }
  }
}

TEST_F(ResultsH5, HoldsTheFramesRowByRowInSinglePrecision) {
  const auto& section = result_.sections[0];
  const std::vector<double> pressure = numbers("/sections/hole-6/frames/pressure");
  ASSERT_EQ(pressure.size(), section.frames.size() * section.x.size());
  for (std::size_t k = 0; k < section.frames.size(); ++k)
    for (std::size_t i = 0; i < section.x.size(); ++i) {
      const double exact = section.frames[k].pressure[i];
      // half a unit in the last place of a float
      ASSERT_NEAR(pressure[k * section.x.size() + i], exact, 6e-8 * std::abs(exact));
    }
}

TEST_F(ResultsH5, GivesQuantitiesInTheUnitOfTheirKeyWithTheirBands) {
  EXPECT_DOUBLE_EQ(numbers("/face/removal_um").at(0), sample_.removal * 1e3);
  EXPECT_DOUBLE_EQ(attribute("/face/removal_um", "band_low"),
                   result_.part.face.removal->low.value() * 1e3);
  EXPECT_DOUBLE_EQ(attribute("/face/removal_um", "band_high"),
                   result_.part.face.removal->high.value() * 1e3);
  EXPECT_DOUBLE_EQ(numbers("/stations/0/line_load_N_per_mm").at(0), sample_.line_load);
}

TEST_F(ResultsH5, HoldsTheLineWithItsMoneyAndBothCoolings) {
  EXPECT_NEAR(numbers("/line/throughput_per_h").at(0), 1600, 1e-9);
  EXPECT_DOUBLE_EQ(numbers("/line/stations/0/power_kW").at(0), 4.5);
  EXPECT_DOUBLE_EQ(attribute("/line/stations/0/power_kW", "band_high"), 6.2);
  EXPECT_DOUBLE_EQ(numbers("/line/stations/0/belt_area_m2").at(0), 2.6);
  EXPECT_DOUBLE_EQ(numbers("/line/cost/time_EUR_per_part").at(0), 0.05625);
  EXPECT_NEAR(numbers("/line/cost/sum_EUR_per_m").at(0), 0.140625, 1e-12);
  EXPECT_DOUBLE_EQ(numbers("/wet_dry/wet/removal_um").at(0), 3);
  EXPECT_EQ(numbers("/wet_dry/dry/accepted").at(0), 1);
  EXPECT_FALSE(has("/wet_dry/dry/burr_height_um")) << "absent, not zero";
}

TEST_F(ResultsH5, HoldsTheCoatingAlongEveryEdge) {
  const auto& feature = result_.part.features[1];
  EXPECT_EQ(numbers("/features/hole-6-trailing/coating_arc_mm"), feature.coating->arc);
  const auto left = numbers("/features/hole-6-trailing/coating_along_um");
  ASSERT_EQ(left.size(), feature.coating->left.size());
  EXPECT_NEAR(left.back(), 1e3 * feature.coating->left.back(), 1e-9);
  EXPECT_EQ(numbers("/features/hole-6-trailing/coating_beyond_0/distance_mm").at(0), 2.0);
}

TEST_F(ResultsH5, HoldsTheStudyOfTheInterferenceAndTheMapOfFolding) {
  const auto& study = *result_.interference_study;
  EXPECT_NEAR(numbers("/interference_study/removal_um").at(0), 1e3 * study.removal, 1e-9);
  EXPECT_EQ(numbers("/interference_study/causes/0/interference_high_mm").at(0), 0.07);
  EXPECT_NEAR(numbers("/interference_study/causes/1/coating_left_low_um").at(0),
              1e3 * *study.disturbances[1].coating_low, 1e-9);
  EXPECT_TRUE(has("/interference_study/causes/0/accepted"));
  EXPECT_FALSE(has("/interference_study/causes/1/accepted"));  // not known
  const auto& map = *result_.fold_map;
  EXPECT_EQ(numbers("/fold_map/outcome").size(), map.height.size() * map.root.size());
  EXPECT_EQ(numbers("/fold_map/outcome").front(), 2.0);  // 0.05 mm high on a root of 0.01 mm folds
  EXPECT_NEAR(numbers("/fold_map/root").back(), 160.0, 1e-9);
  EXPECT_NEAR(numbers("/fold_map/case_height_um").at(0), 100.0, 1e-9);
}

TEST_F(ResultsH5, HoldsTheStudyOverBeltSpeedWhereThereIsOne) {
  const auto& curve = result_.speed_study->curves[1];
  EXPECT_EQ(numbers("/speed_study/covers/1/speed_mm_per_s"), curve.speed);
  EXPECT_EQ(numbers("/speed_study/covers/1/face_pressure"), curve.face_pressure);
  EXPECT_EQ(numbers("/speed_study/covers/1/burr_pressure"), curve.burr_pressure);
  EXPECT_DOUBLE_EQ(numbers("/speed_study/covers/1/critical_speed_m_per_s").at(0),
                   *curve.critical_speed / 1e3);
}

TEST_F(ResultsH5, LeavesOutWhatTheModelDoesNotGive) {
  EXPECT_TRUE(has("/features/hole-6-leading/edge_drop_um"));
  EXPECT_FALSE(has("/features/hole-6-leading/burr_height_um"));
  EXPECT_FALSE(has("/face/roughness_um"));
}

TEST_F(ResultsH5, HoldsTheMotionOfDiscsWhereThereAreAny) {
  EXPECT_FALSE(has("/stations/0/disc"));
  result_.stations[0].disc = drumlin::sim::DiscResult{.tip_speed = 5500.0, .evenness = 0.4};
  H5Fclose(file_);
  const drumlin::support::TemporaryFolder second;
  drumlin::viz::Output out(second.path(), {});
  drumlin::viz::write_hdf5(result_, out);
  file_ = H5Fopen((second.path() / "results.h5").c_str(), H5F_ACC_RDONLY, H5P_DEFAULT);
  EXPECT_DOUBLE_EQ(numbers("/stations/0/disc/tip_speed_m_per_s").at(0), 5.5);
  EXPECT_DOUBLE_EQ(numbers("/stations/0/disc/evenness").at(0), 0.4);
}

TEST_F(ResultsH5, KeepsTheCaseAndItsHash) {
  EXPECT_TRUE(has("/case/text"));
  EXPECT_TRUE(has("/case/sha256"));
  EXPECT_TRUE(has("/provenance/version"));
}

TEST_F(ResultsH5, StaysSmall) {
  // 60 frames of four float arrays are 16 bytes a point; compression has to earn at least half.
  const auto& section = result_.sections[0];
  const auto raw = 16 * section.frames.size() * section.x.size();
  EXPECT_LT(std::filesystem::file_size(folder_.path() / "results.h5"), raw / 2 + 200'000);
}

TEST_F(ResultsH5, SameResultGivesTheSameBytes) {
  const drumlin::support::TemporaryFolder second;
  drumlin::viz::Output out(second.path(), {});
  drumlin::viz::write_hdf5(result_, out);
  EXPECT_EQ(drumlin::support::bytes_of(folder_.path() / "results.h5"),
            drumlin::support::bytes_of(second.path() / "results.h5"));
}

TEST_F(ResultsH5, TakesNamesThatAreNoPathNames) {
  result_.part.features[0].name = "slot/7";
  result_.part.features[1].name = "slot 7";
  const drumlin::support::TemporaryFolder second;
  drumlin::viz::Output out(second.path(), {});
  EXPECT_NO_THROW(drumlin::viz::write_hdf5(result_, out));
}

}  // namespace
