#include "cases/case_family.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "cases/direct_keys.hpp"
#include "cases/document_text.hpp"
#include "cases/file_text.hpp"
#include "cases/reader_parts.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// Digits that tell doubles apart.
constexpr int all_digits = 17;
/// Branches kept; a study with more levels than that makes some of them again.
constexpr std::size_t most_branches = 1024;

Node node_of(const VariedKey& key, double value) {
  if (!key.levels.empty()) return key.levels.at(static_cast<std::size_t>(value));
  Node node;
  node.number = value;
  if (key.whole) {
    node.kind = Node::Kind::integer;
    node.integer = static_cast<std::int64_t>(value);
  } else if (key.unit.empty()) {
    node.kind = Node::Kind::number;
  } else {
    node.kind = Node::Kind::string;
    // Short in messages; the value itself goes along.
    node.text = units::format(value, key.unit, 6);
    node.exact = value;
  }
  return node;
}

/// A number in its unit such that the reader reads this very number; in the inner unit where no
/// number of the other one becomes it.
std::string exact_text(double inner, const std::string& unit) {
  const units::Unit known = units::parse_unit(unit);
  const auto written = [](double value, const std::string& symbol) {
    return units::format_number(value, all_digits) + " " + symbol;
  };
  double above = units::in_unit(inner, known);
  double below = above;
  constexpr int steps = 4;  // two roundings, up to a whole step each
  for (int i = 0; i < steps; ++i) {
    for (const double value : {above, below})
      if (units::parse(written(value, unit)).value == inner) return written(value, unit);
    above = std::nextafter(above, std::numeric_limits<double>::infinity());
    below = std::nextafter(below, -std::numeric_limits<double>::infinity());
  }
  return written(inner, units::inner_symbol(known.dimension));
}

}  // namespace

OpenCase::OpenCase(const std::filesystem::path& file)
    : OpenCase(file_text(file, "a case file"), file) {}

OpenCase::OpenCase(std::string text, const std::filesystem::path& file)
    : root_(parse_toml(text, file.string())),
      library_(library_of(file)),
      as_read_(parse(text, file)) {}

OpenCase::OpenCase(Node root, Library library, std::vector<Problem> known)
    : root_(std::move(root)), library_(std::move(library)), known_(std::move(known)) {}

std::optional<KeyInfo> OpenCase::declaration(const KeyPath& path, const Node& value) const {
  Findings findings(as_read_.file);
  Watched watched{to_text(path), {}};
  findings.watched = &watched;
  Node tried = root_;
  if (find(tried, path) == nullptr) put(tried, path, value);
  static_cast<void>(read_sections(Section(tried, "", findings), {library_, findings}));
  const auto unknown = [](const Problem& p) { return p.text.starts_with("unknown key"); };
  const auto is_known = [&](const Problem& p) {
    return std::any_of(known_.begin(), known_.end(), [&](const Problem& known) {
      return known.line == p.line && known.column == p.column && known.text == p.text;
    });
  };
  std::erase_if(findings.problems, [&](const Problem& p) { return !unknown(p) || is_known(p); });
  throw_problems(findings);
  return watched.key;
}

std::vector<Problem> OpenCase::problems_by_section(const Node& changed) const {
  Findings findings(as_read_.file);
  static_cast<void>(read_sections(Section(changed, "", findings), {library_, findings}));
  return std::move(findings.problems);
}

void OpenCase::set(const KeyPath& path, const Node& value) {
  Node changed = root_;
  put(changed, path, value);
  // What scatters stands beside the case and does not change with it.
  auto uncertainty = std::move(as_read_.uncertainty);
  try {
    as_read_ = read(changed);
  } catch (const CaseError&) {
    as_read_.uncertainty = std::move(uncertainty);
    throw;
  }
  as_read_.uncertainty = std::move(uncertainty);
  root_ = std::move(changed);
}

Case OpenCase::read(const Node& changed) const {
  Findings findings(as_read_.file);
  Case scenario = read_document(changed, {library_, findings});
  throw_problems(findings);
  scenario.text = as_read_.text;
  scenario.sha256 = as_read_.sha256;
  scenario.unused = std::move(findings.unused);
  scenario.defaults = std::move(findings.defaults);
  return scenario;
}

bool same_values(const Case& a, const Case& b) {
  return a.title == b.title && a.seed == b.seed && a.part == b.part && a.stations == b.stations &&
         a.conveyor == b.conveyor && a.cooling == b.cooling && a.other_metals == b.other_metals &&
         a.room_temperature == b.room_temperature && a.cost == b.cost && a.accept == b.accept &&
         a.numerics == b.numerics;
}

/// One set of levels: its document, its case under some legal numbers, and the setters of those
/// keys that need no reading.
struct CaseFamily::Branch {
  Node document;
  std::optional<Case> start;          // none: no legal numbers were found, all is read anew
  std::vector<DirectSetter> setters;  // by key; empty for levels
  bool all_direct = false;            // whether every number has a setter
};

CaseFamily::CaseFamily(OpenCase base, std::vector<VariedKey> keys)
    : base_(std::move(base)), keys_(std::move(keys)) {}

Node CaseFamily::changed(std::span<const double> values) const {
  Node document = base_.document();
  // Levels first: a level may be a whole section that a number goes into.
  for (const bool numbers : {false, true})
    for (std::size_t i = 0; i < keys_.size(); ++i)
      if (keys_[i].levels.empty() == numbers)
        put(document, keys_[i].path, node_of(keys_[i], values[i]));
  return document;
}

Case CaseFamily::read_anew(std::span<const double> values) const {
  return base_.read(changed(values));
}

std::shared_ptr<const CaseFamily::Branch> CaseFamily::make_branch(
    std::span<const double> values) const {
  auto made = std::make_shared<Branch>();
  made->setters.resize(keys_.size());
  made->document = base_.document();
  for (std::size_t i = 0; i < keys_.size(); ++i)
    if (!keys_[i].levels.empty()) put(made->document, keys_[i].path, node_of(keys_[i], values[i]));
  const auto reads = [this](const Node& document) -> std::optional<Case> {
    try {
      return base_.read(document);
    } catch (const CaseError&) {
      return std::nullopt;
    }
  };
  // Every number's key is given one that goes with the rest, so that nothing is left to defaults;
  // the numbers of the row that asks are not looked at.
  for (std::size_t i = 0; i < keys_.size(); ++i) {
    for (const double value : keys_[i].probes) {
      Node tried = made->document;
      put(tried, keys_[i].path, node_of(keys_[i], value));
      if (!reads(tried)) continue;
      made->document = std::move(tried);
      break;
    }
    if (find(made->document, keys_[i].path) == nullptr) return made;
  }
  made->start = reads(made->document);
  if (!made->start) return made;
  made->all_direct = true;
  for (std::size_t i = 0; i < keys_.size(); ++i) {
    if (!keys_[i].levels.empty()) continue;
    DirectSetter set = direct_setter(*made->start, keys_[i].path);
    for (const double value : keys_[i].probes) {
      if (!set) break;
      Node probed = made->document;
      put(probed, keys_[i].path, node_of(keys_[i], value));
      const auto read = reads(probed);
      if (!read) continue;
      Case directly = *made->start;
      set(directly, value);
      if (!same_values(directly, *read)) set = {};
    }
    made->all_direct = made->all_direct && set;
    made->setters[i] = std::move(set);
  }
  return made;
}

std::shared_ptr<const CaseFamily::Branch> CaseFamily::branch(std::span<const double> values) const {
  std::vector<std::size_t> levels;
  for (std::size_t i = 0; i < keys_.size(); ++i)
    if (!keys_[i].levels.empty()) levels.push_back(static_cast<std::size_t>(values[i]));
  const std::scoped_lock lock(mutex_);
  const auto found = branches_.find(levels);
  if (found != branches_.end()) return found->second;
  if (branches_.size() >= most_branches) branches_.clear();
  return branches_.emplace(std::move(levels), make_branch(values)).first->second;
}

Case CaseFamily::with(std::span<const double> values) const {
  const auto from = branch(values);
  if (!from->start || !from->all_direct) return read_anew(values);
  Case scenario = *from->start;
  for (std::size_t i = 0; i < keys_.size(); ++i)
    if (from->setters[i]) from->setters[i](scenario, values[i]);
  Findings findings(scenario.file);
  const Section top(from->document, "", findings);
  check_part(top, scenario.part);
  check_belt_stations(top, scenario);
  check_together(top, scenario);
  if (findings.problems.empty()) return scenario;
  return read_anew(values);
}

std::string CaseFamily::text(std::span<const double> values) const {
  Node document = changed(values);
  for (std::size_t i = 0; i < keys_.size(); ++i) {
    Node node = node_of(keys_[i], values[i]);
    if (!node.exact) continue;
    node.text = exact_text(*node.exact, keys_[i].unit);
    put(document, keys_[i].path, std::move(node));
  }
  return to_toml(document);
}

bool CaseFamily::sets_directly(std::size_t key) const {
  std::vector<double> values;
  for (const VariedKey& k : keys_)
    values.push_back(k.levels.empty() ? k.probes.front() : 0.0);
  const auto from = branch(values);
  return static_cast<bool>(from->setters.at(key));
}

}  // namespace drumlin::cases
