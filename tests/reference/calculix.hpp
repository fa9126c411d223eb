#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include <Eigen/SparseCore>

#include "tests/reference/cover_mesh.hpp"

namespace drumlin::reference {

/// Whether CalculiX (`ccx`) can be started here.
[[nodiscard]] bool calculix_is_here();

/// What is said where it cannot.
inline constexpr const char* no_calculix =
    "CalculiX is not installed: apt-get install calculix-ccx (Debian 12: 2.20)";

/// Which 8-node quadrilateral.
enum class Integration {
  reduced,  ///< CPE8R, 2 x 2 points: does not lock near nu = 0.5
  full      ///< CPE8, 3 x 3 points
};

/// What the cover is made of.
struct Material {
  double modulus = 1.0;        ///< E [MPa]
  double poisson_ratio = 0.0;  ///< nu [-]
  /// Neo-Hookean under finite strain, W = C10 (I1' - 3) + (J - 1)^2 / D1 with 2 C10 = G, 2 / D1 =
  /// K; else linear under small strain.
  bool finite_strain = false;
  Integration integration = Integration::reduced;
};

/// Stiffness matrix of a cover, hub and mirrors held, as CalculiX assembles it.
struct Stiffness {
  Eigen::SparseMatrix<double> matrix;   ///< [MPa] per mm of drum length
  std::vector<int> column_x, column_y;  ///< of each node; -1 where held
};
[[nodiscard]] Stiffness stiffness(const CoverMesh& mesh, const Material& material);

/// Surface nodes brought to a height by the plate, and what it takes.
struct SurfaceState {
  std::vector<double> force;  ///< vertical, of each surface node [N/mm], > 0 where the plate pushes
  std::vector<double> rise;   ///< vertical displacement of each surface node [mm]
  std::vector<double> slide;  ///< horizontal displacement [mm]
};

/// Lifts the pressed surface nodes by `rise` (free to slide), all others free. One run of CalculiX:
/// linear, or Newton steps with the load in `increments` parts under finite strain.
[[nodiscard]] SurfaceState press(const CoverMesh& mesh, const Material& material,
                                 const std::vector<bool>& pressed, const std::vector<double>& rise,
                                 int increments = 1);

/// Runs `ccx` on one core in a folder that holds `job.inp`. @throws std::runtime_error with the end
/// of its output where it fails.
void run_calculix(const std::filesystem::path& folder);

/// Nodes, elements, material, hub and mirrors as CalculiX reads them; nodes count from 1.
[[nodiscard]] std::string model_text(const CoverMesh& mesh, const Material& material);

/// Rows "node v1 v2 v3" of the last block of the .dat file whose heading begins with `heading`.
struct NodeRow {
  std::size_t node;  ///< from 0
  double x, y;
};
[[nodiscard]] std::vector<NodeRow> last_block(const std::filesystem::path& file,
                                              const std::string& heading);

}  // namespace drumlin::reference
