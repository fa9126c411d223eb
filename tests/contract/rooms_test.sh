#!/usr/bin/env bash
# rooms.sh finds a forbidden arrow, and finds none in this tree.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
tree=$(mktemp -d)
trap 'rm -rf "$tree"' EXIT

fail() {
  echo "rooms_test: $*" >&2
  exit 1
}

# in_tree FILE LINE: a tree of empty rooms with this one line in this one file.
in_tree() {
  rm -rf "$tree"
  mkdir -p "$tree"/{models,cases,sim/app,sim/numerics,viz}
  printf '%s\n' "$2" >"$tree/$1"
  bash "$here/rooms.sh" "$tree" >/dev/null 2>&1
}

bash "$here/rooms.sh" || fail "this tree has a forbidden arrow"
in_tree models/a.hpp '#include "models/b.hpp"' || fail "models may include models"
in_tree sim/a.cpp '#include "cases/case.hpp"' || fail "sim may include cases/case.hpp"
in_tree viz/a.cpp '#include "sim/result.hpp"' || fail "viz may include results"
in_tree sim/app/a.cpp '#include "viz/writers.hpp"' || fail "the program may include every room"
if in_tree models/a.hpp '#include "cases/case.hpp"'; then fail "models must not know cases"; fi
if in_tree cases/a.cpp '#include "sim/result.hpp"'; then fail "cases must not know sim"; fi
if in_tree sim/a.cpp '#include "cases/reader.hpp"'; then fail "sim must not know the reader"; fi
if in_tree sim/a.cpp '#include "viz/writers.hpp"'; then fail "sim must not know viz"; fi
if in_tree sim/numerics/a.cpp '#include "sim/setup.hpp"'; then fail "numerics must not know setups"; fi
if in_tree viz/a.cpp '#include "sim/setup.hpp"'; then fail "viz must not know setups"; fi
if in_tree sim/a.cpp '#include <toml++/toml.h>'; then fail "only cases may know toml++"; fi
if in_tree sim/a.cpp '#include <hdf5.h>'; then fail "only viz may know HDF5"; fi
