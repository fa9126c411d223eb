#pragma once

#include <gtest/gtest.h>

#include "tests/reference/calculix.hpp"

namespace drumlin::reference {

/// Tests that need CalculiX: skipped, and saying why, where it is not installed.
class WithCalculix : public testing::Test {
 protected:
  void SetUp() override {
    if (!calculix_is_here()) GTEST_SKIP() << no_calculix;
  }
};

}  // namespace drumlin::reference
