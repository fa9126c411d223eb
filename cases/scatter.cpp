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
  settle(made);
  return made;
}

void keep_setting(OpenCase& base, std::span<const FactorKey> keys) {
  if (std::none_of(keys.begin(), keys.end(), [](const FactorKey& key) {
        return key.factor.key == "part.thickness" && key.factor.distribution;
      }))
    return;
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
  std::vector<FactorKey> keys;
  for (const ScatteredKey& key : uncertainty->keys)
    keys.push_back(scattered_factor(key));
  keep_setting(base, keys);
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
  for (FactorKey& key : keys) {
    study.factors.push_back(std::move(key.factor));
    varied.push_back(std::move(key.varied));
  }
  const auto family = std::make_shared<const CaseFamily>(std::move(base), std::move(varied));
  study.with = [family](std::span<const double> values) { return family->with(values); };
  return study;
}

}  // namespace drumlin::cases
