#include <array>
#include <memory>

#include <fmt/format.h>

#include "cases/file_text.hpp"
#include "cases/reader_parts.hpp"
#include "cases/study_parts.hpp"
#include "cases/units.hpp"
#include "cases/window_reader.hpp"

namespace drumlin::cases {
namespace {

/// Cells of the finest grid each way: its points then still fit into memory many times over.
constexpr int most_fine_cells = 4096;

constexpr auto study_keys = std::to_array<KeyInfo>({
    {.name = "title", .kind = KeyKind::text, .meaning = "what the study is about"},
    {.name = "case", .kind = KeyKind::text, .meaning = "file of the case that is varied"},
    {.name = "model", .kind = KeyKind::text, .meaning = "fidelity, in place of the case's own"},
    {.name = "factor", .meaning = "keys that are varied"},
    {.name = "window", .meaning = "how the map is drawn"},
    {.name = "design", .meaning = "how a sweep combines the factors"},
    {.name = "replicates", .meaning = "times that a sweep draws its design"},
    {.name = "filter", .meaning = "rows that a sweep does not run"},
});
constexpr auto window_fields = std::to_array<Field<WindowSettings>>({
    {{.name = "cells",
      .kind = KeyKind::count,
      .low = 2,
      .high = 128,
      .meaning = "of the first grid, each way",
      .default_text = "16"},
     &WindowSettings::cells},
    {{.name = "levels",
      .kind = KeyKind::count,
      .low = 0,
      .high = 8,
      .meaning = "times that a cell may be cut into four",
      .default_text = "3"},
     &WindowSettings::levels},
    {{.name = "evaluations",
      .kind = KeyKind::count,
      .low = 9,
      .high = 1000000,
      .meaning = "of the map at most",
      .default_text = "2000"},
     &WindowSettings::evaluations},
    {{.name = "draws",
      .kind = KeyKind::count,
      .low = 8,
      .high = 100000,
      .meaning = "of what scatters, at each node",
      .default_text = "128"},
     &WindowSettings::draws},
    {{.name = "seed",
      .kind = KeyKind::count,
      .low = 0,
      .high = 2147483647,
      .meaning = "of the draws",
      .default_text = "0"},
     &WindowSettings::seed},
});

/// A distribution with its numbers in the unit of its key, such as "normal, mean 1.5 mm, deviation
/// 0.02 mm".
std::string in_words(const models::AnyDistribution& any, const std::string& unit) {
  const auto value = [&](double inner) { return units::format(inner, unit, 6); };
  // A width has no zero point: degrees of temperature are kelvins here.
  const auto width = [&](double inner) {
    const double factor = unit.empty() ? 1.0 : units::parse_unit(unit).factor;
    return fmt::format("{} {}", units::format_number(inner / factor, 6),
                       unit == "degC" ? "K" : unit);
  };
  return std::visit(
      [&](const auto& d) {
        using Kind = std::decay_t<decltype(d)>;
        std::string words(Kind::name);
        if constexpr (requires { d.mean; })
          words += fmt::format(", mean {}, deviation {}", value(d.mean), width(d.deviation));
        if constexpr (requires { d.median; })
          words += fmt::format(", median {}, factor {}", value(d.median),
                               units::format_number(d.factor, 6));
        if constexpr (requires { d.mode; }) words += fmt::format(", most often {}", value(d.mode));
        if constexpr (requires { d.low; })
          words += fmt::format(", {} to {}", value(d.low), value(d.high));
        return words;
      },
      any);
}

/// The study of a window as it is read, part by part.
class Reader {
 public:
  Reader(const Section& top, const std::filesystem::path& file)
      : top_(top), folder_(file.parent_path()) {}

  WindowStudy read();

 private:
  void expect_limits();
  void read_settings();
  void read_factors();
  void take_axis(const Section& item, FactorKey key);
  [[nodiscard]] std::optional<double> own_value(const FactorKey& key) const;
  void note_unused(std::string_view key, std::string_view why);

  const Section& top_;
  std::filesystem::path folder_;
  std::optional<OpenCase> base_;
  std::vector<FactorKey> axes_, scatter_;
  std::vector<std::string> taken_;
  WindowStudy study_;
};

void Reader::note_unused(std::string_view key, std::string_view why) {
  if (top_.given(key)) study_.unused.push_back(fmt::format("{}: {}", key, why));
}

void Reader::expect_limits() {
  const Accept& accept = base_->as_read().accept;
  std::size_t limits = accept.limits.size() - accept.limits.count("belt_life");
  for (const FeatureLimits& of : accept.features)
    limits += of.limits.size();
  if (limits == 0)
    top_.problem_at_value("case",
                          fmt::format("{} sets no limits that a window could be drawn of; give it "
                                      "[accept], such as coating_left = \">= 7 um\"",
                                      in_quotes(base_->as_read().file)));
}

void Reader::read_settings() {
  const auto section = top_.open("window");
  if (!section) return;
  std::vector<KeyInfo> known;
  for (const auto& field : window_fields)
    known.push_back(field.info);
  section->refuse_unknown(known);
  const std::size_t before = top_.findings().problems.size();
  for (const auto& field : window_fields)
    read_field(*section, field, study_.settings);
  if (top_.findings().problems.size() != before) return;
  const WindowSettings& s = study_.settings;
  if ((s.cells << s.levels) > most_fine_cells)
    section->problem_at_value("levels",
                              fmt::format("makes {} cells each way of {}; at most {} are taken",
                                          s.cells << s.levels, s.cells, most_fine_cells));
  if (s.evaluations < (s.cells + 1) * (s.cells + 1))
    section->problem_at_value(
        section->given("evaluations") ? "evaluations" : "cells",
        fmt::format("the first grid of {0} cells each way takes {1} evaluations; expected at "
                    "least as many as evaluations",
                    s.cells, (s.cells + 1) * (s.cells + 1)));
}

std::optional<double> Reader::own_value(const FactorKey& key) const {
  const Node* value = find(base_->document(), key.varied.path);
  if (value == nullptr) return std::nullopt;
  Findings ignored(top_.findings().file);  // the case has been read already
  return quantity_of(*value, *key.info, key.factor.key, ignored);
}

void Reader::take_axis(const Section& item, FactorKey key) {
  if (key.varied.whole) {
    item.problem_at_key("from",
                        fmt::format("{} holds whole numbers; the two settings of a window move "
                                    "without steps",
                                    in_quotes(key.factor.key)));
    return;
  }
  if (const Node* scale = item.find("scale"); scale != nullptr && scale->text == "log") {
    item.problem_at_value("scale", "the axes of a window are linear; leave scale out");
    return;
  }
  if (item.given("steps"))
    study_.unused.push_back(fmt::format("{}: a window finds its own steps ([window] cells, levels)",
                                        item.path("steps")));
  axes_.push_back(std::move(key));
}

void Reader::read_factors() {
  for (const Section& item : top_.open_list("factor")) {
    const std::size_t before = top_.findings().problems.size();
    // As in a sampled design: a range without steps is one that may be taken anywhere.
    auto key = read_factor(item, *base_, DesignKind::latin_hypercube);
    if (!key || top_.findings().problems.size() != before) continue;
    for (const std::string& other : taken_)
      if (other == key->factor.key)
        item.problem_at_value("key", fmt::format("{} is varied already", in_quotes(other)));
    taken_.push_back(key->factor.key);
    if (item.given("values"))
      item.problem_at_key("values",
                          "a window has two settings with from and to, and what scatters with a "
                          "distribution; expected from and to");
    else if (item.given("from"))
      take_axis(item, std::move(*key));
    else
      scatter_.push_back(std::move(*key));
  }
  if (top_.findings().problems.empty() && axes_.size() != 2)
    top_.problem_at_value(
        "factor", fmt::format("{} with from and to; a window is drawn over exactly two",
                              axes_.empty()       ? "no factor"
                              : axes_.size() == 1 ? "one factor"
                                                  : fmt::format("{} factors", axes_.size())));
}

WindowStudy Reader::read() {
  Findings& findings = top_.findings();
  top_.refuse_unknown(study_keys);
  study_.title =
      read_text(top_, study_keys[0]).value_or(std::filesystem::path(findings.file).stem().string());
  if (top_.given("filter"))
    top_.problem_at_key("filter", "a window leaves nothing out; narrow from and to instead");
  note_unused("design", "a window finds its own points");
  note_unused("replicates", "a window is drawn once");
  base_ = open_study_case(top_, folder_);
  read_settings();
  if (base_) {
    expect_limits();
    read_factors();
  }
  throw_problems(findings);

  std::vector<VariedKey> varied;
  for (std::size_t k = 0; k < 2; ++k) {
    FactorKey& key = axes_[k];
    WindowAxis& axis = study_.axes[k];
    settle(key);
    const auto [from, to] = key.factor.distribution
                                ? models::range_of(*key.factor.distribution)
                                : std::pair(key.factor.values.front(), key.factor.values.back());
    const Factor& factor = key.factor;
    axis = {factor.key,         factor.meaning, factor.unit, factor.unit_factor,
            factor.unit_offset, from,           to,          own_value(key)};
    varied.push_back(std::move(key.varied));
  }
  study_.base = base_->as_read();
  keep_setting(*base_, scatter_);
  const auto plain = std::make_shared<const CaseFamily>(OpenCase(*base_), varied);
  study_.with = [plain](std::span<const double> values) { return plain->with(values); };
  for (FactorKey& key : scatter_) {
    settle(key);
    study_.scatter_words.push_back(in_words(*key.factor.distribution, key.factor.unit));
    study_.scatter.push_back(std::move(key.factor));
    varied.push_back(std::move(key.varied));
  }
  const auto scattered = std::make_shared<const CaseFamily>(std::move(*base_), std::move(varied));
  study_.with_scatter = [scattered](std::span<const double> values) {
    return scattered->with(values);
  };
  return std::move(study_);
}

}  // namespace

WindowStudy parse_window(std::string_view text, const std::filesystem::path& file) {
  const Node root = parse_toml(text, file.string());
  Findings findings(file.string());
  const Section top(root, "", findings);
  WindowStudy study = Reader(top, file).read();
  study.file = file.string();
  study.text = text;
  study.sha256 = sha256(study.text);
  return study;
}

WindowStudy read_window(const std::filesystem::path& file) {
  return parse_window(file_text(file, "a study file"), file);
}

}  // namespace drumlin::cases
