#pragma once

#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "cases/case.hpp"
#include "cases/document.hpp"
#include "cases/reader.hpp"
#include "cases/schema.hpp"

/// The generic half of the reader: walks a list of keys over one section of a file.
namespace drumlin::cases {

/// A key that somebody wants to know the declaration of.
struct Watched {
  std::string path;            ///< dotted, such as "station[0].drum.hardness"
  std::optional<KeyInfo> key;  ///< as the reader took it; none if it has not been read as such
};

/// What reading a file gathers besides its values.
struct Findings {
  std::string file;
  std::vector<Problem> problems;
  std::vector<UnusedKey> unused;
  std::vector<std::string> defaults;
  /// Keys that a misspelt one was most likely meant to be: they are not asked for again as missing.
  std::set<std::string> misspelt;
  Watched* watched = nullptr;

  explicit Findings(std::string file_name) : file(std::move(file_name)) {}
  void problem(Place place, std::string key, std::string_view text);
  /// Says how a key is declared that is being read.
  void reads(const std::string& path, const KeyInfo& key) const {
    if (watched != nullptr && watched->path == path) watched->key = key;
  }
};

/// One table of a file, with its dotted path.
class Section {
 public:
  /// @param table  kept by reference; must outlive the section.
  Section(const Node& table, std::string path, Findings& findings)
      : table_(&table), path_(std::move(path)), findings_(&findings) {}

  [[nodiscard]] const Node* find(std::string_view key) const;
  [[nodiscard]] bool given(std::string_view key) const { return find(key) != nullptr; }
  /// True if the key is neither there nor, misspelt, reported already.
  [[nodiscard]] bool lacks(std::string_view key) const;
  /// Place of the key itself; the section's where the key is absent.
  [[nodiscard]] Place key_place(std::string_view key) const;
  /// Dotted path of a key of this section.
  [[nodiscard]] std::string path(std::string_view key) const;
  [[nodiscard]] const std::string& path() const noexcept { return path_; }
  [[nodiscard]] const Node& table() const noexcept { return *table_; }
  [[nodiscard]] Findings& findings() const noexcept { return *findings_; }

  /// Reports a problem at a key's value.
  void problem_at_value(std::string_view key, std::string_view text) const;
  /// Reports a problem at the key itself.
  void problem_at_key(std::string_view key, std::string_view text) const;
  /// Reports a problem with the section as a whole.
  void problem(std::string_view text) const;
  /// Notes what the library or the schema supplied: "path = value: why".
  void note_default(std::string_view key, std::string_view value, std::string_view why) const;
  /// Notes a key that is understood but has no effect.
  void note_unused(std::string_view key, std::string_view why) const;
  /// Reports every key that is not in the list.
  void refuse_unknown(std::span<const KeyInfo> known) const;

  /// The subsection of that name; none if absent or not a table (which is reported).
  [[nodiscard]] std::optional<Section> open(std::string_view key) const;
  /// The tables of a list such as [[station]]; reports whatever is not a table.
  [[nodiscard]] std::vector<Section> open_list(std::string_view key) const;

 private:
  const Node* table_;
  std::string path_;
  Findings* findings_;
};

/// A text as it may stand in a message: quoted, without control characters, not endless.
[[nodiscard]] std::string in_quotes(std::string_view text);

/// Checked value of a quantity; none if wrong (which is reported).
[[nodiscard]] std::optional<double> quantity_of(const Node& node, const KeyInfo& info,
                                                const std::string& path, Findings& findings);

/// Why a number is not legal for a key; empty if it is.
/// @param written  the number as it stands in the file.
/// @param unit     to state the range in.
[[nodiscard]] std::string out_of_range(double value, const KeyInfo& info, const std::string& path,
                                       std::string_view written, std::string_view unit);

/// Unit in which a key's range is stated: that of its example.
[[nodiscard]] std::string unit_of_example(const KeyInfo& info);

// Each reads one key of a section, reports what is wrong, fills in the default where the case is
// silent, and gives no value where there is none.
[[nodiscard]] std::optional<double> read_quantity(const Section& section, const KeyInfo& info);
[[nodiscard]] std::optional<int> read_count(const Section& section, const KeyInfo& info);
[[nodiscard]] std::optional<bool> read_flag(const Section& section, const KeyInfo& info);
[[nodiscard]] std::optional<std::string> read_text(const Section& section, const KeyInfo& info);
[[nodiscard]] std::optional<std::size_t> read_choice(const Section& section, const KeyInfo& info);
[[nodiscard]] std::optional<Sourced> read_sourced(const Section& section, const KeyInfo& info);

/// A text that must be there, such as a name to be looked up; none if absent or not a text.
[[nodiscard]] std::optional<std::string> read_name(const Section& section, std::string_view key,
                                                   std::string_view expected);

/// Reads one key into its place.
template <class Owner>
void read_field(const Section& section, const Field<Owner>& field, Owner& owner) {
  const KeyInfo& info = field.info;
  const auto put = [&]<class Target, class Value>(Target Owner::*member,
                                                  std::optional<Value>&& value) {
    if (value) owner.*member = std::move(*value);
  };
  if (info.kind == KeyKind::choice) {
    const auto index = read_choice(section, info);
    if (!index) return;
    if (const auto* set = std::get_if<void (*)(Owner&, std::size_t)>(&field.slot))
      (*set)(owner, *index);
    else if (const auto* word = std::get_if<std::string Owner::*>(&field.slot))
      owner.*(*word) = info.choices[*index].name;
    return;
  }
  if (const auto* number = std::get_if<double Owner::*>(&field.slot))
    put(*number, read_quantity(section, info));
  else if (const auto* maybe = std::get_if<std::optional<double> Owner::*>(&field.slot))
    put(*maybe, read_quantity(section, info));
  else if (const auto* whole = std::get_if<int Owner::*>(&field.slot))
    put(*whole, read_count(section, info));
  else if (const auto* flag = std::get_if<bool Owner::*>(&field.slot))
    put(*flag, read_flag(section, info));
  else if (const auto* text = std::get_if<std::string Owner::*>(&field.slot))
    put(*text, read_text(section, info));
  else if (const auto* value = std::get_if<Sourced Owner::*>(&field.slot))
    put(*value, read_sourced(section, info));
  else if (const auto* optional = std::get_if<std::optional<Sourced> Owner::*>(&field.slot))
    put(*optional, read_sourced(section, info));
  else if (info.kind == KeyKind::quantity)
    static_cast<void>(read_quantity(section, info));
}

/// Reads every key of a list into its owner, one of several lists of a section.
template <class Owner, class Fields>
void read_each(const Section& section, const Fields& fields, Owner& owner) {
  for (const Field<Owner>& field : fields)
    read_field(section, field, owner);
}

/// Reads every key of a list into its owner and reports unknown keys.
template <class Owner, class Fields>
void read_fields(const Section& section, const Fields& fields, Owner& owner) {
  section.refuse_unknown(infos(fields));
  read_each<Owner>(section, fields, owner);
}

/// The entry of a list by its name.
template <class Fields>
[[nodiscard]] const KeyInfo& info_of(const Fields& fields, std::string_view name) {
  for (const auto& field : fields)
    if (field.info.name == name) return field.info;
  throw std::logic_error("no key of that name in the schema");
}

}  // namespace drumlin::cases
