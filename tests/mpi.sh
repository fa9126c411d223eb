#!/usr/bin/env bash
# Builds drumlin-mpi in a tree of its own and runs what concerns it: sweeps by ranks, killed and
# stopped. On Debian 12 it installs Open MPI. Works from any folder; arguments go to ctest.
set -euo pipefail
# shellcheck source-path=SCRIPTDIR source=support/prepare.sh
. "$(dirname "${BASH_SOURCE[0]}")/support/prepare.sh"

need_packages "${build_packages[@]}" openmpi-bin libopenmpi-dev
build mpi drumlin-mpi
cd "$root"
exec ctest --preset mpi -L mpi "$@"
