// Prints the table of models/theory/finite_strain.md: line load under finite strain over that of
// linear elasticity, by live runs of CalculiX. Eight minutes; arguments: the R/t to print.

#include <cstdio>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "tests/reference/half_cover.hpp"

int main(int count, char** words) {
  using drumlin::reference::finite_strain_ratio;
  std::vector<double> slendernesses = {4.0, 5.0, 7.0, 10.0, 14.0};
  if (count > 1) slendernesses.clear();
  for (int i = 1; i < count; ++i)
    slendernesses.push_back(std::stod(words[i]));
  fmt::print("R/t nu depth ratio\n");
  for (const double slenderness : slendernesses) {
    for (const double poisson_ratio : {0.45, 0.47, 0.49, 0.499}) {
      for (const double depth : {0.01, 0.025, 0.05, 0.1, 0.15, 0.2, 0.25}) {
        const double thickness = 100.0 / slenderness;
        const double ratio = finite_strain_ratio({.radius = 100.0,
                                                  .thickness = thickness,
                                                  .interference = depth * thickness,
                                                  .elements = 30},
                                                 poisson_ratio);
        fmt::print("{} {} {} {:.5f}\n", slenderness, poisson_ratio, depth, ratio);
        (void)std::fflush(stdout);
      }
    }
  }
}
