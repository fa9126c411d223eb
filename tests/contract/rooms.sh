#!/usr/bin/env bash
# Arrows between rooms: what each may include besides itself, and who may know which third party.
# rooms.sh [TREE], by default the tree it lies in; prints what is wrong, exit code 1.
set -euo pipefail
cd "${1:-$(dirname "${BASH_SOURCE[0]}")/../..}"
bad=0
sources=(--include='*.hpp' --include='*.cpp')

arrows() {  # room, allowed include prefixes as a regular expression, [folder left out]
  if grep -rnE "${sources[@]}" ${3:+--exclude-dir="$3"} '^ *# *include "' "$1" |
    grep -vE "include \"($2)"; then
    echo "rooms: $1 may include only: $2" >&2
    bad=1
  fi
}

third_party() {  # header as a regular expression, the one room that may include it
  if grep -rnE "${sources[@]}" "^ *# *include [<\"]($1)" models cases sim viz | grep -v "^$2"; then
    echo "rooms: only $2 may include $1" >&2
    bad=1
  fi
}

arrows models 'models/'
arrows cases 'cases/|models/'
arrows sim 'sim/|models/|cases/(case|knobs|study|window_study)\.hpp' app
arrows sim/numerics 'sim/numerics/|models/'
arrows viz 'viz/|sim/[a-z_]*result\.hpp'
third_party 'toml' cases/
third_party 'openssl/' cases/
third_party 'hdf5|H5|vtk|EGL/' viz/
third_party 'nlohmann/|sqlite3|zlib' viz/
third_party 'fftw' sim/numerics/
third_party 'tbb/' sim/sweep/
third_party 'CLI/' sim/app/
third_party 'mpi\.h' sim/app/mpi/
exit "$bad"
