#!/usr/bin/env bash
# Every test, from a fresh clone on Debian 12: installs what is missing, builds, runs ctest.
# Works from any folder; arguments go to ctest, such as: tests/run.sh -L unit
set -euo pipefail
# shellcheck source-path=SCRIPTDIR source=support/prepare.sh
. "$(dirname "${BASH_SOURCE[0]}")/support/prepare.sh"

need_packages "${build_packages[@]}" "${test_packages[@]}"
build release all
cd "$root"
exec ctest --preset release --parallel 2 "$@"
