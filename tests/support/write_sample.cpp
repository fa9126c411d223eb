// Writes the sample result into a folder, for readers that are no part of this program.

#include <cstdio>
#include <exception>

#include "tests/support/sample_result.hpp"
#include "viz/writers.hpp"

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  try {
    drumlin::viz::write(drumlin::support::sample_result(), argv[1], {});
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 3;
  }
}
