#!/usr/bin/env bash
# package_test.sh BUILD: installs a built tree elsewhere, runs the installed program with its own
# library, builds another program on the installed rooms, and the same from within a source tree.
set -euo pipefail
build=$1
source=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT

fail() {
  echo "package_test: $*" >&2
  exit 1
}

cmake --install "$build" --prefix "$place/usr" >/dev/null
[ -f "$place/usr/share/drumlin/materials/DX51D.toml" ] || fail "no library was installed"
"$place/usr/bin/drumlin" materials DX51D >"$place/out" || fail "the installed program does not run"

mkdir "$place/other"
cat >"$place/other/main.cpp" <<'CPP'
#include <cstdio>

#include "cases/units.hpp"
#include "models/elastomer/hardness.hpp"
#include "sim/run.hpp"

int main() {
  drumlin::sim::Progress nobody;
  std::printf("%.3f %d\n", drumlin::models::gent_modulus(20), nobody ? 1 : 0);
}
CPP
cat >"$place/other/CMakeLists.txt" <<'CMAKE'
cmake_minimum_required(VERSION 3.25)
project(other LANGUAGES C CXX)
set(CMAKE_CXX_STANDARD 20)
find_package(drumlin REQUIRED)
add_executable(other main.cpp)
target_link_libraries(other PRIVATE drumlin::sim drumlin::cases)
CMAKE
flags=$(sed -n 's/^CMAKE_CXX_FLAGS:[^=]*=//p' "$build/CMakeCache.txt")
cmake -S "$place/other" -B "$place/other/build" -G Ninja -DCMAKE_PREFIX_PATH="$place/usr" \
  -DCMAKE_CXX_FLAGS="$flags" >"$place/log" 2>&1 || { cat "$place/log"; fail "find_package(drumlin)"; }
cmake --build "$place/other/build" >"$place/log" 2>&1 || { cat "$place/log"; fail "link"; }
# 20 Shore A after Gent: 0.732 MPa.
[ "$("$place/other/build/other")" = "0.732 0" ] || fail "the other program gives another number"

cat >"$place/other/CMakeLists.txt" <<CMAKE
cmake_minimum_required(VERSION 3.25)
project(other LANGUAGES C CXX)
set(CMAKE_CXX_STANDARD 20)
set(DRUMLIN_PICTURES OFF)
add_subdirectory("$source" drumlin)
add_executable(other main.cpp)
target_link_libraries(other PRIVATE drumlin::sim drumlin::cases)
CMAKE
cmake -S "$place/other" -B "$place/other/tree" -G Ninja >"$place/log" 2>&1 ||
  { cat "$place/log"; fail "add_subdirectory"; }
