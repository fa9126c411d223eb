#include <system_error>

#include <fmt/format.h>

#include "cases/study_parts.hpp"

namespace drumlin::cases {
namespace {

constexpr KeyInfo case_info{.name = "case",
                            .kind = KeyKind::text,
                            .meaning = "file of the case that is varied",
                            .required = true};
constexpr KeyInfo model_info{
    .name = "model", .kind = KeyKind::text, .meaning = "fidelity, in place of the case's own"};

}  // namespace

std::optional<OpenCase> open_study_case(const Section& top, const std::filesystem::path& folder) {
  const auto name = read_text(top, case_info);
  if (!name) return std::nullopt;
  const std::filesystem::path file = folder / *name;
  std::error_code error;
  if (!std::filesystem::is_regular_file(file, error)) {
    top.problem_at_value("case", fmt::format("no such file: {}", in_quotes(file.string())));
    return std::nullopt;
  }
  std::optional<OpenCase> base(std::in_place, file);
  const auto model = read_text(top, model_info);
  if (!model) return base;
  try {
    set_model(*base, *model);
  } catch (const CaseError& wrong) {
    for (const Problem& problem : wrong.problems())
      top.problem_at_value("model", problem.text);
  }
  return base;
}

}  // namespace drumlin::cases
