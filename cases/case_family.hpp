#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "cases/case.hpp"
#include "cases/document.hpp"
#include "cases/key_path.hpp"
#include "cases/library.hpp"
#include "cases/schema.hpp"

namespace drumlin::cases {

/// A case file that has been read and stays open for changes of its keys.
class OpenCase {
 public:
  /// @throws CaseError as the reader does.
  explicit OpenCase(const std::filesystem::path& file);
  /// The same from text; `file` names it in messages and says where materials lie.
  OpenCase(std::string text, const std::filesystem::path& file);
  /// A document that is being read: only its keys may be asked for.
  /// @param known  what is wrong with it, which nobody is told again.
  OpenCase(Node root, Library library, std::vector<Problem> known);

  /// Puts a value under a key for good.
  /// @throws CaseError as the reader does; the case is then as it was.
  void set(const KeyPath& path, const Node& value);

  [[nodiscard]] const Case& as_read() const noexcept { return as_read_; }
  [[nodiscard]] const Node& document() const noexcept { return root_; }

  /// How the reader takes the key of a path; none for a key with rules of its own (a name to be
  /// looked up, a limit, an amount).
  ///
  /// @param path   every entry numbered.
  /// @param value  tried under it where the file has none.
  /// @throws CaseError for a key that the reader does not know.
  [[nodiscard]] std::optional<KeyInfo> declaration(const KeyPath& path, const Node& value) const;

  /// What the reader refuses in a changed document section by section, whatever else of it may not
  /// fit together.
  [[nodiscard]] std::vector<Problem> problems_by_section(const Node& changed) const;

  /// Reads a changed document with all that the reader checks and says.
  ///
  /// The case keeps the file's own text and hash.
  /// @throws CaseError
  [[nodiscard]] Case read(const Node& changed) const;

 private:
  Node root_;
  Library library_;
  Case as_read_;
  std::vector<Problem> known_;
};

/// A key that the cases of a family differ in.
struct VariedKey {
  KeyPath path;  ///< every entry numbered
  /// Values that it takes by their number, where it holds no number; empty where it does.
  std::vector<Node> levels{};
  std::string unit{};            ///< that its numbers are shown in; empty for pure numbers
  bool whole = false;            ///< whether its numbers are whole
  std::vector<double> probes{};  ///< numbers of its range [inner unit], at least one
};

/// All cases that one case becomes under other values of some of its keys.
///
/// A number whose key does nothing but hold it is set there directly, followed by the reader's
/// checks of what must fit together; whatever these refuse, and any other key, is read anew from
/// the changed document, so that a case of the family is in every respect what the reader would
/// make of a file with those values, and what is wrong with one is said in its words. Which keys
/// may be set directly is not declared but seen: the case set directly must equal the case read, at
/// every probe.
class CaseFamily {
 public:
  CaseFamily(OpenCase base, std::vector<VariedKey> keys);

  [[nodiscard]] const OpenCase& base() const noexcept { return base_; }
  [[nodiscard]] std::size_t keys() const noexcept { return keys_.size(); }

  /// The case under these values, one per key: a number in the inner unit, or the number of a
  /// level. Pure; may be asked by several threads.
  ///
  /// @throws CaseError with what the reader would say.
  [[nodiscard]] Case with(std::span<const double> values) const;

  /// The same, read anew whatever the keys: the judge of `with`.
  [[nodiscard]] Case read_anew(std::span<const double> values) const;

  /// The file of the case under these values, such that the reader reads the very same numbers.
  [[nodiscard]] std::string text(std::span<const double> values) const;

  /// Whether the number of a key is set directly, in the case as read.
  [[nodiscard]] bool sets_directly(std::size_t key) const;

 private:
  struct Branch;  // the cases that share all levels

  [[nodiscard]] Node changed(std::span<const double> values) const;
  [[nodiscard]] std::shared_ptr<const Branch> branch(std::span<const double> values) const;
  [[nodiscard]] std::shared_ptr<const Branch> make_branch(std::span<const double> values) const;

  OpenCase base_;
  std::vector<VariedKey> keys_;
  mutable std::mutex mutex_;
  mutable std::map<std::vector<std::size_t>, std::shared_ptr<const Branch>> branches_;
};

/// Whether two cases say the same, notes and texts of the file aside.
[[nodiscard]] bool same_values(const Case& a, const Case& b);

}  // namespace drumlin::cases
