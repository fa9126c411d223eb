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
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// Rows that a study may have; more is a slip in a grid.
constexpr double most_rows = 1e12;
/// A list of some hundred thousand rows.
constexpr std::uintmax_t most_list_bytes = 200'000'000;

constexpr auto designs =
    std::to_array<Choice>({{"grid"}, {"latin-hypercube"}, {"sobol"}, {"list"}});
constexpr auto study_keys = std::to_array<KeyInfo>({
    {.name = "title", .kind = KeyKind::text, .meaning = "what the study is about"},
    {.name = "case", .kind = KeyKind::text, .meaning = "file of the case that is varied"},
    {.name = "model", .kind = KeyKind::text, .meaning = "fidelity, in place of the case's own"},
    {.name = "replicates",
     .kind = KeyKind::count,
     .low = 1,
     .high = 1e6,
     .meaning = "times that the design is drawn, each from its own seed"},
    {.name = "design", .meaning = "how the factors are combined"},
    {.name = "factor", .meaning = "keys that are varied"},
    {.name = "filter", .meaning = "rows that are not run"},
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
constexpr KeyInfo keep_info{
    .name = "keep", .kind = KeyKind::text, .meaning = "rows that are run", .required = true};

/// The study as it is read, part by part.
class Reader {
 public:
  Reader(const Section& top, const std::filesystem::path& file)
      : top_(top), folder_(file.parent_path()) {}

  Study read();

 private:
  void open_case();
  void read_design();
  void read_rows();
  void read_factors();
  void read_filters();
  std::optional<Filter> read_filter(const Section& item);
  void take(FactorKey key, Place at, const std::string& named_by);
  void count_points();

  const Section& top_;
  std::filesystem::path folder_;
  std::optional<OpenCase> base_;
  std::vector<FactorKey> keys_;
  bool design_known_ = false;
  Study study_;
};

void Reader::open_case() {
  KeyInfo named = study_keys[1];
  named.required = true;
  const auto name = read_text(top_, named);
  if (!name) return;
  const std::filesystem::path file = folder_ / *name;
  std::error_code error;
  if (!std::filesystem::is_regular_file(file, error)) {
    top_.problem_at_value("case", fmt::format("no such file: {}", in_quotes(file.string())));
    return;
  }
  base_.emplace(file);
  const auto model = read_text(top_, study_keys[2]);
  if (!model) return;
  Node value;
  value.kind = Node::Kind::string;
  value.text = *model;
  try {
    base_->set(parse_path("numerics.model"), value);
  } catch (const CaseError& wrong) {
    for (const Problem& problem : wrong.problems())
      top_.problem_at_value("model", problem.text);
  }
}

void Reader::read_design() {
  const auto section = top_.open("design");
  if (!section) {
    if (top_.lacks("design"))
      top_.problem_at_value("design",
                            "missing; expected [design] with kind = \"grid\", \"latin-hypercube\", "
                            "\"sobol\" or \"list\"");
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
  const bool sampled =
      study_.design == DesignKind::latin_hypercube || study_.design == DesignKind::sobol;
  only_for("size", sampled, R"("latin-hypercube" or "sobol")");
  only_for("scramble", study_.design == DesignKind::sobol, R"("sobol")");
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

std::optional<Filter> Reader::read_filter(const Section& item) {
  item.refuse_unknown({&keep_info, 1});
  const auto text = read_text(item, keep_info);
  if (!text) return std::nullopt;
  const std::size_t sign = text->find_first_of("<>");
  if (sign == std::string::npos) {
    item.problem_at_value("keep",
                          "expected a comparison of a factor with a value, such as "
                          "\"station[0].setting.interference <= 0.5 mm\"");
    return std::nullopt;
  }
  const bool or_equal = sign + 1 < text->size() && (*text)[sign + 1] == '=';
  const auto trimmed = [](std::string words) {
    words.erase(words.find_last_not_of(" \t") + 1);
    words.erase(0, words.find_first_not_of(" \t"));
    return words;
  };
  const std::string left = trimmed(text->substr(0, sign));
  Filter filter;
  filter.text = *text;
  filter.sign = (*text)[sign] == '<' ? (or_equal ? Filter::Sign::at_most : Filter::Sign::below)
                                     : (or_equal ? Filter::Sign::at_least : Filter::Sign::above);
  std::vector<std::string> names;
  std::string path = left;
  try {
    path = to_text(numbered(base_->document(), parse_path(left)));
  } catch (const PathError&) {
    path = left;
  }
  for (const FactorKey& key : keys_)
    names.push_back(key.factor.key);
  const auto found = std::find(names.begin(), names.end(), path);
  if (found == names.end()) {
    item.problem_at_value("keep", fmt::format("{} is no factor of this study{}", in_quotes(left),
                                              suggestion(left, names)));
    return std::nullopt;
  }
  filter.factor = static_cast<std::size_t>(found - names.begin());
  const FactorKey& key = keys_[filter.factor];
  if (!holds_number(key.info)) {
    item.problem_at_value("keep", fmt::format("{} holds no number to compare", in_quotes(left)));
    return std::nullopt;
  }
  Node value;
  value.place = item.find("keep")->place;
  value.text = trimmed(text->substr(sign + (or_equal ? 2 : 1)));
  value.kind = Node::Kind::string;
  if (key.info->dimension == models::dimension::number) {
    char* end = nullptr;
    value.number = std::strtod(value.text.c_str(), &end);
    if (end != value.text.c_str() && *end == '\0') value.kind = Node::Kind::number;
  }
  const auto number = quantity_of(value, *key.info, item.path("keep"), item.findings());
  if (!number) return std::nullopt;
  filter.value = *number;
  return filter;
}

void Reader::read_filters() {
  for (const Section& item : top_.open_list("filter"))
    if (auto filter = read_filter(item)) study_.filters.push_back(std::move(*filter));
}

void Reader::count_points() {
  if (study_.design == DesignKind::list) study_.points = study_.list.size();
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
  open_case();
  read_design();
  if (base_ && design_known_) {
    if (study_.design == DesignKind::list) read_rows();
    read_factors();
    read_filters();
  }
  if (findings.problems.empty()) count_points();
  throw_problems(findings);
  std::vector<VariedKey> varied;
  for (FactorKey& key : keys_) {
    key.varied.probes = probes_of(key.factor);
    if (!key.factor.unit.empty()) {
      const units::Unit unit = units::parse_unit(key.factor.unit);
      key.factor.unit_factor = unit.factor;
      key.factor.unit_offset = unit.offset;
    }
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
