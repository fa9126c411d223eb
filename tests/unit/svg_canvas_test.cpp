#include "viz/svg_canvas.hpp"

#include <algorithm>
#include <cmath>
#include <locale>
#include <random>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

using drumlin::viz::Point;
using drumlin::viz::SvgCanvas;
using testing::HasSubstr;
using testing::Not;

constexpr double height = 620;

/// Corners of the first path of a drawing, y upwards.
std::vector<Point> corners_of(const std::string& shapes) {
  const std::string word = "<path d=\"";
  const auto begin = shapes.find(word) + word.size();
  std::string path = shapes.substr(begin, shapes.find('"', begin) - begin);
  std::replace_if(
      path.begin(), path.end(), [](char c) { return c == 'M' || c == 'L' || c == 'Z'; }, ' ');
  std::istringstream in(path);
  std::vector<Point> out;
  for (Point p; in >> p.x >> p.y;)
    out.push_back({p.x, height - p.y});
  return out;
}

double distance(Point p, Point a, Point b) {
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const double length = dx * dx + dy * dy;
  const double t =
      length > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length, 0.0, 1.0) : 0;
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

// Property over random walks, smooth and jagged, closed and open: what is left out was not seen.
TEST(SvgCanvas, LeavesOutNoPointThatLiesFartherThanTheSlackFromTheLine) {
  std::mt19937 random(7);
  std::normal_distribution<double> step;
  for (int walk = 0; walk < 60; ++walk) {
    const double rough = std::pow(10.0, -2 + walk % 4);
    std::vector<Point> line{{100, 300}};
    for (int i = 0; i < 400; ++i)
      line.push_back({line.back().x + (walk % 3 == 0 ? rough * step(random) : 1.3),
                      line.back().y + rough * step(random)});
    if (walk % 5 == 0) line.push_back(line.front());
    SvgCanvas canvas(720, height, "walk");
    canvas.line(line, {});
    const std::vector<Point> kept = corners_of(canvas.shapes());
    ASSERT_GE(kept.size(), 2U);
    // 0.12 pixel of slack, and half a digit of the tenths of a pixel in x and in y.
    constexpr double most = 0.12 + 0.05 * 1.42;
    for (const Point& p : line) {
      double nearest = 1e9;
      for (std::size_t i = 0; i + 1 < kept.size(); ++i)
        nearest = std::min(nearest, distance(p, kept[i], kept[i + 1]));
      ASSERT_LE(nearest, most) << "walk " << walk;
    }
  }
}

TEST(SvgCanvas, LeavesOutMostOfAStraightLine) {
  std::vector<Point> line;
  for (int i = 0; i <= 500; ++i)
    line.push_back({1.0 * i, 0.5 * i});
  SvgCanvas canvas(720, height, "straight");
  canvas.line(line, {});
  EXPECT_EQ(corners_of(canvas.shapes()).size(), 2U);
}

TEST(SvgCanvas, ReplacesWhatXmlTakesForItself) {
  EXPECT_EQ(drumlin::viz::escaped("a<b & \"c\" 'd' > e"),
            "a&lt;b &amp; &quot;c&quot; &#39;d&#39; &gt; e");
  EXPECT_EQ(drumlin::viz::escaped(std::string("bell\a nul\0 tab\t", 15)), "bell nul tab\t")
      << "no XML file may hold control characters";
  EXPECT_EQ(drumlin::viz::escaped("\xc2\xb5m \xc3\xb8"), "\xc2\xb5m \xc3\xb8");
  SvgCanvas canvas(100, 100, "x");
  canvas.text({10, 10}, "<script>alert(1)</script>");
  const std::string element = canvas.element("</title><script>", "\"><img>");
  EXPECT_THAT(element, Not(HasSubstr("<script>")));
  EXPECT_THAT(element, Not(HasSubstr("<img>")));
}

TEST(SvgCanvas, GivesEveryClipItsOwnNameThatBeginsWithTheDrawings) {
  SvgCanvas canvas(100, 100, "pressure-hole-6");
  for (int i = 0; i < 20; ++i) {
    canvas.clip(drumlin::viz::Box{0, 0, 10, 10});
    canvas.line(Point{0, 0}, Point{9, 9}, {});
    canvas.clip({});
  }
  const std::string element = canvas.element("what", "why");
  std::set<std::string> names;
  int count = 0;
  const std::regex id("id=\"([^\"]*)\"");
  for (std::sregex_iterator i(element.begin(), element.end(), id), end; i != end; ++i, ++count) {
    names.insert((*i)[1]);
    EXPECT_THAT(std::string((*i)[1]), testing::StartsWith("pressure-hole-6"));
  }
  EXPECT_EQ(count, 22) << "twenty clips, title and description";
  EXPECT_EQ(names.size(), 22U);
}

/// Writes 1234.5 as "1.234,5".
struct Comma : std::numpunct<char> {
  [[nodiscard]] char do_decimal_point() const override { return ','; }
  [[nodiscard]] char do_thousands_sep() const override { return '.'; }
  [[nodiscard]] std::string do_grouping() const override { return "\3"; }
};

TEST(SvgCanvas, WritesNumbersTheSameUnderEveryLocale) {
  const auto drawn = [] {
    SvgCanvas canvas(1600.5, 1000, "x");
    canvas.line(Point{1234.56, 0.25}, Point{3.14159, 99.5}, {.width = 2.5, .dash = 3.7});
    canvas.text({12.3, 45.6}, "x", {.size = 22.5, .angle = 45, .halo = true});
    return canvas.element("a", "b");
  };
  const std::string before = drawn();
  const std::locale old = std::locale::global(std::locale(std::locale::classic(), new Comma));
  const std::string after = drawn();
  std::locale::global(old);
  EXPECT_EQ(before, after);
  EXPECT_THAT(before, HasSubstr("M1234.6 999.8"));
}

}  // namespace
