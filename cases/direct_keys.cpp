#include "cases/direct_keys.hpp"

#include <array>
#include <string_view>
#include <utility>

#include "cases/schema_part.hpp"
#include "cases/schema_rest.hpp"
#include "cases/schema_station.hpp"
#include "models/burr/burr_keys.hpp"

namespace drumlin::cases {
namespace {

/// A number's band, where the case keeps one.
template <class Owner>
struct KeyBand {
  std::string_view key;
  Sourced Owner::*band;
};
constexpr auto part_bands = std::to_array<KeyBand<Part>>({{"roughness", &Part::roughness_band}});
constexpr auto station_bands = std::to_array<KeyBand<BeltStation>>(
    {{"frame_compliance", &BeltStation::frame_compliance_band}});
constexpr auto drum_bands =
    std::to_array<KeyBand<Drum>>({{"thermal_expansion", &Drum::thermal_expansion_band}});
constexpr auto belt_bands = std::to_array<KeyBand<Belt>>({
    {"bending_stiffness", &Belt::bending_stiffness_band},
    {"grain_compliance", &Belt::grain_compliance_band},
    {"threshold_pressure", &Belt::threshold_pressure_band},
    {"mass", &Belt::mass_band},
    {"grain_spacing", &Belt::grain_spacing_band},
});

/// Sets a member of whatever `owner` finds in a case.
template <class Owner, class Find>
DirectSetter into(const Slot<Owner>& slot, const Find& owner, Sourced Owner::*band = nullptr) {
  const auto set = [owner, band](auto member) -> DirectSetter {
    return [owner, band, member](Case& scenario, double value) {
      Owner& own = owner(scenario);
      using Target = std::remove_reference_t<decltype(own.*member)>;
      if constexpr (std::is_same_v<Target, int>)
        own.*member = static_cast<int>(value);
      else
        own.*member = value;
      if (band != nullptr) own.*band = {value, value, value, "case"};
    };
  };
  if (const auto* number = std::get_if<double Owner::*>(&slot)) return set(*number);
  if (const auto* maybe = std::get_if<std::optional<double> Owner::*>(&slot)) return set(*maybe);
  if (const auto* whole = std::get_if<int Owner::*>(&slot)) return set(*whole);
  return {};
}

/// The entry of that name in a list of keys, set into what `owner` finds.
template <class Owner, class Fields, class Find, class Bands = std::array<KeyBand<Owner>, 0>>
DirectSetter by_name(const Fields& fields, std::string_view key, const Find& owner,
                     const Bands& bands = {}) {
  Sourced Owner::*band = nullptr;
  for (const KeyBand<Owner>& known : bands)
    if (known.key == key) band = known.band;
  for (const Field<Owner>& field : fields)
    if (field.info.name == key) return into<Owner>(field.slot, owner, band);
  return {};
}

DirectSetter burr_setter(std::size_t feature, std::string_view kind, const std::string& key) {
  std::string name = key;
  for (const BurrAlias& alias : burr_aliases)
    if (alias.kind == kind && alias.word == key) name = alias.key;
  return [feature, name](Case& scenario, double value) {
    models::set_number(scenario.part.features[feature].burr, name, value);
  };
}

DirectSetter feature_setter(const Case& scenario, const KeyPath& path) {
  const std::size_t index = *path[1].index;
  if (index >= scenario.part.features.size()) return {};
  if (path.size() == 3)
    return by_name<Feature>(feature_fields, path[2].key,
                            [index](Case& c) -> Feature& { return c.part.features[index]; });
  if (path.size() != 4 || path[2].key != "burr") return {};
  const auto& burr = scenario.part.features[index].burr;
  const auto kind = std::visit([](const auto& b) { return std::string_view(b.name); }, burr);
  return burr_setter(index, kind, path[3].key);
}

DirectSetter part_setter(const Case& scenario, const KeyPath& path) {
  const auto part = [](Case& c) -> Part& { return c.part; };
  const std::string& key = path[1].key;
  if (key == "feature" && path[1].index) return feature_setter(scenario, path);
  if (path.size() == 2) return by_name<Part>(part_fields, key, part, part_bands);
  if (key != "coating") return {};
  if (path.size() == 3 && path[2].key == "oxide")
    return by_name<Part>(oxide_fields, path[2].key, part);
  if (!scenario.part.coating) return {};
  if (path.size() == 3)
    return by_name<Coating>(coating_fields, path[2].key,
                            [](Case& c) -> Coating& { return *c.part.coating; });
  if (path.size() == 4 && path[2].key == "top" && scenario.part.coating->top)
    return by_name<TopLayer>(top_layer_fields, path[3].key,
                             [](Case& c) -> TopLayer& { return *c.part.coating->top; });
  return {};
}

DirectSetter setting_setter(std::size_t station, const Setting& setting, std::string_view key) {
  const auto of = [station](Case& c) -> Setting& {
    return std::get<BeltStation>(c.stations[station]).setting;
  };
  if (std::holds_alternative<InterferenceSetting>(setting))
    return by_name<InterferenceSetting>(
        interference_fields, key,
        [of](Case& c) -> InterferenceSetting& { return std::get<InterferenceSetting>(of(c)); });
  return by_name<LineLoadSetting>(line_load_fields, key, [of](Case& c) -> LineLoadSetting& {
    return std::get<LineLoadSetting>(of(c));
  });
}

DirectSetter belt_station_setter(const BeltStation& now, std::size_t index, const KeyPath& path) {
  const auto station = [index](Case& c) -> BeltStation& {
    return std::get<BeltStation>(c.stations[index]);
  };
  const std::string& key = path[1].key;
  if (path.size() == 2) return by_name<BeltStation>(station_fields, key, station, station_bands);
  if (path.size() != 3) return {};
  const auto belt = [station](Case& c) -> Belt& { return station(c).belt; };
  if (key == "drum")
    return by_name<Drum>(
        drum_fields, path[2].key, [station](Case& c) -> Drum& { return station(c).drum; },
        drum_bands);
  if (key == "belt" && path[2].key == removal_coefficient.name)
    return into<Belt>(Slot<Belt>(&Belt::removal_coefficient), belt);
  if (key == "belt") return by_name<Belt>(belt_fields, path[2].key, belt, belt_bands);
  if (key == "setting") return setting_setter(index, now.setting, path[2].key);
  return {};
}

/// Where the station of an entry of the file is kept.
std::optional<std::size_t> kept_at(const std::vector<Station>& stations, std::size_t entry) {
  for (std::size_t i = 0; i < stations.size(); ++i)
    if (index_in_file(stations, i) == entry) return i;
  return std::nullopt;
}

DirectSetter station_setter(const Case& scenario, KeyPath path) {
  const auto index = kept_at(scenario.stations, *path.front().index);
  if (!index) return {};
  // The station is one step; its keys come after it.
  const Station& station = scenario.stations[*index];
  if (const auto* belt = std::get_if<BeltStation>(&station))
    return belt_station_setter(*belt, *index, path);
  if (std::holds_alternative<KnockOffStation>(station) && path.size() == 2)
    return by_name<KnockOffStation>(knock_off_fields, path[1].key,
                                    [index = *index](Case& c) -> KnockOffStation& {
                                      return std::get<KnockOffStation>(c.stations[index]);
                                    });
  return {};
}

}  // namespace

DirectSetter direct_setter(const Case& scenario, const KeyPath& path) {
  if (path.size() < 2) return {};
  const std::string& section = path.front().key;
  const std::string& key = path[1].key;
  if (section == "part") return part_setter(scenario, path);
  if (section == "station" && path.front().index) return station_setter(scenario, path);
  if (path.size() != 2) return {};
  if (section == "conveyor")
    return by_name<Conveyor>(conveyor_fields, key, [](Case& c) -> Conveyor& { return c.conveyor; });
  if (section == "environment")
    return by_name<Case>(environment_fields, key, [](Case& c) -> Case& { return c; });
  if (section == "numerics")
    return by_name<Numerics>(numerics_fields, key, [](Case& c) -> Numerics& { return c.numerics; });
  return {};
}

}  // namespace drumlin::cases
