#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include <fmt/format.h>

#include "cases/file_text.hpp"
#include "cases/reader_parts.hpp"
#include "cases/study_parts.hpp"
#include "cases/study_reader.hpp"
#include "cases/suggest.hpp"

namespace drumlin::cases {
namespace {

/// Rows that a study may have; more is a slip in a grid.
constexpr double most_rows = 1e12;
/// A list of some hundred thousand rows.
constexpr std::uintmax_t most_list_bytes = 200'000'000;

constexpr auto designs =
    std::to_array<Choice>({{"grid"}, {"latin-hypercube"}, {"sobol"}, {"list"}, {"pick-freeze"}});
constexpr auto study_keys = std::to_array<KeyInfo>({
    {.name = "title", .kind = KeyKind::text, .meaning = "what the study is about"},
    {.name = "case", .kind = KeyKind::text, .meaning = "file of the case that is varied"},
    {.name = "model", .kind = KeyKind::text, .meaning = "fidelity, in place of the case's own"},
    {.name = "replicates",
     .kind = KeyKind::count,
     .low = 1,
     .high = 1e6,
     .meaning = "times that the design is drawn, each from its own seed"},
    {.name = "scatter",
     .kind = KeyKind::flag,
     .meaning = "whether each row is drawn with the scatter that its case gives in [uncertainty]",
     .default_text = "false"},
    {.name = "design", .meaning = "how the factors are combined"},
    {.name = "factor", .meaning = "keys that are varied"},
    {.name = "filter", .meaning = "rows that are not run"},
    {.name = "window", .meaning = "how a map is drawn, by drumlin window"},
    {.name = "aim", .meaning = "columns that are wanted large or small"},
});
constexpr auto design_keys = std::to_array<KeyInfo>({
    {.name = "kind",
     .kind = KeyKind::choice,
     .meaning = "how the factors are combined",
     .required = true,
     .choices = designs},
    {.name = "size", .kind = KeyKind::count, .low = 1, .high = 1e9, .meaning = "points"},
    {.name = "seed",
     .kind = KeyKind::count,
     .low = 0,
     .high = 2147483647,
     .meaning = "of everything that is drawn",
     .default_text = "0"},
    {.name = "scramble",
     .kind = KeyKind::flag,
     .meaning = "whether a Sobol sequence is shifted by the seed",
     .default_text = "true"},
    {.name = "file", .kind = KeyKind::text, .meaning = "list of rows, keys in its first line"},
});

/// The study as it is read, part by part.
class Reader {
 public:
  Reader(const Section& top, const std::filesystem::path& file)
      : top_(top), folder_(file.parent_path()) {}

  Study read();

 private:
  void read_design();
  void read_rows();
  void read_factors();
  void read_filters();
  void take(FactorKey key, Place at, const std::string& named_by);
  void count_points();

  const Section& top_;
  std::filesystem::path folder_;
  std::optional<OpenCase> base_;
  std::vector<FactorKey> keys_;
  bool design_known_ = false;
  Study study_;
};

void Reader::read_design() {
  const auto section = top_.open("design");
  if (!section) {
    if (top_.lacks("design"))
      top_.problem_at_value("design",
                            "missing; expected [design] with kind = \"grid\", \"latin-hypercube\", "
                            "\"sobol\", \"list\" or \"pick-freeze\"");
    return;
  }
  section->refuse_unknown(design_keys);
  const auto kind = read_choice(*section, design_keys[0]);
  design_known_ = kind.has_value();
  study_.design = static_cast<DesignKind>(kind.value_or(0));
  const auto size = read_count(*section, design_keys[1]);
  study_.seed = static_cast<std::uint64_t>(read_count(*section, design_keys[2]).value_or(0));
  study_.scramble = read_flag(*section, design_keys[3]).value_or(true);
  if (!design_known_) return;
  const auto only_for = [&](std::string_view key, bool belongs, std::string_view to) {
    if (!belongs && section->given(key))
      section->problem_at_key(key, fmt::format("belongs to a design of kind {}", to));
  };
  const bool pick_freeze = study_.design == DesignKind::pick_freeze;
  const bool sequence = study_.design == DesignKind::sobol || pick_freeze;
  const bool sampled = study_.design == DesignKind::latin_hypercube || sequence;
  only_for("size", sampled, R"("latin-hypercube", "sobol" or "pick-freeze")");
  only_for("scramble", sequence, R"("sobol" or "pick-freeze")");
  only_for("file", study_.design == DesignKind::list, R"("list")");
  if (sampled && section->lacks("size"))
    section->problem("missing size; expected the number of points, such as size = 1024");
  study_.points = static_cast<std::uint64_t>(size.value_or(0));
  if (study_.design == DesignKind::list && section->lacks("file"))
    section->problem("missing file; expected a list of rows, such as file = \"rows.csv\"");
}

/// Takes a factor in, unless its key is varied already.
void Reader::take(FactorKey key, Place at, const std::string& named_by) {
  for (const FactorKey& other : keys_) {
    if (other.factor.key != key.factor.key) continue;
    top_.findings().problem(at, named_by,
                            fmt::format("{} is varied already", in_quotes(key.factor.key)));
    return;
  }
  keys_.push_back(std::move(key));
}

void Reader::read_rows() {
  const auto section = top_.open("design");
  const KeyInfo named = design_keys[4];
  const auto name = read_text(*section, named);
  if (!name) return;
  const std::filesystem::path file = folder_ / *name;
  Findings findings(file.string());
  StudyList list = read_list(file_text(file, "a list of rows", most_list_bytes), *base_, findings);
  auto& problems = top_.findings().problems;
  problems.insert(problems.end(), findings.problems.begin(), findings.problems.end());
  for (FactorKey& column : list.columns)
    take(std::move(column), section->find("file")->place, section->path("file"));
  study_.list = std::move(list.rows);
}

void Reader::read_factors() {
  const auto items = top_.open_list("factor");
  for (const Section& item : items)
    if (auto key = read_factor(item, *base_, study_.design))
      take(std::move(*key), item.find("key")->place, item.path("key"));
  if (keys_.empty() && items.empty() && study_.design != DesignKind::list)
    top_.problem_at_value("factor", "no factor; give at least one [[factor]]");
}

void Reader::read_filters() {
  for (const Section& item : top_.open_list("filter"))
    if (auto filter = read_filter(item, *base_, keys_))
      study_.filters.push_back(std::move(*filter));
}

void Reader::count_points() {
  if (study_.design == DesignKind::list) study_.points = study_.list.size();
  if (study_.design == DesignKind::pick_freeze) study_.points *= keys_.size() + 2;
  double points = static_cast<double>(study_.points);
  if (study_.design == DesignKind::grid) {
    points = 1;
    study_.points = 1;
    for (const FactorKey& key : keys_) {
      if (key.factor.distribution) continue;
      points *= static_cast<double>(key.factor.values.size());
      if (points <= most_rows) study_.points *= key.factor.values.size();
    }
  }
  if (points * static_cast<double>(study_.replicates) > most_rows)
    top_.problem_at_value("factor",
                          fmt::format("{:.3g} rows; at most {:.0e} are taken",
                                      points * static_cast<double>(study_.replicates), most_rows));
  else if (points == 0)
    top_.problem_at_value("design", "no rows");
}

Study Reader::read() {
  Findings& findings = top_.findings();
  top_.refuse_unknown(study_keys);
  study_.title =
      read_text(top_, study_keys[0]).value_or(std::filesystem::path(findings.file).stem().string());
  study_.replicates = static_cast<std::uint64_t>(read_count(top_, study_keys[3]).value_or(1));
  base_ = open_study_case(top_, folder_);
  read_design();
  if (base_ && design_known_) {
    if (study_.design == DesignKind::list) read_rows();
    read_factors();
    read_filters();
  }
  static_cast<void>(read_aims(top_));
  if (findings.problems.empty()) count_points();
  for (FactorKey& key : keys_)
    settle(key);
  if (findings.problems.empty()) keep_setting(*base_, keys_);
  if (findings.problems.empty() && read_flag(top_, study_keys[4]).value_or(false))
    study_.scatter = row_scatter(*base_, keys_, top_);
  throw_problems(findings);
  std::vector<VariedKey> varied;
  for (FactorKey& key : keys_) {
    study_.factors.push_back(std::move(key.factor));
    varied.push_back(std::move(key.varied));
  }
  study_.base = base_->as_read();
  const auto family = std::make_shared<const CaseFamily>(std::move(*base_), std::move(varied));
  study_.with = [family](std::span<const double> values) { return family->with(values); };
  study_.text_with = [family](std::span<const double> values) { return family->text(values); };
  return std::move(study_);
}

}  // namespace

Study parse_study(std::string_view text, const std::filesystem::path& file) {
  const Node root = parse_toml(text, file.string());
  Findings findings(file.string());
  const Section top(root, "", findings);
  Study study = Reader(top, file).read();
  study.file = file.string();
  study.text = text;
  study.sha256 = sha256(study.text);
  return study;
}

Study read_study(const std::filesystem::path& file) {
  return parse_study(file_text(file, "a study file"), file);
}

}  // namespace drumlin::cases
