#include <algorithm>
#include <array>
#include <cstdlib>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <vtkImageData.h>
#include <vtkNew.h>
#include <vtkPNGReader.h>
#include <vtkStdString.h>
#include <vtkTextProperty.h>
#include <vtkTextRenderer.h>

#include "tests/support/sample_result.hpp"
#include "tests/support/temporary_folder.hpp"
#include "viz/canvas.hpp"
#include "viz/drawings.hpp"
#include "viz/moment_facts.hpp"
#include "viz/offscreen.hpp"
#include "viz/output.hpp"
#include "viz/svg_canvas.hpp"
#include "viz/writers.hpp"

namespace {

namespace fs = std::filesystem;
namespace palette = drumlin::viz::palette;
namespace sim = drumlin::sim;
using drumlin::support::TemporaryFolder;
using drumlin::support::tree_of;
using drumlin::viz::Colour;
using drumlin::viz::Drawing;
using testing::Contains;
using testing::HasSubstr;

/// Number of pixels of each colour of a picture, by 0xRRGGBB.
std::map<unsigned, long> colours_of(const fs::path& png) {
  vtkNew<vtkPNGReader> reader;
  reader->SetFileName(png.c_str());
  reader->Update();
  vtkImageData* image = reader->GetOutput();
  EXPECT_EQ(image->GetDimensions()[0], drumlin::viz::Offscreen::width);
  EXPECT_EQ(image->GetDimensions()[1], drumlin::viz::Offscreen::height);
  std::map<unsigned, long> out;
  const auto* pixels = static_cast<const unsigned char*>(image->GetScalarPointer());
  const long count = image->GetNumberOfPoints();
  for (long i = 0; i < count; ++i)
    ++out[static_cast<unsigned>(pixels[3 * i]) << 16U |
          static_cast<unsigned>(pixels[3 * i + 1]) << 8U | pixels[3 * i + 2]];
  return out;
}

unsigned key(Colour c) {
  return static_cast<unsigned>(c.red) << 16U | static_cast<unsigned>(c.green) << 8U | c.blue;
}

/// Width of a text in a font of a file, as VTK's font renderer measures it [pixel].
double width_in(const char* file, int size, const std::string& text) {
  vtkNew<vtkTextProperty> property;
  property->SetFontFamily(VTK_FONT_FILE);
  property->SetFontFile(file);
  property->SetFontSize(size);
  std::array<int, 4> box{};
  vtkTextRenderer::GetInstance()->GetBoundingBox(property, vtkStdString(text), box.data(), 72,
                                                 vtkTextRenderer::FreeType);
  return box[1] - box[0] + 1;
}

class Pictures : public testing::Test {
 protected:
  void SetUp() override {
    if (drumlin::viz::open_offscreen().screen == nullptr)
      GTEST_SKIP() << "no pictures on this machine";
  }
  /// A picture of one kind, drawn into a folder of its own.
  fs::path drawn(std::vector<Drawing> (*kind)(const drumlin::sim::Result&),
                 const std::string& name) const {
    const fs::path png = folder_.path() / name;
    for (const Drawing& drawing : kind(result_)) {
      if (drawing.file + ".png" != name) continue;
      drumlin::viz::open_offscreen().screen->draw(png, [&](drumlin::viz::Canvas& canvas) {
        drawing.paint(canvas,
                      draw_sheet(canvas, result_, drawing.what, drawing.setup, drawing.why));
      });
    }
    return png;
  }

  TemporaryFolder folder_;
  drumlin::sim::Result result_ = drumlin::support::sample_result();
};

TEST_F(Pictures, AreMadeForEveryFeatureAndSection) {
  const auto report = drumlin::viz::write(result_, folder_.path() / "out", {});
  for (const char* name :
       {"profile-hole-6-leading", "profile-hole-6-trailing", "pressure-hole-6", "moment-hole-6"})
    for (const char* ending : {".png", ".svg"})
      EXPECT_THAT(report.files, Contains(std::string("pictures/") + name + ending));
  for (const char* name : {"belt-speed", "coating-map", "fold-map", "part-as-it-is"})
    EXPECT_THAT(report.files, Contains(std::string("pictures/") + name + ".png"));
  EXPECT_THAT(report.remarks, testing::IsEmpty());
}

TEST_F(Pictures, ProfileShowsMetalCoatingAndTheBurrThatWas) {
  auto colours = colours_of(drawn(drumlin::viz::profile_drawings, "profile-hole-6-trailing.png"));
  // Metal fills a fifth of the sheet or so; 20 um of zinc, the dashed line and the worn part less.
  EXPECT_GT(colours[key(palette::metal)], 100'000);
  EXPECT_GT(colours[key(palette::coating)], 2'000);
  EXPECT_GT(colours[key(palette::worn)], 10'000);
  EXPECT_GT(colours[key(palette::burr)], 1'000);
}

TEST_F(Pictures, MomentShowsDrumBeltAndPart) {
  auto colours = colours_of(drawn(drumlin::viz::moment_drawings, "moment-hole-6.png"));
  EXPECT_GT(colours[key(palette::cover)], 100'000);
  EXPECT_GT(colours[key(palette::belt)], 4'000);
  EXPECT_GT(colours[key(palette::metal)], 50'000);
}

TEST_F(Pictures, PressureShowsBothCurvesAndLetters) {
  auto colours = colours_of(drawn(drumlin::viz::pressure_drawings, "pressure-hole-6.png"));
  EXPECT_GT(colours[key(palette::burr)], 4'000);
  EXPECT_GT(colours[key(palette::face)], 2'000);
  EXPECT_GT(colours[key(palette::ink)], 10'000) << "title, axes and line load";
  EXPECT_GT(colours.size(), 100U) << "smooth edges give mixed colours";
}

TEST_F(Pictures, BeltSpeedShowsEachCoverInItsOwnColourAndMarksTheCriticalSpeed) {
  const auto drawing = [&] {
    return colours_of(drawn(drumlin::viz::belt_speed_drawings, "belt-speed.png"));
  };
  auto colours = drawing();
  // Two curves of some 800 pixels by 6, less what dashes leave out.
  for (const Colour cover : {palette::burr, palette::face, palette::coating})
    EXPECT_GT(colours[key(cover)], 4'000);
  // Of three critical speeds one lies inside the plots: two triangles of 24 by 18 pixels.
  result_.speed_study->curves[0].critical_speed.reset();
  auto unmarked = drawing();
  EXPECT_GT(colours[key(palette::burr)] - unmarked[key(palette::burr)], 300);
}

TEST_F(Pictures, BeltSpeedIsNotDrawnWithoutAStudyNorFromOneThatIsNotWhole) {
  result_.speed_study->curves.resize(1);
  result_.speed_study->curves[0].burr_pressure.pop_back();
  EXPECT_FALSE(fs::exists(drawn(drumlin::viz::belt_speed_drawings, "belt-speed.png")));
  result_.speed_study.reset();
  EXPECT_FALSE(fs::exists(drawn(drumlin::viz::belt_speed_drawings, "belt-speed.png")));
}

// Of fifteen equal fields six fold; with one root for all, each row is one colour.
TEST_F(Pictures, FoldMapFillsItsFieldsByWhatBecomesOfTheBurr) {
  const auto folding = [&] {
    auto colours = colours_of(drawn(drumlin::viz::fold_map_drawings, "fold-map.png"));
    return static_cast<double>(colours[key(palette::burr)]);
  };
  const auto& outcome = result_.fold_map->outcome;
  const auto folds = std::count(outcome.begin(), outcome.end(), sim::FoldMap::Outcome::folds);
  const double as_it_is = folding();
  result_.fold_map->outcome.assign(outcome.size(), sim::FoldMap::Outcome::folds);
  // The key's swatch and the cross count a hundredth of the map.
  EXPECT_NEAR(as_it_is / folding(), static_cast<double>(folds) / 15.0, 0.02);
}

TEST_F(Pictures, CoatingMapShowsBareMetalAndWhatIsLeft) {
  const auto bare = [&] {
    return colours_of(
        drawn(drumlin::viz::coating_map_drawings, "coating-map.png"))[key(palette::metal)];
  };
  const long before = bare();
  for (auto& feature : result_.part.features)
    for (double& left : feature.coating->left)
      left = 0.0;
  EXPECT_GT(bare(), 10 * before);
}

TEST_F(Pictures, PartAsItIsTellsWhatTheCaseGivesFromWhatIsUsual) {
  const auto full = [&] {
    return colours_of(
        drawn(drumlin::viz::part_as_it_is_drawings, "part-as-it-is.png"))[key(palette::face)];
  };
  const long one = full();
  result_.interference_study->disturbances[1].given = true;
  EXPECT_GT(full(), 2 * one);  // the second bar is the longer one
}

TEST_F(Pictures, OfStudiesAreNotDrawnWithoutThem) {
  result_.fold_map.reset();
  result_.interference_study.reset();
  for (auto& feature : result_.part.features)
    feature.coating.reset();
  EXPECT_FALSE(fs::exists(drawn(drumlin::viz::fold_map_drawings, "fold-map.png")));
  EXPECT_FALSE(fs::exists(drawn(drumlin::viz::coating_map_drawings, "coating-map.png")));
  EXPECT_FALSE(fs::exists(drawn(drumlin::viz::part_as_it_is_drawings, "part-as-it-is.png")));
}

TEST_F(Pictures, SameResultGivesTheSameBytesInEveryFile) {
  drumlin::viz::write(result_, folder_.path() / "first", {});
  drumlin::viz::write(result_, folder_.path() / "second", {});
  const auto first = tree_of(folder_.path() / "first");
  const auto second = tree_of(folder_.path() / "second");
  ASSERT_EQ(first.size(), second.size());
  for (const auto& [name, bytes] : first)
    EXPECT_TRUE(second.at(name) == bytes) << name;
}

TEST_F(Pictures, ATitleMayHoldAnySign) {
  result_.title =
      "100 % & $5$ <b> \xc3\xb8 6, a title that is far too long for one line of a sheet "
      "and goes on and on and on until nobody wants to read it any more at all";
  result_.stations[0].description.clear();
  EXPECT_TRUE(fs::exists(drawn(drumlin::viz::pressure_drawings, "pressure-hole-6.png")));
}

TEST_F(Pictures, ATitleIsCutBetweenCharactersOnly) {
  result_.title = std::string(90, 'a');
  for (int i = 0; i < 60; ++i)
    result_.title += "\xc2\xb5";
  testing::internal::CaptureStderr();
  const fs::path cut = drawn(drumlin::viz::pressure_drawings, "pressure-hole-6.png");
  EXPECT_EQ(testing::internal::GetCapturedStderr(), "") << "the text renderer complains here";
  const long with_title = colours_of(cut)[key(palette::ink)];
  result_.title.clear();
  const long without =
      colours_of(drawn(drumlin::viz::pressure_drawings, "pressure-hole-6.png"))[key(palette::ink)];
  // Ninety letters of some ten dark pixels each at the very least.
  EXPECT_GT(with_title, without + 900);
}

TEST_F(Pictures, MomentComparesWithTheStationsPlainFaceNotWithTheFaceBesideTheEdge) {
  const drumlin::sim::SectionRecord& section = result_.sections.front();
  const drumlin::sim::Frame& frame =
      section.frames[static_cast<std::size_t>(section.telling_frame)];
  // A face of which the highest edge pressure is seven times; no other pressure gives this number.
  result_.stations[0].peak_pressure =
      drumlin::sim::Banded{drumlin::viz::highest_pressure(frame) / 7, {}, {}};
  EXPECT_THAT(drumlin::viz::moment_why(result_, section, frame),
              HasSubstr("7.0 times the plain face"));
}

TEST_F(Pictures, ProfileIsDrawnWithoutTheNumbersThatABurrLeavesOpen) {
  for (auto& feature : result_.part.features) {
    feature.edge_radius.reset();
    feature.edge_radius_fit.reset();
    feature.bare_length.reset();
    feature.edge_drop.reset();
  }
  auto colours = colours_of(drawn(drumlin::viz::profile_drawings, "profile-hole-6-trailing.png"));
  result_ = drumlin::support::sample_result();
  auto more = colours_of(drawn(drumlin::viz::profile_drawings, "profile-hole-6-trailing.png"));
  EXPECT_GT(colours[key(palette::metal)], 100'000) << "the drawing itself is there";
  EXPECT_LT(colours[key(palette::ink)], more[key(palette::ink)]) << "three numbers less";
}

TEST(Series, TimeGrowsThroughEveryPassage) {
  drumlin::sim::Result result = drumlin::support::sample_result();
  drumlin::sim::SectionRecord& section = result.sections.front();
  const auto first_frames = section.frames;
  for (int passage = 1; passage < 4; ++passage) {
    for (drumlin::sim::Frame frame : first_frames) {
      frame.pass = passage / 2;
      frame.station = passage % 2;
      section.frames.push_back(std::move(frame));
    }
  }
  result.stations.push_back(result.stations.front());
  result.drums.push_back(result.drums.front());
  const TemporaryFolder folder;
  drumlin::viz::Output out(folder.path(), {.overwrite = false, .pictures = false});
  drumlin::viz::write_vtk_series(result, out);
  const std::string list = tree_of(folder.path()).at("pass/hole-6.pvd");
  std::vector<double> times;
  const std::string word = "timestep=\"";
  for (auto at = list.find(word); at != std::string::npos; at = list.find(word, at + 1))
    times.push_back(std::stod(list.substr(at + word.size())));
  ASSERT_GT(times.size(), 8U) << "some frames of each of four passages";
  for (std::size_t i = 1; i < times.size(); ++i)
    EXPECT_GT(times[i], times[i - 1]) << "frame " << i;
  // Seconds: four passages of the sample's 34 mm each (hole 6 mm, 14 mm beyond it on both sides) at
  // 50 mm/s, and from one passage to the next one step of 34 mm / 59, the sample's frames being 60.
  EXPECT_NEAR(times.back(), (4 * 34.0 + 3 * 34.0 / 59) / 50, 1e-4);  // six digits are written
}

// The font has the letter widths of Helvetica; VTK's font renderer measures it.
TEST(SvgLetters, AreAsWideAsThoseOfAFontWithHelveticasWidths) {
  const char* const file = "/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf";
  if (!fs::exists(file)) GTEST_SKIP() << "no Liberation Sans (Debian: fonts-liberation)";
  drumlin::viz::SvgCanvas canvas(1600, 1000, "x");
  constexpr double reserve = 1.05;  // of SvgCanvas, for fonts that run wider
  std::vector<std::string> texts{
      "burr and edge: up to 2.13 MPa", "way of the drum over the part", "heights drawn 12 times",
      "The burr stands into the belt and the cover cannot follow so short a step: it carries",
      "Panel TS-204, soft drum at 0.3 mm: hole-6, before and after"};
  for (char c = '!'; c <= '~'; ++c)
    texts.push_back(std::string(20, c));
  for (const std::string& text : texts) {
    const double ours = canvas.text_width(text, {.size = 100}) / reserve;
    const double theirs = width_in(file, 100, text);
    // 3 %; the measured box ends with the ink, up to a side bearing of either end short of the
    // width: a fifth of the size.
    EXPECT_NEAR(ours, theirs, 0.03 * theirs + (text.size() > 20 ? 6 : 20)) << text;
  }
}

TEST(WithoutRendering, TheRunSucceedsAndSaysSo) {
  const TemporaryFolder folder;
  ASSERT_EQ(setenv("DRUMLIN_NO_RENDERING", "1", 1), 0);
  const auto report =
      drumlin::viz::write(drumlin::support::sample_result(), folder.path() / "out", {});
  unsetenv("DRUMLIN_NO_RENDERING");
  EXPECT_THAT(report.remarks, Contains(HasSubstr("no PNG pictures")));
  EXPECT_THAT(report.files, Contains("summary.json"));
  EXPECT_THAT(report.files, Contains("pass/hole-6.pvd"));
  EXPECT_THAT(report.files, Contains("pictures/profile-hole-6-trailing.svg"));
  EXPECT_THAT(report.files, testing::Each(testing::Not(testing::EndsWith(".png"))));
}

TEST(WithoutRendering, PicturesThatAreNotWantedNeedNoRemark) {
  const TemporaryFolder folder;
  const auto report = drumlin::viz::write(drumlin::support::sample_result(), folder.path() / "out",
                                          {.overwrite = false, .pictures = false});
  EXPECT_THAT(report.remarks, testing::IsEmpty());
  EXPECT_FALSE(fs::exists(folder.path() / "out" / "pictures"));
}

}  // namespace
