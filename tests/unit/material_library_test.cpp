#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/library.hpp"
#include "cases/reader.hpp"
#include "cases/suggest.hpp"
#include "tests/support/marked_case.hpp"

namespace drumlin::cases {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;
using testing::StartsWith;

/// A folder of its own for each test, gone afterwards.
class UserMaterials : public testing::Test {
 protected:
  UserMaterials() { fs::create_directories(folder_ / "materials" / "abrasives"); }
  ~UserMaterials() override {
    std::error_code error;
    fs::remove_all(folder_, error);
  }
  UserMaterials(const UserMaterials&) = delete;
  UserMaterials& operator=(const UserMaterials&) = delete;

  void write(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name) << text;
  }
  [[nodiscard]] fs::path file(const std::string& name) const { return folder_ / name; }
  [[nodiscard]] std::string complaint(const std::string& text) const {
    try {
      static_cast<void>(parse(text, folder_ / "panel.toml"));
    } catch (const CaseError& error) {
      return error.what();
    }
    return "";
  }

 private:
  fs::path folder_ = fs::path(testing::TempDir()) /
                     ("drumlin-materials-" + std::to_string(std::random_device{}()));
};

std::string brass(const std::string& density) {
  return "description = \"brass of this shop\"\nfamily = \"steel\"\n"
         "density = { value = \"" +
         density +
         "\", low = \"8300 kg/m3\", high = \"8600 kg/m3\", source = \"scales\" }\n"
         "specific_energy = { value = \"9 J/mm3\", low = \"5 J/mm3\", high = \"20 J/mm3\", source "
         "= "
         "\"own trial\" }\n"
         "yield_stress = { value = \"150 MPa\", low = \"120 MPa\", high = \"200 MPa\", source = "
         "\"certificate\" }\n";
}

std::string case_of(const std::string& material) {
  return support::with("material = \"DX51D\"", "material = \"" + material + "\"");
}

double coefficient(const Abrasive& abrasive, const Material& material) {
  return abrasive.friction.value / material.specific_energy.value;
}

TEST(MaterialLibrary, HasTheMetalsAndGrainsOfTheContract) {
  const Library library;
  for (const char* name :
       {"DX51D", "DC01", "S235", "S355", "1.4301", "5754", "zinc", "zinc-alloy", "zinc-magnesium",
        "galvannealed", "anodic-film", "oxide-film", "primer", "dross", "slag"})
    EXPECT_EQ(library.material(name).name, name);
  for (const char* name : {"alumina", "zirconia", "ceramic", "silicon-carbide"})
    EXPECT_EQ(library.abrasive(name).name, name);
  for (const char* name : {"paper", "J", "X", "Y"})
    EXPECT_EQ(library.backing(name).name, name);
}

TEST(MaterialLibrary, GivesEveryValueABandAndASource) {
  const Library library;
  const auto check = [](const Sourced& value, const std::string& of) {
    EXPECT_LE(value.low, value.value) << of;
    EXPECT_GE(value.high, value.value) << of;
    EXPECT_LT(value.low, value.high) << of;
    EXPECT_GT(value.source.size(), 10U) << of;
  };
  for (const auto& entry : library.list(EntryKind::material)) {
    const Material material = library.material(entry.name);
    check(material.density, entry.name);
    check(material.specific_energy, entry.name);
    if (material.yield_stress) check(*material.yield_stress, entry.name);
    if (material.bond_strength) check(*material.bond_strength, entry.name);
    ASSERT_TRUE(material.conductivity && material.specific_heat) << entry.name;
    check(*material.conductivity, entry.name);
    check(*material.specific_heat, entry.name);
    if (material.melting_point) check(*material.melting_point, entry.name);
  }
  for (const auto& entry : library.list(EntryKind::abrasive)) {
    const Abrasive abrasive = library.abrasive(entry.name);
    check(abrasive.friction, entry.name);
    check(abrasive.friction_wet, entry.name);
    check(abrasive.threshold_pressure, entry.name);
  }
  for (const auto& entry : library.list(EntryKind::backing)) {
    const Backing backing = library.backing(entry.name);
    check(backing.bending_stiffness, entry.name);
    check(backing.mass, entry.name);
    ASSERT_TRUE(backing.bead_height) << entry.name;
    check(*backing.bead_height, entry.name);
  }
  for (const auto& entry : library.list(EntryKind::cover)) {
    const CoverMaterial cover = library.cover(entry.name);
    check(cover.poisson, entry.name);
    check(cover.density, entry.name);
    EXPECT_GT(cover.source.size(), 10U) << entry.name;
    EXPECT_GT(cover.caveats.size(), 10U) << entry.name;
  }
  const ElastomerDefaults usual = library.elastomer();
  for (const Sourced& value :
       {usual.poisson, usual.density, usual.loss_factor, usual.thermal_expansion})
    check(value, "elastomer");
}

// A file that is silent about heat gets what is usual in its family; other families stay unknown.
TEST_F(UserMaterials, TakeUpHeatAsIsUsualInTheirFamily) {
  write("brass.toml", brass("8500 kg/m3"));
  const Case usual = parse(case_of("brass"), file("panel.toml"));
  ASSERT_TRUE(usual.part.material.conductivity);
  EXPECT_DOUBLE_EQ(usual.part.material.conductivity->value, 50.0);
  EXPECT_THAT(usual.part.material.conductivity->source, HasSubstr("usual in the family"));
  write("brass.toml", brass("8500 kg/m3") +
                          "conductivity = { value = \"115 W/m/K\", low = \"110 W/m/K\", high = "
                          "\"120 W/m/K\", source = \"handbook\" }\n");
  EXPECT_NEAR(parse(case_of("brass"), file("panel.toml")).part.material.conductivity->value, 115.0,
              1e-9);
  EXPECT_FALSE(Library().material("primer").melting_point);
}

// Slag is brittle oxide that comes off by chipping, dross is metal: the one clings less.
TEST(MaterialLibrary, LetsSlagClingLessThanDross) {
  const Library library;
  EXPECT_LT(library.material("slag").bond_strength->value,
            library.material("dross").bond_strength->value);
  EXPECT_FALSE(library.material("zinc").bond_strength);
}

// What goes with the grain goes with its diameter, in the ratio of P60 to P120: 269 to 125 um.
TEST(MaterialLibrary, LetsGrainsStandApartByTheirSize) {
  const Library library;
  const Grit coarse = library.grit("P60");
  const Grit fine = library.grit("P120");
  const double ratio = 0.269 / 0.125;
  EXPECT_NEAR(coarse.grain_spacing.value / fine.grain_spacing.value, ratio, 1e-12);
  EXPECT_NEAR(coarse.grain_spacing.high / fine.grain_spacing.high, ratio, 1e-12);
  EXPECT_NEAR(coarse.bead_height.value / fine.bead_height.value, ratio, 1e-12);
  EXPECT_LT(fine.grain_spacing.low, fine.grain_spacing.value);
  EXPECT_GT(fine.grain_spacing.source.size(), 10U);
}

// K = mu/u of steels: mu 0.3 to 0.6, u 10 to 40 J/mm3 span 0.5e-5 to 6e-5 per MPa.
TEST(MaterialLibrary, KeepsTheRemovalCoefficientOfSteelInItsBracket) {
  const Library library;
  for (const char* grain : {"alumina", "zirconia", "ceramic", "silicon-carbide"}) {
    for (const char* metal :
         {"DX51D", "DC01", "DC04", "S235", "S280GD", "S355", "1.4301", "5754"}) {
      const double k = coefficient(library.abrasive(grain), library.material(metal));
      EXPECT_GT(k, 0.5e-5) << grain << " on " << metal;
      EXPECT_LT(k, 6e-5) << grain << " on " << metal;
    }
  }
}

// Zinc takes 0.2 to 0.5 of steel's energy: two to five times its removal.
TEST(MaterialLibrary, LetsZincGoTwoToFiveTimesFasterThanSteel) {
  const Library library;
  const Abrasive grain = library.abrasive("alumina");
  const double ratio =
      coefficient(grain, library.material("zinc")) / coefficient(grain, library.material("DX51D"));
  EXPECT_GE(ratio, 2);
  EXPECT_LE(ratio, 5);
}

// ISO 6344 / FEPA and CAMI mean diameters; P80 and P240 differ from their namesakes.
TEST(MaterialLibrary, TellsTheGradingSystemsApart) {
  const Library library;
  EXPECT_DOUBLE_EQ(library.grit("P80").mean_diameter, 0.201);
  EXPECT_DOUBLE_EQ(library.grit("US 80").mean_diameter, 0.192);
  EXPECT_DOUBLE_EQ(library.grit("P240").mean_diameter, 0.0585);
  EXPECT_DOUBLE_EQ(library.grit("US 240").mean_diameter, 0.0535);
  EXPECT_THROW(static_cast<void>(library.grit("source")), UnknownName);
}

TEST(MaterialLibrary, OrdersGritsByTheirNumber) {
  const auto grits = Library().list(EntryKind::grit);
  ASSERT_GT(grits.size(), 40U);
  EXPECT_EQ(grits.front().name, "P12");
  EXPECT_EQ(grits.back().name, "US 1200");
}

TEST(MaterialLibrary, DescribesEachEntry) {
  for (const EntryKind kind : {EntryKind::material, EntryKind::abrasive, EntryKind::backing,
                               EntryKind::cover, EntryKind::grit, EntryKind::coating_class}) {
    const auto entries = Library().list(kind);
    EXPECT_FALSE(entries.empty());
    for (const auto& entry : entries)
      EXPECT_FALSE(entry.description.empty()) << entry.name;
  }
}

TEST(MaterialLibrary, NeverTakesANameForAPath) {
  for (const char* name :
       {"../materials/zinc", "/etc/passwd", "abrasives/alumina", ".", "..", "", "tables/grits"})
    EXPECT_THROW(static_cast<void>(Library().material(name)), UnknownName) << name;
}

TEST_F(UserMaterials, OfAWholeOtherLibraryAreNamedByTheEnvironment) {
  ASSERT_EQ(setenv("DRUMLIN_MATERIALS", "/no/such/library", 1), 0);
  const std::string text = complaint(support::whole_case());
  ASSERT_EQ(unsetenv("DRUMLIN_MATERIALS"), 0);
  EXPECT_THAT(text, HasSubstr("the material library at \"/no/such/library\" cannot be read"));
  EXPECT_EQ(complaint(support::whole_case()), "");
}

TEST_F(UserMaterials, AreFoundBesideTheCase) {
  write("brass.toml", brass("8500 kg/m3"));
  EXPECT_EQ(complaint(case_of("brass")), "");
}

TEST_F(UserMaterials, AreFoundInAFolderBesideTheCase) {
  write("materials/brass.toml", brass("8500 kg/m3"));
  const Case c = parse(case_of("brass"), file("panel.toml"));
  EXPECT_DOUBLE_EQ(c.part.material.density.value, 8.5e-9);
  EXPECT_EQ(c.part.material.description, "brass of this shop");
}

TEST_F(UserMaterials, ComeBeforeTheShippedOnes) {
  write("DX51D.toml", brass("8400 kg/m3"));
  EXPECT_DOUBLE_EQ(Library(file("")).material("DX51D").density.value, 8.4e-9);
}

TEST_F(UserMaterials, AreListedWithTheShippedOnes) {
  write("materials/brass.toml", brass("8500 kg/m3"));
  write("panel.toml", support::whole_case());
  const auto entries = Library(file("")).list(EntryKind::material);
  int brasses = 0;
  for (const auto& entry : entries) {
    EXPECT_NE(entry.name, "panel") << "a case is no material";
    if (entry.name == "brass") ++brasses;
  }
  EXPECT_EQ(brasses, 1);
}

TEST_F(UserMaterials, AreCheckedLikeACaseWithTheirOwnFileAndLine) {
  write("brass.toml", brass("8500 MPa"));
  EXPECT_THAT(complaint(case_of("brass")),
              StartsWith(file("brass.toml").string() +
                         ":3:21: error: density.value: \"8500 MPa\" is a pressure; expected a "
                         "density, such as \"7850 kg/m3\""));
}

TEST_F(UserMaterials, MustHaveTheirValueInsideItsBand) {
  write("brass.toml", brass("8800 kg/m3"));
  EXPECT_THAT(complaint(case_of("brass")), HasSubstr("density.high: is below the value"));
}

TEST_F(UserMaterials, NameTheNearestWhenMisspelt) {
  write("brass.toml", brass("8500 kg/m3"));
  EXPECT_THAT(complaint(case_of("bras")),
              HasSubstr("unknown material \"bras\"; nearest is \"brass\" (known: "));
}

TEST_F(UserMaterials, WithoutYieldStressNeedAFlowStressForTheBurr) {
  std::string text = case_of("zinc");
  text.replace(text.find("flow_stress"), 26 - 4, "#          ");
  EXPECT_THAT(complaint(text), HasSubstr("expected flow_stress"));
}

TEST_F(UserMaterials, OfGrainsWorkTheSameWay) {
  write("materials/abrasives/garnet.toml",
        "description = \"garnet\"\n"
        "friction = { value = 0.35, low = 0.3, high = 0.4, source = \"own trial\" }\n"
        "friction_wet = { value = 0.3, low = 0.2, high = 0.4, source = \"own trial\" }\n"
        "threshold_pressure = { value = \"0.05 MPa\", low = \"0 MPa\", high = \"0.1 MPa\", source "
        "= \"own trial\" }\n");
  const Case c =
      parse(support::with("abrasive = \"ceramic\"", "abrasive = \"garnet\""), file("panel.toml"));
  EXPECT_EQ(std::get<BeltStation>(c.stations[0]).belt.abrasive.friction.value, 0.35);
}

TEST_F(UserMaterials, OfCoversAreCheckedToTheLastTerm) {
  fs::create_directories(file("materials/covers"));
  const std::string cover =
      "description = \"our cover\"\nsource = \"own sweep\"\ncaveats = \"one sample\"\n"
      "reference_temperature = \"23 degC\"\nslowest = \"1 Hz\"\nfastest = \"100 Hz\"\n"
      "poisson = { value = 0.47, low = 0.46, high = 0.48, source = \"own trial\" }\n"
      "density = { value = \"1100 kg/m3\", low = \"1000 kg/m3\", high = \"1200 kg/m3\", source = "
      "\"scales\" }\n"
      "shift = [ { temperature = \"10 degC\", log10 = 1 }, { temperature = \"40 degC\", log10 = "
      "-1 } ]\n";
  const std::string text =
      support::without_relaxation(support::with("poisson = 0.47", "cover_material = \"ours\""));
  write("materials/covers/ours.toml",
        cover +
            "relaxation = { relaxed = \"1 MPa\", terms = [ { time = \"1 s\", modulus = \"1 "
            "MPa\" } ] }\n");
  EXPECT_EQ(complaint(text), "");
  write("materials/covers/ours.toml",
        cover +
            "relaxation = { relaxed = \"1 MPa\", terms = [ { time = \"-1 s\", modulus = \"1 "
            "MPa\" } ] }\n");
  EXPECT_THAT(complaint(text), HasSubstr("ours.toml:10:"));
  EXPECT_THAT(complaint(text), HasSubstr("relaxation.terms[0].time: \"-1 s\" is negative"));
}

TEST(EditDistance, CountsSlips) {
  EXPECT_EQ(edit_distance("hardness", "hardness"), 0U);
  EXPECT_EQ(edit_distance("hardnes", "hardness"), 1U);
  EXPECT_EQ(edit_distance("hardenss", "hardness"), 1U);  // two letters swapped
  EXPECT_EQ(edit_distance("HARDNESS", "hardness"), 0U);
  EXPECT_EQ(edit_distance("", "abc"), 3U);
  EXPECT_EQ(edit_distance("kitten", "sitting"), 3U);  // the textbook's example
}

}  // namespace
}  // namespace drumlin::cases
