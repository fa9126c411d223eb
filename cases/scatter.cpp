#include "cases/scatter.hpp"

#include <algorithm>
#include <memory>
#include <stdexcept>
#include <utility>

#include "cases/study_parts.hpp"

namespace drumlin::cases {

FactorKey scattered_factor(const ScatteredKey& key) {
  FactorKey made;
  made.factor.key = key.key;
  made.factor.meaning = key.meaning;
  made.factor.unit = key.unit;
  made.factor.distribution = key.distribution;
  made.varied.path = parse_path(key.key);
  made.varied.unit = key.unit;
  made.varied.probes = probes_of(made.factor);
  return made;
}

void keep_setting(OpenCase& base) {
  const KeyPath path = parse_path("part.set_thickness");
  if (find(base.document(), path) != nullptr) return;
  const Node* own = find(base.document(), parse_path("part.thickness"));
  if (own != nullptr) base.set(path, *own);
}

void set_model(OpenCase& base, const std::string& model) {
  Node value;
  value.kind = Node::Kind::string;
  value.text = model;
  base.set(parse_path("numerics.model"), value);
}

Study scatter_of(const Case& scenario) {
  OpenCase base(scenario.text, scenario.file);
  const auto uncertainty = base.as_read().uncertainty;
  if (!uncertainty) throw std::invalid_argument("nothing scatters in this case");
  set_model(base, uncertainty->model);
  if (std::any_of(uncertainty->keys.begin(), uncertainty->keys.end(),
                  [](const ScatteredKey& key) { return key.key == "part.thickness"; }))
    keep_setting(base);
  Study study;
  study.title = scenario.title;
  study.file = scenario.file;
  study.text = scenario.text;
  study.sha256 = scenario.sha256;
  study.base = base.as_read();
  study.design = DesignKind::sobol;
  study.points = static_cast<std::uint64_t>(uncertainty->size);
  study.seed = static_cast<std::uint64_t>(uncertainty->seed);
  std::vector<VariedKey> varied;
  for (const ScatteredKey& key : uncertainty->keys) {
    FactorKey made = scattered_factor(key);
    study.factors.push_back(std::move(made.factor));
    varied.push_back(std::move(made.varied));
  }
  const auto family = std::make_shared<const CaseFamily>(std::move(base), std::move(varied));
  study.with = [family](std::span<const double> values) { return family->with(values); };
  return study;
}

}  // namespace drumlin::cases
