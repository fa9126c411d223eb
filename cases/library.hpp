#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "cases/material.hpp"

/// The material library: data files of metals, layers, abrasives, backings, covers, grits and
/// coating classes. The user's own files come before the shipped ones.
namespace drumlin::cases {

/// A name that no data file answers to; the message gives the nearest and all known ones.
class UnknownName : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Kinds of entries; each but the tables is one file per name.
enum class EntryKind { material, abrasive, backing, cover, grit, coating_class };

/// What a list of the library shows.
struct LibraryEntry {
  std::string name;
  std::string description;
  std::filesystem::path file;
};

/// Coating class of a standard: mass of both faces together.
struct CoatingClass {
  std::string name;    ///< "Z275", "G90"
  std::string layer;   ///< shipped material of the layer
  double mass = 0;     ///< [t/mm^2], both faces, triple spot
  double typical = 0;  ///< [mm] per face, as published
  double low = 0;      ///< [mm] per face, as published
  double high = 0;     ///< [mm] per face, as published
  std::string source;
};

/// What is taken for a cover of which the case says no more than its hardness.
struct ElastomerDefaults {
  Sourced poisson;
  Sourced density;            ///< [t/mm^3]
  Sourced loss_factor;        ///< tan delta [-]
  Sourced thermal_expansion;  ///< linear [1/K]
};

/// Looks names up in `<case folder>/NAME.toml`, `<case folder>/materials/NAME.toml`, then in the
/// shipped folder (abrasives, backings and covers: in subfolders of the same names).
///
/// Every look-up throws CaseError with all problems of a data file that is broken. An object (with
/// its copies) reads each file once; several threads may ask it.
class Library {
 public:
  /// @param case_folder  where the user's own files lie; empty: the shipped ones only.
  explicit Library(std::filesystem::path case_folder = {});

  /// @throws UnknownName
  [[nodiscard]] Material material(const std::string& name) const;
  /// @throws UnknownName
  [[nodiscard]] Abrasive abrasive(const std::string& name) const;
  /// @throws UnknownName
  [[nodiscard]] Backing backing(const std::string& name) const;
  /// @throws UnknownName
  [[nodiscard]] CoverMaterial cover(const std::string& name) const;
  /// "P120" (P-scale of ISO 6344 and FEPA) or "US 120" (CAMI scale).
  /// @throws UnknownName; a number without its grading is asked for it.
  [[nodiscard]] Grit grit(const std::string& designation) const;
  /// @throws UnknownName
  [[nodiscard]] CoatingClass coating_class(const std::string& name) const;
  [[nodiscard]] ElastomerDefaults elastomer() const;
  [[nodiscard]] BeltWearDefaults belt_wear() const;

  /// Everything of a kind, user's files included, by name.
  [[nodiscard]] std::vector<LibraryEntry> list(EntryKind kind) const;

  /// Folder of the shipped files: environment variable DRUMLIN_MATERIALS, else
  /// ../share/drumlin/materials beside the running program, else the source tree's.
  [[nodiscard]] static std::filesystem::path shipped_folder();

 private:
  [[nodiscard]] std::vector<std::filesystem::path> folders(EntryKind kind) const;
  [[nodiscard]] std::filesystem::path find(EntryKind kind, const std::string& name) const;
  [[nodiscard]] std::vector<std::string> names(EntryKind kind) const;

  struct Known;

  std::filesystem::path case_folder_;
  std::filesystem::path shipped_;
  std::shared_ptr<Known> known_;
};

/// Thickness [mm] of the layer on one face from a coating class.
///
///     thickness = mass * split / density
///
/// @param mass     of both faces together [t/mm^2].
/// @param split    share on that face [-].
/// @param density  of the layer [t/mm^3]; 7.14 g/cm3 for zinc.
[[nodiscard]] constexpr double layer_thickness(double mass, double split, double density) noexcept {
  return mass * split / density;
}

}  // namespace drumlin::cases
