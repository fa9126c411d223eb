#pragma once

#include <string_view>

#include <gtest/gtest.h>

#include "tests/support/marked_case.hpp"
#include "tests/support/problems.hpp"

namespace drumlin::support {

/// The one problem of the whole case with a line of it replaced, held to stand where "^" marks the
/// replacement and to name that key; what it says is left to the test.
inline cases::Problem only_problem(std::string_view line, std::string_view instead,
                                   std::string_view key) {
  const auto marked = take_mark(with(line, instead));
  const auto problems = problems_of(marked.text);
  EXPECT_EQ(problems.size(), 1U) << cases::CaseError(problems).what();
  if (problems.size() != 1) return {};
  EXPECT_EQ(problems[0].line, marked.line);
  EXPECT_EQ(problems[0].column, marked.column);
  EXPECT_EQ(problems[0].key, key);
  return problems[0];
}

}  // namespace drumlin::support
