// Removal laws against open measurements: tests/support/open_belt_data.hpp says whose, and the trap
// in them. Belt speed is known but for a factor, so K is fitted and only exponents are tested.

#include "tests/support/open_belt_data.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include "models/removal/removal_laws.hpp"

using drumlin::models::ThresholdPower;
using drumlin::tests::moving;
using drumlin::tests::Moving;
using drumlin::tests::stationary;
using drumlin::tests::Stationary;

namespace {

/// ln V less what pressure times path gives, as a line in what is to be fitted: ln k, the wear rate
/// w per 1e7 and, with a power law, m - 1 on ln(p / 0.1 MPa).
struct Line {
  Eigen::MatrixXd in;
  Eigen::VectorXd out;
};

enum class Law { preston, power };

Line line_of(const std::vector<Stationary>& points, Law law) {
  const auto n = static_cast<Eigen::Index>(points.size());
  Line line{Eigen::MatrixXd(n, law == Law::power ? 3 : 2), Eigen::VectorXd(n)};
  for (Eigen::Index i = 0; i < n; ++i) {
    const Stationary& x = points[static_cast<std::size_t>(i)];
    line.in(i, 0) = 1.0;
    line.in(i, 1) = -x.wear;
    if (law == Law::power) line.in(i, 2) = std::log(x.force / x.area / 0.1);
    line.out(i) = std::log(x.volume / (x.force * x.time * x.rpm));
  }
  return line;
}

Eigen::VectorXd fitted(const Line& line) {
  return line.in.completeOrthogonalDecomposition().solve(line.out);
}

double rms(const Eigen::VectorXd& errors) {
  return std::sqrt(errors.squaredNorm() / static_cast<double>(errors.size()));
}

double worst_ratio(const Eigen::VectorXd& errors) {
  return std::exp(errors.cwiseAbs().maxCoeff());
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

/// Points of the areas that carry weight, or all.
std::vector<Stationary> trusted() {
  std::vector<Stationary> points;
  for (const Stationary& point : stationary)
    if (point.area > 60) points.push_back(point);
  return points;
}
std::vector<Stationary> all() {
  return {stationary.begin(), stationary.end()};
}

/// What a calibration on five points says of the rest.
struct Prediction {
  Eigen::VectorXd found;   // the law's numbers
  Eigen::VectorXd errors;  // ln measured / predicted
  double leverage = 0;     // mean of x (X'X)^-1 x' over the points predicted
  double determinant = 0;  // of X'X: how much the five span
};
using Five = std::array<std::size_t, 5>;

Prediction predict(const Line& line, const Five& five) {
  const Eigen::Index columns = line.in.cols();
  Line known{Eigen::MatrixXd(5, columns), Eigen::VectorXd(5)};
  for (Eigen::Index i = 0; i < 5; ++i) {
    const auto at = static_cast<Eigen::Index>(five[static_cast<std::size_t>(i)]);
    known.in.row(i) = line.in.row(at);
    known.out(i) = line.out(at);
  }
  Prediction result;
  result.found = fitted(known);
  const Eigen::MatrixXd normal = known.in.transpose() * known.in;
  result.determinant = normal.determinant();
  const Eigen::MatrixXd inverse = normal.inverse();
  result.errors.resize(line.out.size() - 5);
  Eigen::Index next = 0;
  for (Eigen::Index i = 0; i < line.out.size(); ++i) {
    if (std::find(five.begin(), five.end(), static_cast<std::size_t>(i)) != five.end()) continue;
    const Eigen::RowVectorXd row = line.in.row(i);
    result.errors(next++) = line.out(i) - row.dot(result.found);
    result.leverage += row * inverse * row.transpose();
  }
  result.leverage /= static_cast<double>(next);
  return result;
}

template <class Use>
void for_every_five(std::size_t count, const Use& use) {
  Five f{};
  for (f[0] = 0; f[0] < count; ++f[0])
    for (f[1] = f[0] + 1; f[1] < count; ++f[1])
      for (f[2] = f[1] + 1; f[2] < count; ++f[2])
        for (f[3] = f[2] + 1; f[3] < count; ++f[3])
          for (f[4] = f[3] + 1; f[4] < count; ++f[4])
            use(f);
}

/// The five that span pressure and wear most (largest determinant), chosen by the inputs alone.
Five widest(const Line& line) {
  Five best{};
  double most = -1.0;
  for_every_five(static_cast<std::size_t>(line.out.size()), [&](const Five& five) {
    Eigen::MatrixXd rows(5, line.in.cols());
    for (Eigen::Index i = 0; i < 5; ++i)
      rows.row(i) = line.in.row(static_cast<Eigen::Index>(five[static_cast<std::size_t>(i)]));
    const double spans = (rows.transpose() * rows).determinant();
    if (spans > most) {
      most = spans;
      best = five;
    }
  });
  return best;
}

double deviation(const std::vector<Stationary>& points, double Stationary::*member) {
  double sum = 0.0;
  double squares = 0.0;
  for (const Stationary& point : points) {
    const double value = std::log(point.*member);
    sum += value;
    squares += value * value;
  }
  const auto n = static_cast<double>(points.size());
  return std::sqrt(squares / n - sum * sum / (n * n));
}

/// Scatter of ln V that a law of pressure and path cannot go below: the data's own about the best
/// law of depth, 0.227, and what time and speed do beyond the path, t^0.29 and rpm^0.65.
double scatter_of(const std::vector<Stationary>& points) {
  return std::hypot(0.227, 0.29 * deviation(points, &Stationary::time),
                    0.65 * deviation(points, &Stationary::rpm));
}

void print(const char* what, double value) {
  testing::Test::RecordProperty(what, std::to_string(value));
  std::printf("  %-44s %.3f\n", what, value);
}

Eigen::VectorXd moving_fit(double wear_below, double* scatter = nullptr) {
  std::vector<Moving> points;
  for (const Moving& x : moving)
    if (x.wear < wear_below) points.push_back(x);
  const auto n = static_cast<Eigen::Index>(points.size());
  Line line{Eigen::MatrixXd(n, 4), Eigen::VectorXd(n)};
  for (Eigen::Index i = 0; i < n; ++i) {
    const Moving& x = points[static_cast<std::size_t>(i)];
    line.in.row(i) << 1.0, -x.wear, std::log(x.force / 5.0), std::log(x.feed / 20.0);
    line.out(i) = std::log(x.volume);
  }
  const Eigen::VectorXd found = fitted(line);
  if (scatter != nullptr) *scatter = rms(line.out - line.in * found);
  return found;
}

}  // namespace

// Removal per pass goes with the time that a place is under the belt: 1 / feed, which is 4.0 from
// feed 10 to 40 by any law of pressure and path. The data give 4^0.97 = 3.84 (fit on the 11).
TEST(OpenBeltData, RemoveByOneOverTheFeed) {
  double scatter = 0.0;
  const Eigen::VectorXd found = moving_fit(1e9, &scatter);
  const ThresholdPower law{.coefficient = 4e-5, .exponent = 2};
  const auto pass = [&](double feed) { return law.per_path(0.1) * 20000.0 / feed; };
  const double ours = pass(10) / pass(40);
  EXPECT_NEAR(ours, 4.0, 1e-12);
  EXPECT_NEAR(ours / std::pow(4.0, -found(3)), 1.0, 0.10);
  print("feed exponent of the data", found(3));
  print("force exponent of the data, moving", found(2));
  print("wear rate per 1e7, moving", found(1));
  print("rms of ln, moving", scatter);
  // As the source has it, for what was copied here: F^2.07, 0.090 per 1e7, rms 0.08.
  EXPECT_NEAR(found(2), 2.07, 0.02);
  EXPECT_NEAR(found(1), 0.090, 0.002);
  EXPECT_NEAR(scatter, 0.08, 0.005);
}

// A law of pressure gives V = A r(F / A) path, so for a power V goes as F^m A^(1 - m): at equal
// force Preston's does not see the area, m = 2 halves V on twice of it. The data say A^-0.86.
TEST(OpenBeltData, SeeTheAreaAsAPowerOfPressureDoes) {
  for (const double m : {0.55, 1.0, 1.86, 2.0}) {
    const ThresholdPower law{.coefficient = 4e-5, .exponent = m, .saturation_pressure = 1e6};
    const auto volume = [&](double force, double area) {
      return area * law.per_path(force / area);
    };
    for (const double area : {50.0, 98.0, 200.0})
      for (const double force : {3.0, 9.0})
        // p / p_s is 1e-7 here.
        EXPECT_NEAR(volume(force, area) / volume(5.0, 50.0),
                    std::pow(force / 5.0, m) * std::pow(area / 50.0, 1.0 - m), 1e-6);
  }
}

// Belt wear: K and m from points with wear < 1e7, the wear rate from the other run of the rig
// (three and four points of small wear cannot tell one), then the rest is predicted. Normal errors
// of deviation s have a median of 0.6745 s; s is the scatter that the law cannot go below, larger
// by the calibration's own error. The data's keeper asks for 0.2: the moving grinder meets it
// (0.12), A 98 and A 200 miss it by 0.007 from three points. Their own wear rate is 0.15 per 1e7
// (published for A 98 0.074, A 200 0.153, moving 0.090): it is known to a factor of two.
TEST(OpenBeltData, LoseRemovalWithBeltWear) {
  const std::vector<Stationary> points = trusted();
  const Line line = line_of(points, Law::power);
  const double rate_of_moving = moving_fit(1e9)(1);
  const double rate_of_stationary = fitted(line)(1);
  print("wear rate per 1e7, A 98 and A 200", rate_of_stationary);

  double leverage = 0.0;
  const auto errors_of = [&](const std::vector<Stationary>& all_points, double rate) {
    std::vector<Stationary> fresh, worn;
    for (const Stationary& x : all_points)
      (x.wear < 1.0 ? fresh : worn).push_back(x);
    Line known = line_of(fresh, Law::power);
    known.out -= rate * known.in.col(1);
    known.in.col(1).setZero();
    const Eigen::VectorXd found = fitted(known);
    Line rest = line_of(worn, Law::power);
    Eigen::MatrixXd x = rest.in;
    x.col(1).setZero();
    const Eigen::MatrixXd normal = known.in.transpose() * known.in;
    leverage = (x * normal.completeOrthogonalDecomposition().pseudoInverse() * x.transpose())
                   .diagonal()
                   .mean();
    const Eigen::VectorXd errors =
        rest.out - rate * rest.in.col(1) - rest.in.col(0) * found(0) - rest.in.col(2) * found(2);
    return std::vector<double>(errors.begin(), errors.end());
  };
  const auto size = [](std::vector<double> errors) {
    for (double& e : errors)
      e = std::abs(e);
    return median(errors);
  };
  print("median |ln|, A 98 and A 200", size(errors_of(points, rate_of_moving)));
  print("bar from the scatter", 0.6745 * scatter_of(points) * std::sqrt(1.0 + leverage));
  EXPECT_LE(size(errors_of(points, rate_of_moving)),
            0.6745 * scatter_of(points) * std::sqrt(1.0 + leverage));
  // With A 50, for the record only.
  print("median |ln|, all areas", size(errors_of(all(), rate_of_moving)));

  // The moving grinder, 1 / feed as the law has it.
  Line known{Eigen::MatrixXd::Zero(0, 2), {}};
  std::vector<double> errors;
  for (const bool worn : {false, true}) {
    std::vector<Moving> part;
    for (const Moving& x : moving)
      if ((x.wear >= 1.0) == worn) part.push_back(x);
    const auto n = static_cast<Eigen::Index>(part.size());
    Line line_part{Eigen::MatrixXd(n, 2), Eigen::VectorXd(n)};
    for (Eigen::Index i = 0; i < n; ++i) {
      const Moving& x = part[static_cast<std::size_t>(i)];
      line_part.in.row(i) << 1.0, std::log(x.force);
      line_part.out(i) = std::log(x.volume * x.feed) + rate_of_stationary * x.wear;
    }
    if (!worn) {
      known = line_part;
      continue;
    }
    const Eigen::VectorXd off = line_part.out - line_part.in * fitted(known);
    errors.assign(off.begin(), off.end());
  }
  print("median |ln|, moving", size(errors));
  EXPECT_LE(size(errors), 0.2);
}

// Five points calibrate, the rest is predicted. The bar is the scatter that the law cannot go
// below, larger by the calibration's own error (leverage of the points predicted), and by twice the
// uncertainty of an rms over so few points. Plain Preston fails, as the source says (0.43 to 0.51).
TEST(OpenBeltData, ArePredictedFromFivePointsByAPowerAndNotByPreston) {
  for (const bool with_doubtful : {false, true}) {
    const std::vector<Stationary> points = with_doubtful ? all() : trusted();
    std::printf("%s:\n", with_doubtful ? "A 50, A 98, A 200 (for the record)" : "A 98, A 200");
    const Line power = line_of(points, Law::power);
    const Line straight = line_of(points, Law::preston);
    const Five five = widest(power);
    const Prediction law = predict(power, five);
    const Prediction preston = predict(straight, five);
    const auto n = static_cast<double>(law.errors.size());
    const double bar =
        scatter_of(points) * std::sqrt(1.0 + law.leverage) * (1.0 + 2.0 / std::sqrt(2.0 * n));
    print("exponent m from five", 1.0 + law.found(2));
    print("wear rate per 1e7 from five", law.found(1));
    print("rms ln, power law", rms(law.errors));
    print("bar", bar);
    print("worst ratio, power law", worst_ratio(law.errors));
    print("rms ln, Preston", rms(preston.errors));
    print("worst ratio, Preston", worst_ratio(preston.errors));
    print("best fit to all: rms ln, power law", rms(power.out - power.in * fitted(power)));
    print("best fit to all: m", 1.0 + fitted(power)(2));
    print("best fit to all: rms ln, Preston", rms(straight.out - straight.in * fitted(straight)));
    if (with_doubtful) continue;
    EXPECT_LE(rms(law.errors), bar);
    EXPECT_GE(rms(preston.errors), 0.4);
    EXPECT_LT(rms(law.errors), 0.6 * rms(preston.errors));

    // Whichever five one happens to measure, as far as they tell pressure from wear at all.
    std::vector<double> of_law, of_preston;
    for_every_five(points.size(), [&](const Five& any) {
      const Prediction by_law = predict(power, any);
      if (by_law.determinant < 0.1 * law.determinant) return;
      of_law.push_back(rms(by_law.errors));
      of_preston.push_back(rms(predict(straight, any).errors));
    });
    print("choices of five", static_cast<double>(of_law.size()));
    print("median rms ln, power law", median(of_law));
    print("median rms ln, Preston", median(of_preston));
    EXPECT_LE(median(of_law), bar);
    EXPECT_GE(median(of_preston), 0.4);
  }
}
