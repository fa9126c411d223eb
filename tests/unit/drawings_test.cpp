#include "viz/drawings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/extreme_results.hpp"
#include "tests/support/sample_result.hpp"
#include "viz/label_places.hpp"
#include "viz/moment_drawing.hpp"
#include "viz/moment_facts.hpp"
#include "viz/page.hpp"
#include "viz/section_view.hpp"
#include "viz/svg_canvas.hpp"

namespace {

namespace sim = drumlin::sim;
using drumlin::viz::Across;
using drumlin::viz::Along;
using drumlin::viz::Box;
using drumlin::viz::Canvas;
using drumlin::viz::Colour;
using drumlin::viz::Drawing;
using drumlin::viz::Moment;
using drumlin::viz::MomentView;
using drumlin::viz::Point;
using drumlin::viz::Stroke;
using drumlin::viz::SvgCanvas;
using drumlin::viz::TextStyle;
using testing::HasSubstr;

/// Keeps where each text stands.
class Recorder final : public Canvas {
 public:
  struct Text {
    std::string words;
    double size;
    Box box;
  };
  Recorder(double width, double height) : Canvas(width, height), letters_(width, height, "x") {}
  using Canvas::line;
  using Canvas::text;
  void fill_between(std::span<const Point>, std::span<const Point>, Colour) override {}
  void triangle(Point, Point, Point, Colour) override {}
  void line(std::span<const Point>, const Stroke&) override {}
  void clip(std::optional<Box>) override {}
  double text_width(std::string_view text, const TextStyle& style) override {
    return letters_.text_width(text, style);
  }
  void text(Point at, std::string_view words, const TextStyle& style) override {
    if (words.empty()) return;
    const double width = text_width(words, style);
    const double left = style.across == Across::left     ? 0
                        : style.across == Across::middle ? -width / 2
                                                         : -width;
    const double bottom = style.along == Along::bottom   ? 0
                          : style.along == Along::middle ? -style.size / 2
                                                         : -style.size;
    Box box{at.x + left, at.y + bottom, at.x + left + width, at.y + bottom + style.size};
    if (style.angle == 90)
      box = {at.x - bottom - style.size, at.y + left, at.x - bottom, at.y + left + width};
    texts.push_back({std::string(words), style.size, box});
  }
  std::vector<Text> texts;

 private:
  SvgCanvas letters_;
};

double share_covered(const Box& a, const Box& b) {
  const double width = std::min(a.right, b.right) - std::max(a.left, b.left);
  const double height = std::min(a.top, b.top) - std::max(a.bottom, b.bottom);
  if (width <= 0 || height <= 0) return 0;
  return width * height / std::min(a.width() * a.height(), b.width() * b.height());
}

struct Form {
  const char* name;
  double width;
  double height;  ///< 0: what the drawing asks for
};

class EveryDrawing : public testing::TestWithParam<Form> {
 protected:
  template <class Look>
  static void look_at_all(const Look& look) {
    for (const auto& [name, result] : drumlin::support::extreme_results())
      for (const Drawing& drawing : drumlin::viz::all_drawings(result)) {
        const Form form = GetParam();
        const double height = form.height > 0 ? form.height : drawing.height_for(form.width);
        Recorder canvas(form.width, height);
        drawing.paint(canvas, canvas.sheet());
        SCOPED_TRACE(name + ", " + drawing.file);
        look(canvas);
      }
  }
};

// A letter of the sample's own widths may run a few pixels beyond: the reserve of SvgCanvas.
TEST_P(EveryDrawing, KeepsItsLettersInsideItsBoxAndLargeEnough) {
  look_at_all([](const Recorder& canvas) {
    EXPECT_GT(canvas.texts.size(), 4U);
    for (const Recorder::Text& text : canvas.texts) {
      EXPECT_GE(text.box.left, -12) << text.words;
      EXPECT_LE(text.box.right, canvas.sheet().right + 12) << text.words;
      EXPECT_GE(text.box.bottom, -8) << text.words;
      EXPECT_LE(text.box.top, canvas.sheet().top + 8) << text.words;
      EXPECT_GE(text.size, 22) << text.words;
    }
  });
}

TEST_P(EveryDrawing, WritesNoTextOverAnother) {
  look_at_all([](const Recorder& canvas) {
    for (std::size_t i = 0; i < canvas.texts.size(); ++i)
      for (std::size_t k = i + 1; k < canvas.texts.size(); ++k)
        EXPECT_LT(share_covered(canvas.texts[i].box, canvas.texts[k].box), 0.12)
            << canvas.texts[i].words << " | " << canvas.texts[k].words;
  });
}

INSTANTIATE_TEST_SUITE_P(Forms, EveryDrawing,
                         testing::Values(Form{"wide", 1512, 740}, Form{"narrow", 704, 604},
                                         Form{"page", 700, 0}, Form{"middle", 960, 700}),
                         [](const auto& form) { return std::string(form.param.name); });

TEST(DrawingDescription, SaysInWordsWhatIsSeen) {
  const sim::Result result = drumlin::support::sample_result();
  for (const Drawing& drawing : drumlin::viz::all_drawings(result)) {
    EXPECT_GT(drawing.shows.size(), 60U) << drawing.file;
    EXPECT_THAT(drawing.description(), HasSubstr(drawing.why));
    EXPECT_THAT(drumlin::viz::figure_html(drawing),
                HasSubstr(drumlin::viz::escaped(drawing.shows)));
  }
}

std::vector<Moment> moments_of(const sim::Result& result) {
  std::vector<Moment> moments;
  const sim::SectionRecord& section = result.sections.front();
  for (const sim::Frame& frame : section.frames)
    moments.push_back({result, section, frame, *drumlin::viz::drum_of(result, frame.station)});
  return moments;
}

TEST(MomentView, SharedByManyHoldsEachOfThem) {
  const sim::Result result = drumlin::support::sample_result();
  const std::vector<Moment> moments = moments_of(result);
  const MomentView all = drumlin::viz::shared_view(moments);
  const auto close = drumlin::viz::shared_close_view(moments);
  ASSERT_TRUE(close);
  for (const Moment& moment : moments) {
    const MomentView own = drumlin::viz::shared_view(std::array{moment});
    EXPECT_LE(all.x.low, own.x.low);
    EXPECT_GE(all.x.high, own.x.high);
    EXPECT_LE(all.z.low, own.z.low + 1e-12);
    EXPECT_GE(all.z.high, own.z.high - 1e-12);
    EXPECT_GE(close->pressure.high,
              drumlin::viz::highest_pressure(moment.section, moment.frame, close->x));
  }
  EXPECT_EQ(close->edge, "hole-6:trailing") << "the one that carries the burr";
}

TEST(MomentView, DrawsEveryMomentOnTheSameScales) {
  const sim::Result result = drumlin::support::sample_result();
  const std::vector<Moment> moments = moments_of(result);
  const MomentView all = drumlin::viz::shared_view(moments);
  std::vector<std::vector<std::string>> numbers;
  for (const Moment& moment : moments) {
    Recorder canvas(900, 620);
    drumlin::viz::draw_moment(canvas, canvas.sheet(), moment, all);
    std::vector<std::string> scale;
    for (const Recorder::Text& text : canvas.texts)
      if (text.size == 23 || text.words.find("heights drawn") == 0) scale.push_back(text.words);
    std::sort(scale.begin(), scale.end());
    numbers.push_back(scale);
  }
  for (const auto& scale : numbers)
    EXPECT_EQ(scale, numbers.front());
}

TEST(LabelPlaces, TakeTheFirstFreeSpotAndStayInside) {
  Recorder canvas(400, 200);
  drumlin::viz::LabelPlaces labels(canvas, canvas.sheet());
  labels.keep_clear(std::array{Point{0, 100}, Point{400, 100}});
  const std::array spots{drumlin::viz::Spot{{200, 100}, Across::middle, Along::middle},
                         drumlin::viz::Spot{{200, 150}, Across::middle, Along::middle}};
  labels.write("over the line", {}, spots);
  EXPECT_NEAR(canvas.texts.back().box.bottom, 150 - 12, 1e-9) << "not across the line";
  labels.write("the same place", {}, spots);
  EXPECT_LT(share_covered(canvas.texts[0].box, canvas.texts[1].box), 1e-9);
  labels.write("beyond the edge", {}, std::array{drumlin::viz::Spot{{390, 30}}});
  EXPECT_LE(canvas.texts.back().box.right, 400);
  EXPECT_FALSE(labels.write_if_free("no room", {}, {{200, 150}, Across::middle, Along::middle}));
  EXPECT_EQ(canvas.texts.size(), 3U);
}

TEST(Covering, ReachesTheNextDisplayPointsBeyondARange) {
  const std::vector<double> x{0, 1, 2, 3, 4};
  const auto wide = drumlin::viz::covering(x, {1.5, 2.5});
  EXPECT_EQ(wide.low, 1);
  EXPECT_EQ(wide.high, 3);
  const auto all = drumlin::viz::covering(x, {-1, 9});
  EXPECT_EQ(all.low, -1);
  EXPECT_EQ(all.high, 9);
}

}  // namespace
